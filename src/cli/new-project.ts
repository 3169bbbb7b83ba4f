import { join } from 'node:path';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { InputError } from '../source/diagnostic.ts';
import { namesIn, readText } from './files.ts';

const ending = '.yaml';

/**
 * The text that a new project file starts with.
 *
 * @param root  of the installed tool
 * @param from  an example such as `examples/bolt-heater`; undefined for the commented one
 * Errors: InputError where there is no such example.
 */
export function startingText({ root, from }: { root: string; from: string | undefined }): string {
  if (from === undefined) return readText(join(root, 'shared', 'new-project.yaml'));
  const folder = join(root, 'examples');
  const names = namesIn(folder).flatMap((name) => (name.endsWith(ending) ? [name.slice(0, -ending.length)] : []));
  const name = from.replace(/^examples\//, '').replace(/\.yaml$/, '');
  if (names.includes(name)) return readText(join(folder, `${name}${ending}`));
  const help = didYouMeanHelp({ word: name, names }) ?? `there are ${names.join(', ')}`;
  throw new InputError([{ id: 'unknown-example', message: `there is no example "${name}"`, help }]);
}
