import type { Shown, Sweep, SweepPoint, VariedKey } from '../studies/sweep.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { roomLeft } from './comparison.ts';
import { escaped, svgDocument, svgWidth } from './svg.ts';
import { cellAt, keyValue, letterWords, shownName, verdictLetters } from './sweep-words.ts';
import { cellFill, cellPatterns } from './verdict-marks.ts';

const [left, right, top, gap] = [100, 20, 44, 92];
/** Smallest cells that a letter, and a number, fit into. */
const [letterWidth, numberWidth, textHeight] = [11, 64, 14];

/** Each shown id over two keys as a map: a cell a point, with number or letter where it fits. */
export function sweepMap({
  sweep: { shown, points },
  across,
  down,
  title,
}: {
  sweep: Sweep;
  across: VariedKey;
  down: VariedKey;
  title: string;
}): string {
  const cell = { width: (svgWidth - left - right) / across.values.length, height: Math.max(4, Math.min(28, 420 / down.values.length)) };
  const panel = cell.height * down.values.length;
  const maps = shown.map((one, index) => mapPanel({ shown: one, index, points, across, down, cell, y0: top + 20 + index * (panel + gap) }));
  return svgDocument({ title, height: top + shown.length * (panel + gap) + 10, body: [cellPatterns, ...maps].join('\n') });
}

function mapPanel({
  shown,
  index,
  points,
  across,
  down,
  cell,
  y0,
}: {
  shown: Shown;
  index: number;
  points: readonly SweepPoint[];
  across: VariedKey;
  down: VariedKey;
  cell: { width: number; height: number };
  y0: number;
}): string {
  const values = points.flatMap((point) => cellAt(point, index)?.value ?? []);
  const scale = { low: Math.min(...values), high: Math.max(...values) };
  const rows = down.values.length;
  const panel = cell.height * rows;
  // the largest value of the second key on top
  const cells = points.map((point, i) => {
    const x = left + Math.floor(i / rows) * cell.width;
    const y = y0 + (rows - 1 - (i % rows)) * cell.height;
    return mapCell({ point, shown, index, scale, x, y, ...cell });
  });
  const each = (count: number, room: number, size: number): number =>
    Math.ceil(room / size / Math.max(1, count) > 1 ? 1 : (count * size) / room);
  const stepAcross = each(across.values.length, svgWidth - left - right, 62);
  const stepDown = each(rows, panel, 16);
  const columns = across.values.map((value, i) =>
    i % stepAcross === 0
      ? `<text x="${(left + (i + 0.5) * cell.width).toFixed(1)}" y="${(y0 + panel + 16).toFixed(1)}" text-anchor="middle">${escaped(keyValue({ key: across, value }))}</text>`
      : '',
  );
  const lines = down.values.map((value, i) =>
    i % stepDown === 0
      ? `<text x="${left - 6}" y="${(y0 + (rows - 0.5 - i) * cell.height + 4).toFixed(1)}" text-anchor="end">${escaped(keyValue({ key: down, value }))}</text>`
      : '',
  );
  const legend =
    shown.kind === 'check'
      ? `${letterWords}; plain passes, strokes warn, crossed strokes fail, dots not assessed`
      : values.length === 0
        ? 'no value'
        : `from ${shownValue(shown, scale.low)} (light) to ${shownValue(shown, scale.high)} (dark); ? not known, x refused`;
  const notes = [`${across.name} across, ${down.name} up`, legend].map(
    (note, i) => `<text x="${left}" y="${(y0 + panel + 34 + 16 * i).toFixed(1)}" font-size="12">${escaped(note)}</text>`,
  );
  return `<g><text x="${left}" y="${y0 - 8}" font-weight="bold">${escaped(shownName(shown))}</text>${cells.join('')}${columns.join('')}${lines.join('')}${notes.join('')}</g>`;
}

function shownValue({ dimension }: Shown, value: number): string {
  return formatQuantity({ value, dimension });
}

function mapCell({
  point,
  shown,
  index,
  scale,
  x,
  y,
  width,
  height,
}: {
  point: SweepPoint;
  shown: Shown;
  index: number;
  scale: { low: number; high: number };
  x: number;
  y: number;
  width: number;
  height: number;
}): string {
  const { fill, ink, letter, number } = lookOf({ point, shown, index, scale });
  const hasRoom = height >= textHeight;
  const text = hasRoom && width >= numberWidth ? [letter, number].join(' ').trim() : hasRoom && width >= letterWidth ? letter : '';
  const words =
    text === ''
      ? ''
      : `<text x="${(x + width / 2).toFixed(1)}" y="${(y + height / 2 + 4).toFixed(1)}" text-anchor="middle" font-size="11" fill="${ink}">${escaped(text)}</text>`;
  return `<rect x="${x.toFixed(1)}" y="${y.toFixed(1)}" width="${width.toFixed(1)}" height="${height.toFixed(1)}" fill="${fill}" stroke="#ffffff" stroke-width="0.5"/>${words}`;
}

function lookOf({
  point,
  shown,
  index,
  scale: { low, high },
}: {
  point: SweepPoint;
  shown: Shown;
  index: number;
  scale: { low: number; high: number };
}): { fill: string; ink: string; letter: string; number: string } {
  const empty = { fill: '#ffffff', ink: '#000000', number: '' };
  if ('refused' in point) return { ...empty, letter: 'x' };
  const cell = point.cells[index];
  if (cell === undefined) return { ...empty, letter: '-' };
  const { verdict, value } = cell;
  if (shown.kind === 'check' && verdict !== undefined) {
    const number = roomLeft({ value, limit: cell.limit ?? null, margin: cell.margin ?? null, dimension: shown.dimension });
    return { fill: cellFill(verdict), ink: '#000000', letter: verdictLetters[verdict], number };
  }
  if (value === null) return { ...empty, letter: '?' };
  const share = high > low ? (value - low) / (high - low) : 0;
  const channel = (light: number, dark: number): number => Math.round(light + share * (dark - light));
  const fill = `rgb(${channel(234, 22)},${channel(242, 62)},${channel(250, 108)})`;
  return { fill, ink: share > 0.55 ? '#ffffff' : '#000000', letter: '', number: formatQuantity({ value, dimension: shown.dimension }) };
}
