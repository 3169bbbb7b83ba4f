import type { Shown, Sweep, SweepPoint, VariedKey } from '../studies/sweep.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { axisMarks } from './axis.ts';
import { escaped, svgDocument, svgWidth } from './svg.ts';
import { sweepMap } from './sweep-map.ts';
import { cellAt, keyValue, shownName } from './sweep-words.ts';
import { markLegend, verdictMark } from './verdict-marks.ts';

const [left, right, top, gap] = [100, 20, 44, 66];
/** Height of a panel, and of one whose check has no number and only says its verdicts. */
const [tall, low] = [220, 24];

/** A sweep as a drawing: a line for each shown id against one key, a map of each against two. */
export function sweepSvg({ sweep, title }: { sweep: Sweep; title: string }): string {
  const { keys, shown, points } = sweep;
  const [key, second] = keys;
  if (key === undefined) return svgDocument({ title, height: top, body: '' });
  if (second !== undefined) return sweepMap({ sweep, across: key, down: second, title });
  const heights = shown.map((_, index) => (points.some((point) => typeof cellAt(point, index)?.value === 'number') ? tall : low));
  const begins = heights.map((_, index) => heights.slice(0, index).reduce((sum, panel) => sum + panel + gap, top + 20));
  const height = heights.reduce((sum, panel) => sum + panel + gap, top + 20);
  const panels = shown.map((one, index) => linePanel({ key, points, shown: one, index, y0: begins[index]!, panel: heights[index]! }));
  const legend = shown.some(({ kind }) => kind === 'check') ? markLegend({ x: left, y: height - 10 }) : '';
  return svgDocument({ title, height, body: [...panels, legend].join('\n') });
}

function linePanel({
  key,
  points,
  shown,
  index,
  y0,
  panel,
}: {
  key: VariedKey;
  points: readonly SweepPoint[];
  shown: Shown;
  index: number;
  y0: number;
  panel: number;
}): string {
  const cells = points.map((point) => ({ x: point.at[0]!, point, cell: cellAt(point, index) }));
  const values = cells.flatMap(({ cell }) => [cell?.value, cell?.limit].flatMap((value) => value ?? []));
  const [bottom, high] = rangeOf(values);
  const [from, to] = [key.values[0]!, key.values.at(-1)!];
  const x = (value: number): number => left + ((svgWidth - left - right) * (value - from)) / (to - from);
  const y = (value: number): number => y0 + (panel * (high - value)) / (high - bottom);
  const name = `<text x="${left}" y="${y0 - 8}" font-weight="bold">${escaped(shownName(shown))}</text>`;
  const across = `<text x="${svgWidth - right}" y="${y0 + panel + 36}" text-anchor="end">${escaped(key.name)}</text>`;
  const marks = cells.map(({ x: at, point, cell }) => {
    const verdict = 'refused' in point ? 'refused' : (cell?.verdict ?? (cell?.value === null ? 'not assessed' : undefined));
    if (verdict === undefined) return '';
    return verdictMark({ verdict, x: x(at), y: cell?.value === null || cell?.value === undefined ? y0 + panel - 8 : y(cell.value) });
  });
  return [
    '<g>',
    name,
    axes({ key, shown, range: panel === low ? undefined : [bottom, high], x, y, y0, panel }),
    stroke({ places: cells.map(({ x: at, cell }) => (isNumber(cell?.limit) ? [x(at), y(cell.limit)] : undefined)), style: dashes }),
    stroke({ places: cells.map(({ x: at, cell }) => (isNumber(cell?.value) ? [x(at), y(cell.value)] : undefined)), style: solid }),
    ...marks,
    across,
    '</g>',
  ].join('');
}

const solid = 'stroke="#1f4e79" stroke-width="1.6"';
const dashes = 'stroke="#333333" stroke-width="1" stroke-dasharray="6 4"';

function isNumber(value: number | null | undefined): value is number {
  return typeof value === 'number';
}

/** From a little below the lowest to a little above the highest value. */
function rangeOf(values: readonly number[]): readonly [number, number] {
  if (values.length === 0) return [0, 1];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? 0.06 * (most - least) : Math.max(1e-12, 0.1 * Math.abs(most));
  return [least - room, most + room];
}

/** A line that is broken where there is no value. */
function stroke({ places, style }: { places: readonly (readonly [number, number] | undefined)[]; style: string }): string {
  let isDrawing = false;
  const path = places.map((place) => {
    if (place === undefined) {
      isDrawing = false;
      return '';
    }
    const step = `${isDrawing ? 'L' : 'M'}${place[0].toFixed(1)},${place[1].toFixed(1)}`;
    isDrawing = true;
    return step;
  });
  return `<path d="${path.join('')}" fill="none" ${style}/>`;
}

function axes({
  key,
  shown,
  range,
  x,
  y,
  y0,
  panel,
}: {
  key: VariedKey;
  shown: Shown;
  /** Undefined where the panel has no scale. */
  range: readonly [number, number] | undefined;
  x: (value: number) => number;
  y: (value: number) => number;
  y0: number;
  panel: number;
}): string {
  // a temperature's round numbers are round in degrees
  const shift = (dimension: Shown['dimension']): number => (dimension === 'temperature' ? 273.15 : 0);
  const marksOf = (dimension: Shown['dimension'], from: number, to: number, count: number): readonly number[] =>
    axisMarks({ from: from - shift(dimension), to: to - shift(dimension), count }).map((mark) => mark + shift(dimension));
  const rows = (range === undefined ? [] : marksOf(shown.dimension, range[0], range[1], 5)).map(
    (mark) =>
      `<line x1="${left}" x2="${svgWidth - right}" y1="${y(mark).toFixed(1)}" y2="${y(mark).toFixed(1)}" stroke="#dddddd"/><text x="${left - 8}" y="${(y(mark) + 4).toFixed(1)}" text-anchor="end">${escaped(formatQuantity({ value: mark, dimension: shown.dimension }))}</text>`,
  );
  const columns = marksOf(key.dimension, key.values[0]!, key.values.at(-1)!, 8).map(
    (mark) =>
      `<line x1="${x(mark).toFixed(1)}" x2="${x(mark).toFixed(1)}" y1="${y0 + panel}" y2="${y0 + panel + 4}" stroke="#333333"/><text x="${x(mark).toFixed(1)}" y="${y0 + panel + 18}" text-anchor="middle">${escaped(keyValue({ key, value: mark }))}</text>`,
  );
  return `${rows.join('')}<path d="M${left},${y0}V${y0 + panel}H${svgWidth - right}" fill="none" stroke="#333333"/>${columns.join('')}`;
}
