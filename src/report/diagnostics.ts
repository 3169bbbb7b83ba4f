import type { Diagnostic } from '../source/diagnostic.ts';
import { hanging } from './wrap.ts';

/** Longest part of a source line that a frame shows. */
const frameWidth = 72;

/**
 * Problems of inputs as text for people: fact and id, place, the line with a caret, what to write.
 *
 * @param problems  in the order to print
 * @param textOf    the text of a file that a problem points into; undefined where there is none
 * @param width     in columns
 */
export function diagnosticsText({
  problems,
  textOf,
  width,
}: {
  problems: readonly Diagnostic[];
  textOf: (path: string) => string | undefined;
  width: number;
}): string {
  return problems.map((problem) => `${diagnosticText({ problem, textOf, width })}\n`).join('\n');
}

function diagnosticText({
  problem: { id, message, label, help, at },
  textOf,
  width,
}: {
  problem: Diagnostic;
  textOf: (path: string) => string | undefined;
  width: number;
}): string {
  const lines = [...hanging({ text: `${printable(message)} [${id}]`, first: 'error: ', width })];
  if (at !== undefined) {
    lines.push(`  ${at.path}:${at.line}:${at.column}`);
    const source = textOf(at.path)
      ?.replace(/^\uFEFF/, '')
      .split(/\r\n|\r|\n/)[at.line - 1];
    if (source !== undefined) lines.push(...frame({ source, line: at.line, column: at.column, length: at.length, label }));
  }
  if (help !== undefined) lines.push(...hanging({ text: printable(help), first: '  help: ', width }));
  return lines.join('\n');
}

/** The line, cut to a window round the place, and a caret under it. Tabs and control characters become single visible columns. */
function frame({
  source,
  line,
  column,
  length,
  label,
}: {
  source: string;
  line: number;
  column: number;
  length: number;
  label: string | undefined;
}): readonly string[] {
  const start = Math.max(0, Math.min(column - 1 - 20, source.length - frameWidth));
  const shown = printable(source.slice(start, start + frameWidth).replaceAll('\t', ' '));
  const gutter = `  ${line} | `;
  const carets = '^'.repeat(Math.max(1, Math.min(length, start + frameWidth - (column - 1), Math.max(1, source.length - (column - 1)))));
  return [
    `${gutter}${shown}`,
    `${' '.repeat(gutter.length - 2)}| ${' '.repeat(column - 1 - start)}${carets}${label === undefined ? '' : ` ${label}`}`,
  ];
}

/** Control characters cannot reach the terminal. */
function printable(text: string): string {
  return [...text].map((char) => (/\p{Cc}/u.test(char) ? '\uFFFD' : char)).join('');
}
