import type { Document, YAMLParseError } from 'yaml';
import { mixedLines } from './mixed-lines.ts';
import type { ListKeys } from './mixed-lines.ts';

/** A problem at offsets into the text; the caller turns offsets into lines and columns. */
export interface TextProblem {
  readonly id: string;
  readonly message: string;
  readonly label?: string;
  readonly help?: string;
  readonly start: number;
  readonly end: number;
}

function lineOf(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const end = text.indexOf('\n', start);
  return text.slice(start, end < 0 ? undefined : end);
}

const tabIndent = {
  id: 'tab-indent',
  message: 'a tab is used as indentation',
  label: 'tab',
  help: 'YAML indents with spaces: replace the tab by as many as the lines beside it begin with',
};

/** Where the bracket stands that is open at a place. */
function unclosed({ text, end, opens }: { text: string; end: number; opens: '[' | '{' }): number | undefined {
  const closes = opens === '[' ? ']' : '}';
  let closed = 0;
  for (let at = end - 1; at >= 0; at--) {
    if (text[at] === closes) closed += 1;
    else if (text[at] === opens && closed-- === 0) return at;
  }
  return undefined;
}

/** Errors of the parser behind which a slip in the lines may stand. */
const mixers: ReadonlySet<string> = new Set([
  'BLOCK_AS_IMPLICIT_KEY',
  'MULTILINE_IMPLICIT_KEY',
  'BAD_INDENT',
  'MISSING_CHAR',
  'UNEXPECTED_TOKEN',
]);

function sentenceOf(
  { code, message }: Pick<YAMLParseError, 'code' | 'message'>,
  text: string,
  start: number,
): { message: string; help: string; opens?: '[' | '{' } {
  const opening = /Flow (map|sequence)|with a [\]}]/.test(message);
  if (opening) {
    const [open, close] = message.includes('sequence') ? (['[', ']'] as const) : (['{', '}'] as const);
    return { message: `\`${open}\` is not closed`, help: `add the missing \`${close}\``, opens: open };
  }
  const before = text.slice(text.lastIndexOf('\n', start - 1) + 1, start);
  if (/[{[]/.test(before) && lineOf(text, start).slice(before.length).includes(': '))
    return { message: 'a comma is missing between two entries', help: 'separate the entries in { } or [ ] by commas' };
  switch (code) {
    case 'BAD_INDENT':
      return { message: 'the indentation fits no line above', help: 'begin all keys of one mapping in the same column' };
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
      return {
        message: 'a value and a mapping are mixed',
        help: 'write one `key: value` a line, all keys of one mapping in the same column, and quotes round text that contains `: `',
      };
    case 'BAD_SCALAR_START':
      return { message: `a value cannot begin with \`${text[start] ?? ''}\``, help: 'put the text in quotes' };
    case 'BAD_DQ_ESCAPE':
      return { message: 'a backslash in double quotes begins no known escape', help: 'use single quotes' };
    case 'NON_STRING_KEY':
      return { message: 'a key is not plain text', help: 'write keys as single words' };
    case 'MISSING_CHAR':
      return { message: 'a separator is missing', help: 'put a space after `:`, and a comma between entries in { } or [ ]' };
    default:
      return { message: 'this does not fit the lines before it', help: 'check indentation, quotes, and the space after `:`' };
  }
}

/**
 * The one problem that explains why a text is not YAML: the first error of the parser in words of our own. Errors after the first
 * are its consequences.
 *
 * @param document  with errors
 * @param text      the whole file
 * @param quotes    offsets at which a quoted text begins, ascending
 * @param lists     keys of the file that hold a list
 * @returns the problem, with offsets; ids `yaml-syntax`, `tab-indent`, `several-documents`, `alias`
 */
export function syntaxProblem({
  document,
  text,
  quotes,
  lists,
}: {
  document: Document.Parsed;
  text: string;
  quotes: readonly number[];
  lists: ListKeys;
}): TextProblem | undefined {
  const [error] = [...document.errors].sort((a, b) => a.pos[0] - b.pos[0]);
  if (!error) return undefined;
  const start = Math.max(0, Math.min(error.pos[0], text.length - 1));
  const end = Math.max(start, Math.min(error.pos[1], text.length));
  if (error.code === 'TAB_AS_INDENT' || /^ *\t/.test(lineOf(text, start))) {
    const tab = text.lastIndexOf('\n', start - 1) + 1 + Math.max(0, lineOf(text, start).indexOf('\t'));
    return { ...tabIndent, start: tab, end: tab + 1 };
  }
  if (error.code === 'MULTIPLE_DOCS')
    return {
      id: 'several-documents',
      message: 'the file holds several documents',
      help: 'give each project its own file',
      start,
      end: start + 3,
    };
  const opened = quotes.at(-1);
  if (/closing .?quote/.test(error.message) && opened !== undefined)
    return {
      id: 'yaml-syntax',
      message: `the quote ${text[opened] ?? ''} is not closed`,
      help: 'close it on the same line',
      start: opened,
      end: opened + 1,
    };
  const mixed = mixers.has(error.code) ? mixedLines({ text, start, lists }) : undefined;
  if (mixed) return mixed;
  // the parser may point at the indentation
  const indented = start + (/^ */.exec(text.slice(start, start + 200))?.[0].length ?? 0);
  const first = /\S/.test(text[indented] ?? '') ? indented : start;
  const said = sentenceOf(error, text, start);
  const opening = said.opens === undefined ? undefined : unclosed({ text, end: start, opens: said.opens });
  const [from, to] = opening === undefined ? [first, Math.max(first + 1, end)] : [opening, opening + 1];
  return { id: 'yaml-syntax', message: said.message, help: said.help, start: from, end: to };
}
