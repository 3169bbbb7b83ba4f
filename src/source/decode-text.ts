import type { Diagnostic, Outcome } from './diagnostic.ts';
import type { Location } from './location.ts';

/** Largest file that is looked at: 1 MB. A project file has a few kilobytes. */
export const mostBytes = 1_000_000;

/** C0 and C1 control characters and DEL, except tab, line feed and carriage return. */
const controlCharacter = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F]/;

/**
 * The first control character of a text.
 *
 * @param text  any
 * @returns its offset, or undefined
 *
 * @example controlCharacterAt('a\u0000') // 1
 */
export function controlCharacterAt(text: string): number | undefined {
  const offset = text.search(controlCharacter);
  return offset < 0 ? undefined : offset;
}

function placeOf({ text, path, offset }: { text: string; path: string; offset: number }): Location {
  const before = text.slice(0, offset).split('\n');
  return { path, line: before.length, column: before.at(-1)!.length + 1, offset, length: 1 };
}

const tooLarge: Diagnostic = {
  id: 'file-too-large',
  message: 'the file is larger than 1 MB',
  help: 'give a project or part file, which has a few kilobytes',
};

/**
 * What keeps a text from being read at all: its size, control characters, or nothing in it.
 *
 * @param text  without byte order mark
 * @param path  of the file, for the position
 * @returns the problem, or undefined
 */
export function textProblem({ text, path }: { text: string; path: string }): Diagnostic | undefined {
  if (text.length > mostBytes) return tooLarge;
  const offset = controlCharacterAt(text);
  if (offset !== undefined) {
    const code = text.charCodeAt(offset).toString(16).toUpperCase().padStart(4, '0');
    return {
      id: 'not-text',
      message: `the file contains the control character U+${code}`,
      help: 'save it as plain UTF-8 text',
      at: placeOf({ text, path, offset }),
    };
  }
  if (text.split('\n').every((line) => /^\s*(#.*)?$/.test(line)))
    return { id: 'empty-file', message: 'the file is empty', help: 'begin with `tankproof new`, or a copy of a file in examples' };
  return undefined;
}

/**
 * Text of a file from its bytes: UTF-8, a byte order mark removed.
 *
 * @param bytes  the whole file
 * @param path   of the file, for the position
 * @returns the text, or `file-too-large`, `not-text`, `empty-file`
 */
export function decodeText({ bytes, path }: { bytes: Uint8Array; path: string }): Outcome<string> {
  if (bytes.byteLength > mostBytes) return { ok: false, problems: [tooLarge] };
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return { ok: false, problems: [{ id: 'not-text', message: 'the file is not UTF-8 text', help: 'save it as plain UTF-8 text' }] };
  }
  const problem = textProblem({ text, path });
  return problem === undefined ? { ok: true, value: text } : { ok: false, problems: [problem] };
}
