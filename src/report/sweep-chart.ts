import type { Shown, SweepPoint, VariedKey } from '../studies/sweep.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { cellAt, keyValue, letterWords, shownName, signOf } from './sweep-words.ts';
import { hanging } from './wrap.ts';

const rows = 8;
const label = 12;
/** Columns of a chart of few points. */
const widest = 60;

/** A limit further off than this many times the values is told and not drawn: it would flatten them. */
const farLimit = 4;

/**
 * One shown id over the values of a key, as text: a letter a point by its verdict, or a star, the limit as dashes.
 *
 * @param index  of what is shown
 * @returns lines, an empty one first; nothing where no point has a value
 */
export function sweepChart({
  key,
  points,
  shown,
  index,
  width,
}: {
  key: VariedKey;
  points: readonly SweepPoint[];
  shown: Shown;
  index: number;
  width: number;
}): readonly string[] {
  const plotted = points.map((point) => {
    const cell = cellAt(point, index);
    return { x: point.at[0]!, y: cell?.value ?? undefined, limit: cell?.limit ?? undefined, sign: signOf({ point, shown, index }) };
  });
  const values = plotted.flatMap(({ y }) => y ?? []);
  if (values.length === 0) return [];
  const { drawn, limits } = limitsOf(plotted);
  const all = [...values, ...(drawn ? limits : [])];
  const [top, bottom] = [Math.max(...all), Math.min(...all)];
  const columns = columnCount({ count: points.length, room: width - label - 4 });
  const lines = Array.from({ length: rows }, () => Array.from({ length: columns }, () => ' '));
  const [first, last] = [key.values[0]!, key.values.at(-1)!];
  const columnOf = (x: number): number => Math.round(((x - first) / (last - first)) * (columns - 1));
  const rowOf = (y: number): number => (top === bottom ? rows - 1 : Math.round(((top - y) / (top - bottom)) * (rows - 1)));
  if (drawn) {
    for (let column = 0; column < columns; column++) {
      const x = first + ((last - first) * column) / (columns - 1);
      const nearest = plotted.reduce((a, b) => (Math.abs(b.x - x) < Math.abs(a.x - x) ? b : a));
      if (nearest.limit !== undefined) lines[rowOf(nearest.limit)]![column] = '-';
    }
  }
  for (const { x, y, sign } of plotted) lines[y === undefined ? rows - 1 : rowOf(y)]![columnOf(x)] = sign;
  const number = (value: number): string => formatQuantity({ value, dimension: shown.dimension });
  const end = keyValue({ key, value: last });
  const begin = keyValue({ key, value: first });
  const limit = limits.length === 0 ? '' : drawn ? ', - limit' : `, limit ${number(limits[0]!)}, far off`;
  const legend = shown.kind === 'check' ? `${letterWords}${limit}` : '* value, ? not known, x refused';
  return [
    '',
    ...hanging({ text: `${shownName(shown)} against ${key.name}: ${legend}`, first: '  ', width }),
    '',
    ...lines.map((line, row) => {
      const left = row === 0 ? number(top) : row === rows - 1 && top !== bottom ? number(bottom) : '';
      return `  ${left.padStart(label)} |${line.join('')}`.trimEnd();
    }),
    `  ${' '.repeat(label)} +${'-'.repeat(columns)}`,
    `  ${' '.repeat(label + 2)}${begin}${end.padStart(Math.max(end.length + 1, columns - begin.length))}`,
  ];
}

/** So many columns that the points stand evenly, where there is room for all of them. */
function columnCount({ count, room }: { count: number; room: number }): number {
  const apart = Math.floor(Math.min(room, widest) / Math.max(1, count - 1));
  return apart < 1 ? room : Math.min(room, apart * (count - 1) + 1);
}

function limitsOf(plotted: readonly { y: number | undefined; limit: number | undefined }[]): { drawn: boolean; limits: readonly number[] } {
  const limits = plotted.flatMap(({ limit }) => limit ?? []);
  const largest = Math.max(...plotted.flatMap(({ y }) => (y === undefined ? [] : Math.abs(y))));
  return { limits, drawn: limits.length > 0 && limits.every((limit) => Math.abs(limit) <= farLimit * largest) };
}
