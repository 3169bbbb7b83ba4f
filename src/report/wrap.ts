/**
 * Text broken at spaces so that no line is longer than a width, except by a single word.
 *
 * @param text   without line ends
 * @param width  in columns
 * @returns the lines
 *
 * @example wrapped({ text: 'one two three', width: 8 }) // ['one two', 'three']
 */
export function wrapped({ text, width }: { text: string; width: number }): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** Deepest indent of a further line: beyond it the text would be squeezed into a column. */
const deepestIndent = 24;

/**
 * Wrapped text behind a first prefix, further lines behind spaces of the same width, up to a limit.
 *
 * @param text   without line ends
 * @param first  prefix of the first line
 * @param width  in columns
 *
 * @example hanging({ text: 'one two three four five', first: '- ', width: 20 }) // ['- one two three four', '  five']
 */
export function hanging({ text, first, width }: { text: string; first: string; width: number }): readonly string[] {
  const indent = ' '.repeat(Math.min(first.length, deepestIndent));
  const [head = '', ...rest] = wrapped({ text, width: Math.max(20, width - first.length) });
  const tail = first.length > deepestIndent ? wrapped({ text: rest.join(' '), width: width - indent.length }) : rest;
  return [`${first}${head}`, ...(rest.length === 0 ? [] : tail.map((line) => `${indent}${line}`))];
}
