import type { Outcome } from '../driver/time-domain/outcome.ts';
import type { Peaks } from '../driver/time-domain/run.ts';
import { timeIn, tracks, type Recording } from '../driver/time-domain/recorder.ts';
import type { Breakdown, LatchMap, StartupEvent } from '../studies/startup.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { noLessThan } from '../checks/words.ts';
import { stripChart } from './strip-chart.ts';
import { hanging } from './wrap.ts';

/** What a run of one driver does not say. */
const verdictElsewhere =
  'one run each of the nominal driver: no tolerance, one pair of switches. Whether it starts in every corner, with several pairs, is said by latch-up of `tankproof check`.';

/** The events as a table, the waveform of the first, and what the outcomes mean. */
export function startupText({
  file,
  title,
  events,
  width,
}: {
  file: string;
  title: string;
  events: readonly StartupEvent[];
  width: number;
}): string {
  const [first] = events;
  return [
    ...hanging({ text: title, first: `${file}  `, width }),
    '',
    ...events.flatMap((event) => eventLines({ event, width })),
    ...(first?.recording === undefined
      ? []
      : [
          '',
          ...hanging({
            text: `waveform of ${first.event}, ${first.load}${leftOut(first.recording)}`,
            first: '  ',
            width,
          }),
          '',
          ...stripChart({ recording: first.recording, width }),
        ]),
    '',
    ...hanging({ text: verdictElsewhere, first: '  ', width }),
    '',
    ...hanging({
      text: 'square-law switches whose thresholds differ by the stated mismatch, exponential diodes, no stray inductance. These are computed figures and do not replace a first power-up from a protected supply.',
      first: '  ',
      width,
    }),
  ].join('\n');
}

/** What a recording leaves out, in words. */
function leftOut({ gap }: Recording): string {
  if (gap === undefined) return '';
  const time = (value: number): string => formatQuantity({ value, dimension: 'time', digits: 2 });
  return `; at ${time(gap.at)} it leaves out ${time(gap.length)} in which the rail only creeps up`;
}

function eventLines({
  event: { event, load, asWritten, result, breakdown },
  width,
}: {
  event: StartupEvent;
  width: number;
}): readonly string[] {
  const name = `${event}, ${load}${asWritten ? '' : ' (not as written)'}`;
  if ('unknown' in result)
    return [
      ...hanging({ text: name, first: '  not assessed  ', width }),
      ...hanging({ text: result.unknown, first: ' '.repeat(16), width }),
    ];
  const { outcome, peaks, at, why, needs } = result;
  const volt = (value: number): string => formatQuantity({ value, dimension: 'voltage' });
  const ampere = (value: number): string => formatQuantity({ value, dimension: 'current' });
  const numbers = `drain ${volt(peaks.drain)} at ${formatQuantity({ value: peaks.drainAt, dimension: 'time' })}, choke ${ampere(peaks.choke)}, supply ${ampere(peaks.supply)}, gate ${volt(peaks.gate)}`;
  return [
    ...hanging({ text: name, first: `  ${outcome.padEnd(14)}`, width }),
    ...hanging({ text: numbers, first: ' '.repeat(16), width }),
    ...(breakdown === undefined ? [] : hanging({ text: breakdownWords(breakdown), first: ' '.repeat(16), width })),
    ...(outcome === 'runs'
      ? []
      : hanging({ text: `${why}; followed for ${formatQuantity({ value: at, dimension: 'time' })}`, first: ' '.repeat(16), width })),
    ...(needs === undefined
      ? []
      : hanging({
          text: `change: a supply that gives ${noLessThan({ value: needs, dimension: 'current' })} or more (supply.currentLimit)`,
          first: ' '.repeat(16),
          width,
        })),
  ];
}

function breakdownWords({ rated, energy, until, singlePulse }: Breakdown): string {
  const joule = (value: number): string => formatQuantity({ value, dimension: 'energy', digits: 2 });
  const within = formatQuantity({ value: until, dimension: 'time', digits: 2 });
  const rating =
    singlePulse === undefined
      ? 'the part gives no single-pulse rating'
      : `${energy > singlePulse.energy ? 'past' : 'within'} the single-pulse rating of ${joule(singlePulse.energy)} (${singlePulse.source}), which is no licence for many`;
  return `past V_DSS: switches that break down at ${formatQuantity({ value: rated, dimension: 'voltage' })} take ${joule(energy)} within ${within}, ${rating}`;
}

const signs: Readonly<Record<Outcome | 'unknown', string>> = { runs: '.', latches: 'L', stalls: 'S', undecided: '?', unknown: '-' };

/** A latch map as text: a row a voltage, a column a rise time. */
export function latchMapText({ map: { riseTimes, voltages, outcomes }, width }: { map: LatchMap; width: number }): string {
  const time = (value: number): string => formatQuantity({ value, dimension: 'time', digits: 2 });
  const labels = voltages.map((value) => formatQuantity({ value, dimension: 'voltage' }));
  const wide = Math.max(...labels.map(({ length }) => length));
  const cell = Math.max(...riseTimes.map((value) => time(value).length)) + 1;
  const isMissing = outcomes.some((row) => row.includes('unknown'));
  return [
    '  outcome by supply voltage (upward) and rise time (to the right)',
    `  . runs   L latches   S does not start   ? undecided${isMissing ? '   - not assessed' : ''}`,
    '',
    ...outcomes.map((row, i) => `  ${labels[i]!.padStart(wide)}  ${row.map((outcome) => signs[outcome].padStart(cell)).join('')}`),
    `  ${' '.repeat(wide)}  ${riseTimes.map((value) => time(value).padStart(cell)).join('')}`,
    '',
    ...hanging({ text: verdictElsewhere, first: '  ', width }),
  ].join('\n');
}

/** A recording as comma-separated values: time of each slice, lowest and highest of every track, SI units. */
export function recordingCsv({ recording }: Required<Pick<StartupEvent, 'recording'>>): string {
  const header = ['time_s', ...tracks.flatMap((track) => [`${track}_min`, `${track}_max`])].join(',');
  const lines = Array.from({ length: recording.count }, (_, i) =>
    [timeIn(recording, i * recording.slice), ...tracks.flatMap((track) => [recording.lowest[track][i]!, recording.highest[track][i]!])]
      .map((value) => (Number.isFinite(value) ? String(Number(value.toPrecision(7))) : ''))
      .join(','),
  );
  return [header, ...lines, ''].join('\n');
}

/** The peaks of a run whose drains rise without bound. */
function withoutBreakdown({ breakdownEnergy: _energy, ...peaks }: Peaks): Omit<Peaks, 'breakdownEnergy'> {
  return peaks;
}

/** Events as a JSON document. */
export function startupJson({
  file,
  title,
  events,
  map,
  version,
}: {
  file: string;
  title: string;
  events: readonly StartupEvent[];
  map?: LatchMap;
  version: string;
}): object {
  return {
    tankproof: { version, startupVersion: 1 },
    file,
    title,
    events: events.map(({ event, load, asWritten, result, breakdown }) => ({
      event,
      load,
      asWritten,
      ...('unknown' in result
        ? { outcome: 'not assessed', reason: result.unknown }
        : {
            outcome: result.outcome,
            reason: result.why,
            ...(result.needs === undefined ? {} : { supplyNeeded: result.needs }),
            endedAt: result.at,
            steps: result.steps,
            peaks: withoutBreakdown(result.peaks),
            ...(breakdown === undefined ? {} : { breakdown }),
          }),
    })),
    ...(map === undefined ? {} : { latchMap: map }),
  };
}
