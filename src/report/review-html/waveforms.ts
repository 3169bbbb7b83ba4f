import { startRuns } from '../../driver/settled-start.ts';
import { timeIn, type Recording, type Tail, type Track } from '../../driver/time-domain/recorder.ts';
import type { LoadStart, SwitchOnWaveforms } from '../../studies/switch-on-waveforms.ts';
import type { Dimension } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { axisMarks } from '../axis.ts';
import { escaped } from '../page-html.ts';
import { axisOf, columnRanges } from '../strip-chart.ts';

const [width, strip, left, right, between, top] = [900, 92, 110, 16, 14, 10];

interface Strip {
  readonly name: string;
  readonly tracks: readonly Track[];
  readonly dimension: Dimension;
}

const strips: readonly Strip[] = [
  { name: 'drain A', tracks: ['drainA'], dimension: 'voltage' },
  { name: 'drain B', tracks: ['drainB'], dimension: 'voltage' },
  { name: 'gates A and B', tracks: ['gateA', 'gateB'], dimension: 'voltage' },
  { name: 'supply current', tracks: ['supply'], dimension: 'current' },
];

/** Switch-on and the last periods of the same run, as drawings and as words. */
export function waveformsHtml({ waveforms, prefix }: { waveforms: SwitchOnWaveforms | undefined; prefix: string }): string {
  if (waveforms === undefined)
    return '<p>Not computed: the time domain was left out of this review (<code>--closed-form</code>), so no start passes either.</p>';
  const { starts, drawn, mismatch } = waveforms;
  const apart = formatQuantity({ value: mismatch, dimension: 'ratio' });
  const table = `<div class="scroll" tabindex="0" role="group" aria-label="Table of starts"><table><caption>Start with each load: one run of the nominal driver, thresholds ${apart} apart. The verdict on the start rests on ${startRuns}: see latch-up.</caption><thead><tr><th scope="col">load</th><th scope="col">outcome</th><th scope="col">drain peak</th><th scope="col">supply current peak</th></tr></thead><tbody>${starts.map(startRow).join('')}</tbody></table></div>`;
  if (drawn === undefined) return `${table}<p>No start could be run, so there is nothing to draw.</p>`;
  const { load, outcome, period, recording, tail } = drawn;
  const { gap } = recording;
  const skipped =
    gap === undefined
      ? ''
      : ` At the broken line ${formatQuantity({ value: gap.length, dimension: 'time', digits: 2 })} are left out in which the rail only creeps up.`;
  return `${table}
${figure({ id: `${prefix}switch-on`, title: `Switch-on with ${load}: it ${verbs[outcome]}`, body: recordingBody({ recording, period }), end: recording.slice * recording.count, recording, caption: `Switch-on with ${load}: the band from the lowest to the highest value of each moment, of about a period where there are many.${skipped}` })}
${figure({ id: `${prefix}steady`, title: `The last periods of that run`, body: tailBody(tail), end: tail.times.at(-1) ?? 0, caption: outcome === 'runs' ? 'The last periods of the same run, the rail up and the driver swinging; gate B is dashed.' : `The last periods of the same run, which ${verbs[outcome]}; gate B is dashed.` })}`;
}

const verbs = { runs: 'runs', latches: 'latches', stalls: 'does not start', undecided: 'is undecided' } as const;

function startRow({ load, result }: LoadStart): string {
  const head = `<tr><th scope="row">${escaped(load)}</th>`;
  if ('unknown' in result) return `${head}<td colspan="3">not run: ${escaped(result.unknown)}</td></tr>`;
  const { outcome, why, peaks } = result;
  const number = (value: number, dimension: Dimension): string => escaped(formatQuantity({ value, dimension }));
  return `${head}<td>${verbs[outcome]}: ${escaped(why)}</td><td>${number(peaks.drain, 'voltage')}</td><td>${number(peaks.supply, 'current')}</td></tr>`;
}

