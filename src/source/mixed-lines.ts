import type { TextProblem } from './yaml-syntax.ts';

/** Keys of a file that hold a list, with the key that an entry begins with; empty where entries are plain text. */
export type ListKeys = Readonly<Record<string, string>>;

interface Line {
  readonly indent: number;
  /** Without indentation and remark. */
  readonly body: string;
  /** Offset of the body. */
  readonly start: number;
}

/** A word that can be a key of the format. */
const word = '[A-Za-z][A-Za-z0-9]*';
const keyed = new RegExp(`^(?:- +)?(${word}):(?: |$)`);

/** The lines that say something. */
function linesOf(text: string): readonly Line[] {
  let offset = 0;
  return text.split('\n').flatMap((line): Line[] => {
    const from = offset;
    offset += line.length + 1;
    const body = line.replace(/(^|\s)#.*$/, '').trim();
    const indent = line.length - line.trimStart().length;
    return body === '' ? [] : [{ indent, body, start: from + indent }];
  });
}

const isEntry = ({ body }: Line): boolean => body === '-' || body.startsWith('- ');
const keyOf = ({ body }: Line | { readonly body: undefined }): string | undefined => keyed.exec(body ?? '')?.[1];

type Mistake = Omit<TextProblem, 'id' | 'start' | 'end'> & { readonly line: Line };

/** A list of which an entry has no dash, or begins as a text and goes on as a mapping. */
function listMistake({ lines, index, lists }: { lines: readonly Line[]; index: number; lists: ListKeys }): Mistake | undefined {
  const opens = ({ indent, body }: Line): boolean => indent === 0 && !body.startsWith('-');
  const top = lines.findLastIndex((line, i) => i < index && opens(line));
  const list = lines[top] && keyOf(lines[top]);
  if (list === undefined || !Object.hasOwn(lists, list) || opens(lines[index]!)) return undefined;
  const end = lines.findIndex((line, i) => i > top && opens(line));
  const block = lines.slice(top + 1, end < 0 ? undefined : end);
  const column = (block.find(isEntry) ?? block[0]!).indent;
  const first = lists[list] ?? '';
  const named = (body: string): string => `- ${first === '' || keyed.test(body) ? '' : `${first}: `}${body.replace(/:$/, '')}`;
  const bare = block.find((line) => !isEntry(line) && line.indent < column + 2);
  if (bare !== undefined)
    return {
      line: bare,
      message: `\`${list}\` is a list, and this line begins no entry of it`,
      help: `begin each entry with \`- \`, such as \`${named(bare.body)}\`, and its further keys two columns to the right`,
    };
  const text = block.find((line, i) => isEntry(line) && !keyed.test(line.body) && (block[i + 1]?.indent ?? 0) > line.indent);
  if (text === undefined) return undefined;
  return {
    line: text,
    message: `an entry of the list \`${list}\` is a text and has keys below it`,
    help: `write \`${named(text.body.replace(/^- */, ''))}\``,
  };
}

/** A line of its own that is no `key: value`, or two in one. */
function keyMistake({ lines, index }: { lines: readonly Line[]; index: number }): Mistake | undefined {
  const line = lines[index]!;
  const next = lines[index + 1];
  const dash = isEntry(line) ? '- ' : '';
  const body = line.body.slice(dash.length).trim();
  const [, glued, behind = ''] = new RegExp(`^(${word}):([^ :/"'].*)$`).exec(body) ?? [];
  if (glued !== undefined)
    return { line, message: `the space after \`${glued}:\` is missing`, help: `write \`${dash}${glued}: ${behind}\`` };
  const [, equalled, right = ''] = new RegExp(`^(${word}) *= *(.*)$`).exec(body) ?? [];
  if (equalled !== undefined)
    return { line, message: 'a key is joined to its value by `: `, not by `=`', help: `write \`${dash}${equalled}: ${right}\`` };
  const [, key, value = ''] = new RegExp(`^(${word}): +(.+)$`).exec(body) ?? [];
  if (key !== undefined && /^[^"'{[].*:(?: |$)/.test(value)) {
    const quotes = `\`${dash}${key}: "${value.replaceAll('"', "'")}"\``;
    return { line, message: 'two `:` stand in one line', help: `write ${quotes} if it is one text, or give each key a line of its own` };
  }
  const below = next && keyOf(next);
  // the odd one between two of the same column is this line
  const above = lines[index - 1];
  if (above !== undefined && above.indent === next?.indent && above.indent > line.indent) return columnMistake({ lines, index });
  if (key !== undefined && below !== undefined && next!.indent > line.indent + dash.length)
    return {
      line: next!,
      message: `\`${key}\` has a value and is followed by keys that are indented deeper`,
      help: `begin \`${below}:\` in the same column as \`${key}:\`, or leave the value of \`${key}\` out`,
    };
  if (body.includes(':') || /^["'{[]/.test(body)) return undefined;
  const [, first, rest = ''] = new RegExp(`^(${word})(?: +(.*))?$`).exec(body) ?? [];
  if (first === undefined) return undefined;
  const meant = rest !== '' ? `${first}: ${rest}` : next !== undefined && next.indent > line.indent ? `${first}:` : `${first}: …`;
  return { line, message: `the \`:\` after \`${first}\` is missing`, help: `write \`${dash}${meant}\`` };
}

/** An entry of a list where keys are due. */
function dashMistake(line: Line): Mistake | undefined {
  if (!isEntry(line) || keyOf(line) === undefined) return undefined;
  return {
    line,
    message: 'a dash begins an entry of a list, and the lines above are keys',
    help: `write \`${line.body.replace(/^- */, '')}\``,
  };
}

/** A key that begins further left or right than the one above it, and in no column of those further up. */
function columnMistake({ lines, index }: { lines: readonly Line[]; index: number }): Mistake | undefined {
  const [above, line] = [lines[index - 1], lines[index]!];
  const [upper, lower] = [above && keyOf(above), keyOf(line)];
  if (above === undefined || upper === undefined || lower === undefined || isEntry(line)) return undefined;
  if (line.indent > above.indent) return keyMistake({ lines: lines.slice(0, index + 1), index: index - 1 });
  return line.indent === above.indent
    ? undefined
    : {
        line,
        message: `\`${lower}:\` begins in a column of no mapping above it`,
        help: `begin all keys of one mapping in the same column: \`${upper}:\` begins in column ${above.indent + 1}, \`${lower}:\` in column ${line.indent + 1}`,
      };
}

/**
 * What is wrong with the lines at which a parser found a value and a mapping mixed: the likeliest slip of somebody who does not know
 * YAML, told in that person's own words.
 *
 * @param text   the whole file
 * @param start  offset at which the parser gave up
 * @param lists  keys that hold a list
 * @returns the problem with its own place; undefined where no such slip explains it
 */
export function mixedLines({ text, start, lists }: { text: string; start: number; lists: ListKeys }): TextProblem | undefined {
  const lines = linesOf(text);
  const lineEnd = text.indexOf('\n', start);
  const index = lines.findLastIndex((line) => line.start <= (lineEnd < 0 ? text.length : lineEnd));
  if (index < 0) return undefined;
  const mistake =
    listMistake({ lines, index, lists }) ?? keyMistake({ lines, index }) ?? columnMistake({ lines, index }) ?? dashMistake(lines[index]!);
  if (mistake === undefined) return undefined;
  const { line, ...said } = mistake;
  return { id: 'yaml-syntax', ...said, start: line.start, end: line.start + line.body.length };
}
