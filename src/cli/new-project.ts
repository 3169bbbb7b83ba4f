import { existsSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
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

/**
 * Writes a file that does not exist yet.
 *
 * Errors: InputError where it exists or cannot be written.
 */
export function writeNew({ path, text }: { path: string; text: string }): void {
  try {
    writeFileSync(path, text, { flag: 'wx' });
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    const words = {
      EEXIST: 'exists already',
      ENOENT: 'cannot be written: its folder does not exist',
      EACCES: 'cannot be written: permission denied',
    }[code];
    const help = code === 'EEXIST' ? 'name another file; nothing was overwritten' : 'check the path';
    throw new InputError([{ id: 'not-written', message: `${path} ${words ?? `cannot be written (${code})`}`, help }]);
  }
}

/**
 * Refuses a file that is not to be replaced; asked before the work whose result it is to hold.
 *
 * @param option  that names the file
 * @param force   write over a file that exists
 * Errors: InputError where it exists, or its folder does not.
 */
export function mayWrite({ option, path, force }: { option: string; path: string | undefined; force: boolean }): void {
  if (path === undefined) return;
  if (!existsSync(dirname(path))) {
    const message = `${option}: ${path} cannot be written: its folder does not exist`;
    throw new InputError([{ id: 'not-written', message, help: 'check the path' }]);
  }
  if (force || !existsSync(path)) return;
  const help = 'name another file, or add --force to write over it';
  throw new InputError([{ id: 'not-written', message: `${option}: ${path} exists already`, help }]);
}

/**
 * Writes a file that a command was asked for, in one move: what was there is kept until the new text is complete.
 *
 * @param force  write over a file that exists
 * Errors: InputError where it exists and is not to be replaced, or cannot be written.
 */
export function writeOver({ path, text, force }: { path: string; text: string; force: boolean }): void {
  if (!force) {
    writeNew({ path, text });
    return;
  }
  const beside = `${path}.part`;
  try {
    writeFileSync(beside, text);
    renameSync(beside, path);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    throw new InputError([{ id: 'not-written', message: `${path} cannot be written (${code})`, help: 'check the path' }]);
  }
}