function figure({
  id,
  title,
  body,
  end,
  recording,
  caption,
}: {
  id: string;
  title: string;
  body: string;
  end: number;
  /** What is drawn, where it may leave out a stretch. */
  recording?: Recording;
  caption: string;
}): string {
  const height = top + strips.length * (strip + between) + 30;
  const place = (time: number): string => (left + ((width - left - right) * time) / end).toFixed(1);
  const marks = axisMarks({ from: 0, to: end, count: 6 }).map((mark) => {
    const x = place(mark);
    // right of the gap it is later than the drawing is long
    const time = recording === undefined ? mark : timeIn(recording, mark);
    const anchor = Number(x) > width - 40 ? 'end' : 'middle';
    return `<path class="grid" d="M${x} ${top}V${height - 40}"/><text x="${x}" y="${height - 20}" text-anchor="${anchor}">${escaped(formatQuantity({ value: time, dimension: 'time' }))}</text>`;
  });
  const gap = recording?.gap;
  const broken = gap === undefined ? '' : `<path class="gap" d="M${place(gap.at)} ${top}V${height - 40}"/>`;
  return `<figure><div class="scroll" tabindex="0" role="group" aria-label="${escaped(title)}"><svg class="chart" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}-title"><title id="${id}-title">${escaped(title)}</title>${end > 0 ? marks.join('') : ''}${body}${broken}</svg></div><figcaption>${escaped(caption)}</figcaption></figure>`;
}

/** Frame of a strip: its name and the ends of its axis. */
function stripFrame({ name, dimension }: Strip, index: number, [low, high]: readonly [number, number]): string {
  const y0 = top + index * (strip + between);
  const zero = y0 + (strip * high) / (high - low);
  const number = (value: number): string => escaped(formatQuantity({ value, dimension })).replace('-', '−');
  return `<text x="4" y="${y0 + 14}">${name}</text><text x="${left - 8}" y="${y0 + 32}" text-anchor="end">${number(high)}</text><text x="${left - 8}" y="${y0 + strip}" text-anchor="end">${number(low)}</text><path class="zero" d="M${left} ${zero.toFixed(1)}H${width - right}"/>`;
}

/** Columns of a recording, finer than a printed line; where there are many periods one for each, so that a column holds a whole swing. */
const mostColumns = 390;
const leastColumns = 60;

function recordingBody({ recording, period }: { recording: Recording; period: number }): string {
  const periods = Math.floor((recording.slice * recording.count) / (1.2 * period));
  const count = Math.min(recording.count, mostColumns, periods < leastColumns ? mostColumns : periods);
  return strips
    .map((one, index) => {
      const ranges = columnRanges({ recording, tracks: one.tracks, columns: count });
      const [low, high] = spanOf(axisOf(ranges));
      const y0 = top + index * (strip + between);
      const x = (column: number): string => (left + ((width - left - right) * column) / count).toFixed(1);
      const y = (value: number): string => (y0 + (strip * (high - value)) / (high - low)).toFixed(1);
      const upper = ranges.map(([, most], column) => `V${y(most)}H${x(column + 1)}`);
      const lower = ranges.map(([least], column) => `V${y(least)}H${x(column)}`).toReversed();
      return `${stripFrame(one, index, [low, high])}<path class="band" d="M${x(0)} ${y(ranges[0]![0])}${[...upper, ...lower].join('')}Z"/>`;
    })
    .join('\n');
}

function tailBody({ times, values }: Tail): string {
  const end = times.at(-1) ?? 0;
  if (!(end > 0)) return '';
  return strips
    .map((one, index) => {
      const [low, high] = spanOf(axisOf(one.tracks.flatMap((track) => values[track].map((value) => [value, value] as const))));
      const y0 = top + index * (strip + between);
      const place = (time: number, value: number): string =>
        `${(left + ((width - left - right) * time) / end).toFixed(1)} ${(y0 + (strip * (high - value)) / (high - low)).toFixed(1)}`;
      const paths = one.tracks.map(
        (track, i) =>
          `<polyline class="trace" points="${values[track].map((value, k) => place(times[k]!, value)).join(' ')}"${i === 0 ? '' : ' stroke-dasharray="5 3"'}/>`,
      );
      return `${stripFrame(one, index, [low, high])}${paths.join('')}`;
    })
    .join('\n');
}

/** An axis that has a height even where nothing happens. */
function spanOf([low, high]: readonly [number, number]): readonly [number, number] {
  return high > low ? [low, high] : [low, low + 1e-9];
}
