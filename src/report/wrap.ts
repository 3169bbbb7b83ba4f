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

/** Wrapped text behind a first prefix, further lines behind spaces of the same width. */
export function hanging({ text, first, width }: { text: string; first: string; width: number }): readonly string[] {
  const indent = ' '.repeat(first.length);
  return wrapped({ text, width: Math.max(20, width - first.length) }).map((line, i) => `${i === 0 ? first : indent}${line}`);
}
