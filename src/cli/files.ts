import { lstatSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { decodeText, mostBytes } from '../source/decode-text.ts';
import { InputError, type Diagnostic } from '../source/diagnostic.ts';
import type { Location } from '../source/location.ts';

/** Texts read so far, by path: error frames show their lines. */
const texts = new Map<string, string>();

/** The text of a file that has been read; undefined for any other path. */
export function textOf(path: string): string | undefined {
  return texts.get(path);
}

/** Keeps the text of a file that was read elsewhere. */
export function keepText({ path, text }: { path: string; text: string }): void {
  texts.set(path, text);
}

/**
 * A file as text.
 *
 * Errors: InputError where there is no such file, it is not a file, it cannot be read, is too large or is not text.
 */
export function readText(path: string): string {
  const bytes = attempt(path, () => {
    const found = statSync(path);
    if (found.isDirectory()) throw refusal({ id: 'not-a-file', message: `${path} is a folder`, help: 'name a project file in it' });
    if (!found.isFile()) throw refusal({ id: 'not-a-file', message: `${path} is not a plain file`, help: 'name a project file' });
    if (found.size > mostBytes)
      throw refusal({
        id: 'file-too-large',
        message: `${path} has ${found.size} bytes; a file has at most ${mostBytes}`,
        help: 'name a project file',
      });
    return readFileSync(path);
  });
  return textIn({ bytes, path });
}

/**
 * The text of a file from its bytes, kept for error frames.
 *
 * @param path  as it is told
 * Errors: InputError where they are too many or no text.
 */
export function textIn({ bytes, path }: { bytes: Uint8Array; path: string }): string {
  const decoded = decodeText({ bytes, path });
  if (!decoded.ok) throw new InputError(decoded.problems.map((problem) => ({ at: startOf(path), ...problem })));
  texts.set(path, decoded.value);
  return decoded.value;
}

/**
 * Names in a folder, sorted.
 *
 * Errors: InputError where the folder cannot be read.
 */
export function namesIn(folder: string): readonly string[] {
  return attempt(folder, () => readdirSync(folder)).toSorted();
}

/** Where a problem of a whole file is shown, so that it is said which file it is. */
function startOf(path: string): Location {
  return { path, line: 1, column: 1, offset: 0, length: 1 };
}

function refusal(problem: Diagnostic): InputError {
  return new InputError([problem]);
}

const causes: Readonly<Record<string, { id: string; words: string; help: string }>> = {
  ENOENT: { id: 'no-such-file', words: 'does not exist', help: 'check the path' },
  ENOTDIR: { id: 'no-such-file', words: 'does not exist: a part of the path is a file', help: 'check the path' },
  EACCES: { id: 'unreadable', words: 'cannot be read: permission denied', help: 'allow reading it' },
  EPERM: { id: 'unreadable', words: 'cannot be read: permission denied', help: 'allow reading it' },
  ELOOP: { id: 'unreadable', words: 'cannot be read: links lead in a circle', help: 'check the link' },
  ENAMETOOLONG: { id: 'no-such-file', words: 'does not exist: the name is too long', help: 'check the path' },
};

const leadsNowhere = { id: 'no-such-file', words: 'is a link to something that does not exist', help: 'check the link' };

function isLink(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true;
}

function attempt<T>(path: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (error instanceof InputError) throw error;
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    const cause = (code === 'ENOENT' && isLink(path) ? leadsNowhere : causes[code]) ?? {
      id: 'unreadable',
      words: `cannot be read (${code || 'unknown cause'})`,
      help: 'check the path',
    };
    throw refusal({ id: cause.id, message: `${path === '' ? 'a file without a name' : path} ${cause.words}`, help: cause.help });
  }
}
