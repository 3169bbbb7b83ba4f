import type { Hook } from '@oclif/core/hooks';
import { refuse } from './base-command.ts';
import { didYouMeanHelp } from './engine.ts';

/** Says what command is not there and which one may have been meant; exit status 2. */
const commandNotFound: Hook<'command_not_found'> = ({ id, argv = [], config }) => {
  const names = config.commandIDs;
  // an argument after the word is glued to it with a colon
  const [first = id] = id.split(':');
  const word = names.includes(first) ? id : first;
  const problem = {
    id: 'unknown-command',
    message: `there is no command "${word}"`,
    help: didYouMeanHelp({ word, names }) ?? `commands: ${names.join(', ')}`,
  };
  refuse({ problems: [problem], json: [id, ...argv].includes('--json') });
  return Promise.resolve();
};

export default commandNotFound;
