/** The space between a number and its unit, where no line is broken. */
const beforeUnit = /(?<=\d) (?=(?:%|°C|K\/W|K|[pnµmkMG]?(?:V|A|W|H|F|Hz|s|Ω|J|C))(?:[\s,.;:)]|$))/g;

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
  for (const word of text.replaceAll(beforeUnit, '\u00A0').split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map((one) => one.replaceAll('\u00A0', ' '));
}

/**
 * Wrapped text behind a first prefix.
 *
 * @param text    without line ends
 * @param first   prefix of the first line
 * @param width   in columns
 * @param indent  of further lines, in columns; that of the prefix where not given
 *
 * @example hanging({ text: 'one two three four five', first: '- ', width: 20 }) // ['- one two three four', '  five']
 */
export function hanging({
  text,
  first,
  width,
  indent = first.length,
}: {
  text: string;
  first: string;
  width: number;
  indent?: number;
}): readonly string[] {
  const [head = '', ...rest] = wrapped({ text, width: Math.max(20, width - first.length) });
  const further = indent === first.length ? rest : wrapped({ text: rest.join(' '), width: Math.max(20, width - indent) });
  return [`${first}${head}`, ...(rest.length === 0 ? [] : further.map((line) => `${' '.repeat(indent)}${line}`))];
}
