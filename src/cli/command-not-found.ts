import type { Hook } from '@oclif/core/hooks';
import { diagnosticsText } from '../report/diagnostics.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { exitStatus } from './exit-status.ts';
import { refusalJson } from './base-command.ts';
import { streamLook } from './terminal.ts';

/** Says what command is not there and which one may have been meant; exit status 2. */
const commandNotFound: Hook<'command_not_found'> = ({ id, argv = [], config }) => {
  const [word = id] = id.split(':');
  const names = config.commandIDs;
  const problem = {
    id: 'unknown-command',
    message: `there is no command "${word}"`,
    help: didYouMeanHelp({ word, names }) ?? `commands: ${names.join(', ')}`,
  };
  process.exitCode = exitStatus.refused;
  if (argv.includes('--json')) process.stdout.write(`${JSON.stringify(refusalJson([problem]), undefined, 2)}\n`);
  else
    process.stderr.write(
      diagnosticsText({
        problems: [problem],
        textOf: () => undefined,
        width: streamLook({ stream: process.stderr, colour: 'never' }).width,
      }),
    );
  return Promise.resolve();
};

export default commandNotFound;
