import { timeIn, type Recording, type Track } from '../driver/time-domain/recorder.ts';
import { formatQuantity } from '../units/format-quantity.ts';

const rows = 5;

/** Strips of a waveform, in their order. */
const strips: readonly { readonly name: string; readonly tracks: readonly Track[]; readonly dimension: 'voltage' | 'current' }[] = [
  { name: 'drain A', tracks: ['drainA'], dimension: 'voltage' },
  { name: 'drain B', tracks: ['drainB'], dimension: 'voltage' },
  { name: 'gates', tracks: ['gateA', 'gateB'], dimension: 'voltage' },
  { name: 'supply', tracks: ['supply'], dimension: 'current' },
];

/** A recording as text: for each strip the range that every column covers, its highest and lowest value at the left. */
export function stripChart({ recording, width }: { recording: Recording; width: number }): readonly string[] {
  const label = 18;
  const columns = Math.max(20, Math.min(recording.count, width - label - 2));
  const time = (value: number): string => formatQuantity({ value, dimension: 'time' });
  const end = time(timeIn(recording, recording.slice * recording.count));
  return [
    ...strips.flatMap(({ name, tracks, dimension }) => {
      const ranges = columnRanges({ recording, tracks, columns });
      const [bottom, top] = axisOf(ranges);
      const number = (value: number): string => formatQuantity({ value, dimension });
      return Array.from({ length: rows }, (_, row) => {
        const upper = top - ((top - bottom) * row) / rows;
        const lower = top - ((top - bottom) * (row + 1)) / rows;
        const bars = ranges.map(([low, high]) => (high > lower && low < upper ? '|' : ' ')).join('');
        const left = row === 0 ? `${name.padEnd(8)} ${number(top)}` : row === rows - 1 ? `${' '.repeat(8)} ${number(bottom)}` : '';
        return `  ${left.padEnd(label)}${bars}`.trimEnd();
      });
    }),
    `  ${' '.repeat(label)}0${end.padStart(Math.max(end.length + 1, columns - 1))}`,
  ];
}

/** Share of the span of an axis below which its lower end is zero with the noise of the solver. */
const leastShown = 1e-3;

/** Lower and upper end of the axis of a strip: zero included, noise left out. */
export function axisOf(ranges: readonly (readonly [number, number])[]): readonly [number, number] {
  const top = Math.max(...ranges.map(([, high]) => high));
  const bottom = Math.min(0, ...ranges.map(([low]) => low));
  return [-bottom < leastShown * Math.abs(top) ? 0 : bottom, top];
}

/** Lowest and highest of the tracks over the slices of each column. */
export function columnRanges({
  recording: { count, lowest, highest },
  tracks,
  columns,
}: {
  recording: Recording;
  tracks: readonly Track[];
  columns: number;
}): readonly (readonly [number, number])[] {
  return Array.from({ length: columns }, (_, column) => {
    const [from, to] = [
      Math.floor((column * count) / columns),
      Math.max(Math.floor(((column + 1) * count) / columns), Math.floor((column * count) / columns) + 1),
    ];
    let [low, high] = [Infinity, -Infinity];
    for (const track of tracks) {
      for (let i = from; i < to; i++) {
        low = Math.min(low, lowest[track][i]!);
        high = Math.max(high, highest[track][i]!);
      }
    }
    return [Number.isFinite(low) ? low : 0, Number.isFinite(high) ? high : 0] as const;
  });
}
