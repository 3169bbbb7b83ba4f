import { nominalPoint, type OperatingPoint } from '../driver/operating-point.ts';
import type { TimedEvent } from '../driver/time-domain/outcome.ts';
import { recorder, tailRecorder, type Recording, type Tail } from '../driver/time-domain/recorder.ts';
import { timedStart } from '../driver/time-domain/switch-on.ts';
import type { Unknown } from '../driver/known.ts';
import { usualMismatch, usualPair } from '../driver/usual-pair.ts';
import type { Design } from '../project/design.ts';
import type { Ratio, Second } from '../units/si.ts';

/** The start with one load at nominal values. */
export interface LoadStart {
  readonly load: string;
  readonly result: TimedEvent | Unknown;
}

/** A start to be drawn. */
export interface DrawnStart {
  readonly load: string;
  readonly outcome: TimedEvent['outcome'];
  readonly period: Second;
  readonly recording: Recording;
  readonly tail: Tail;
}

/** Switch-on as it is drawn: the load that starts worst, and what the starts of the others came to. */
export interface SwitchOnWaveforms {
  readonly starts: readonly LoadStart[];
  /** Undefined where no start could be run. */
  readonly drawn?: DrawnStart;
  /** Difference of the thresholds of the pair. */
  readonly mismatch: Ratio;
}

const slices = 800;
/** Periods of the tank at the end of a run that are drawn one by one. */
const tailPeriods = 3;

/**
 * The start of a design with every load, one run each at nominal values with the usual pair of switches.
 *
 * @returns starts in the order of the loads; drawn is the first one that does not run, else the one with the highest drain peak
 */
export function switchOnWaveforms(design: Design): SwitchOnWaveforms {
  const starts = design.loads.map((load) => recordedStart({ design, point: nominalPoint({ design, load }) }));
  const drawn = starts.reduce<RecordedStart | undefined>((a, b) => (rank(b) > rank(a) ? b : a), undefined);
  return {
    starts: starts.map(({ load, result }) => ({ load, result })),
    mismatch: usualMismatch,
    ...(drawn === undefined || 'unknown' in drawn.result ? {} : { drawn: drawnStart({ start: drawn, event: drawn.result }) }),
  };
}

function drawnStart({ start: { load, period, recording, tail }, event }: { start: RecordedStart; event: TimedEvent }): DrawnStart {
  return { load, outcome: event.outcome, period, recording: recording({ endedAt: event.at }), tail: tail() };
}

interface RecordedStart extends LoadStart {
  /** Of the tank while running. */
  readonly period: Second;
  readonly recording: ReturnType<typeof recorder>['recording'];
  readonly tail: () => Tail;
}

/** What does not run comes before what does, the higher peak before the lower. */
function rank(start: RecordedStart | undefined): number {
  if (start === undefined || 'unknown' in start.result) return -1;
  return start.result.outcome === 'runs' ? start.result.peaks.drain : Infinity;
}

function recordedStart({ design, point }: { design: Design; point: OperatingPoint }): RecordedStart {
  const period = point.running === undefined ? 1e-6 : 1 / point.running.frequency;
  const { see, recording } = recorder({ slices, first: 0.02 * period });
  const { see: seeTail, tail } = tailRecorder({ length: tailPeriods * period });
  const result = timedStart({
    design,
    point,
    pair: usualPair(point),
    see: (moment) => {
      see(moment);
      seeTail(moment);
    },
  });
  return { load: point.load.name, result, period, recording, tail };
}
