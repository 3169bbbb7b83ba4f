import { timeIn, type Recording, type Track } from '../driver/time-domain/recorder.ts';
import type { LatchMap } from '../studies/startup.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { axisOf, columnRanges } from './strip-chart.ts';
import { escaped, svgDocument, svgWidth } from './svg.ts';

const [width, strip, left, gap] = [svgWidth, 120, 90, 14];

const strips: readonly { readonly name: string; readonly tracks: readonly Track[]; readonly dimension: 'voltage' | 'current' }[] = [
  { name: 'drain A', tracks: ['drainA'], dimension: 'voltage' },
  { name: 'drain B', tracks: ['drainB'], dimension: 'voltage' },
  { name: 'gates A and B', tracks: ['gateA', 'gateB'], dimension: 'voltage' },
  { name: 'supply current', tracks: ['supply'], dimension: 'current' },
];

/** A recording as a drawing of its own: a band from the lowest to the highest value for each strip. */
export function recordingSvg({ recording, title }: { recording: Recording; title: string }): string {
  const height = strips.length * (strip + gap) + 70;
  const columns = Math.min(recording.count, width - left - 20);
  const end = escaped(formatQuantity({ value: timeIn(recording, recording.slice * recording.count), dimension: 'time' }));
  const bands = strips.map(({ name, tracks, dimension }, index) => {
    const ranges = columnRanges({ recording, tracks, columns });
    const [bottom, highest] = axisOf(ranges);
    const top = Math.max(highest, 1e-9);
    const y0 = 40 + index * (strip + gap);
    const x = (column: number): string => (left + (column * (width - left - 20)) / columns).toFixed(1);
    const y = (value: number): string => (y0 + (strip * (top - value)) / (top - bottom)).toFixed(1);
    const upper = ranges.map(([, high], column) => `${x(column)},${y(high)}`);
    const lower = ranges.map(([low], column) => `${x(column)},${y(low)}`).toReversed();
    const number = (value: number): string => escaped(formatQuantity({ value, dimension }));
    return `<g><text x="8" y="${y0 + 14}">${name}</text><text x="8" y="${y0 + 32}">${number(top)}</text><text x="8" y="${y0 + strip}">${number(bottom)}</text>
<line x1="${left}" x2="${width - 20}" y1="${y(0)}" y2="${y(0)}" stroke="#888" stroke-width="0.5"/><polygon points="${[...upper, ...lower].join(' ')}" fill="#2b5d8a" fill-opacity="0.55" stroke="#2b5d8a" stroke-width="0.6"/></g>`;
  });
  return svgDocument({
    title,
    height,
    body: `${bands.join('\n')}${gapMark({ recording, height })}\n<text x="${left}" y="${height - 12}">0</text><text x="${width - 20}" y="${height - 12}" text-anchor="end">${end}</text>`,
  });
}

/** A broken line where a stretch is left out, with how long it is. */
function gapMark({ recording: { slice, count, gap }, height }: { recording: Recording; height: number }): string {
  if (gap === undefined) return '';
  const x = (left + ((width - left - 20) * gap.at) / (slice * count)).toFixed(1);
  const length = escaped(formatQuantity({ value: gap.length, dimension: 'time', digits: 2 }));
  return `\n<line x1="${x}" x2="${x}" y1="34" y2="${height - 30}" stroke="#444444" stroke-width="1.5" stroke-dasharray="8 4 2 4"/><text x="${x}" y="${height - 12}" text-anchor="middle">${length} left out: the rail creeps up</text>`;
}

const fills = { runs: '#cfe8cf', latches: '#c0392b', stalls: '#e0a030', undecided: '#bbbbbb', unknown: '#ffffff' } as const;
const signs = { runs: '', latches: 'L', stalls: 'S', undecided: '?', unknown: '-' } as const;

/** A latch map as a drawing of its own: letters beside the colours. */
export function latchMapSvg({ map: { riseTimes, voltages, outcomes }, title }: { map: LatchMap; title: string }): string {
  const [w, h] = [(width - left - 20) / riseTimes.length, 28];
  const height = 40 + voltages.length * h + 70;
  const cells = outcomes.flatMap((row, i) =>
    row.map((outcome, j) => {
      const [x, y] = [left + j * w, 40 + i * h];
      return `<rect x="${x.toFixed(1)}" y="${y}" width="${(w - 1).toFixed(1)}" height="${h - 1}" fill="${fills[outcome]}"/><text x="${(x + w / 2).toFixed(1)}" y="${y + 19}" text-anchor="middle">${signs[outcome]}</text>`;
    }),
  );
  const rows = voltages.map(
    (value, i) => `<text x="8" y="${40 + i * h + 19}">${escaped(formatQuantity({ value, dimension: 'voltage' }))}</text>`,
  );
  const columns = riseTimes.map(
    (value, j) =>
      `<text x="${(left + j * w + w / 2).toFixed(1)}" y="${40 + voltages.length * h + 18}" text-anchor="middle">${escaped(formatQuantity({ value, dimension: 'time', digits: 2 }))}</text>`,
  );
  const legend = `<text x="${left}" y="${height - 14}">empty: runs, L: latches, S: does not start, ?: undecided; rise time across, supply voltage up</text>`;
  return svgDocument({ title, height, body: [...cells, ...rows, ...columns, legend].join('\n') });
}
