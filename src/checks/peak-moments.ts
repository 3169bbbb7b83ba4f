import type { Unknown } from '../driver/known.ts';
import type { Transient } from '../driver/events.ts';
import type { Running } from '../driver/operating-point.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { CheckInput, Finding } from './check.ts';
import { notOscillating, unassessed } from './words.ts';

/** A peak of the running state or of a transient, as a check sees it. */
export interface Moment {
  readonly moment?: string;
  readonly path: string;
  readonly tankPeak: number;
  readonly drainPeak: number;
  /** One choke's peak while running; its share of the chokes' current in a transient. */
  readonly chokePeak: number;
  readonly basis: string;
  /** Why the peaks may be higher. */
  readonly doubt?: string;
  /** Found in the time domain. */
  readonly timed?: boolean;
}

/** The moments in which voltages and choke currents peak. */
export type MomentName = 'running' | 'switch-on' | 'load removal';

/**
 * One finding for each of the wanted moments; a moment whose peak is not known is not assessed.
 *
 * @param finding  makes the finding from a known peak
 */
export function momentFindings({
  input,
  moments,
  finding,
}: {
  input: CheckInput;
  moments: readonly MomentName[];
  finding: (moment: Moment) => Finding;
}): readonly Finding[] {
  return moments.flatMap((name) => {
    const moment = momentOf(input, name);
    if (moment === undefined) return [];
    if ('unknown' in moment) return unassessed(moment);
    const found = finding(moment);
    if (found.kind !== 'measured') return found;
    const doubt = found.doubt ?? moment.doubt;
    return { ...found, ...(doubt === undefined ? {} : { doubt }), ...(moment.timed === true ? { timed: true } : {}) };
  });
}

function momentOf(
  { analysis, instance }: CheckInput,
  name: MomentName,
): Moment | (Unknown & { path: string; moment?: string }) | undefined {
  const { running } = instance.point;
  if (name === 'running') return running === undefined ? { ...notOscillating, path: 'loads' } : runningMoment(running);
  const [transient, moment, path, basis] =
    name === 'switch-on'
      ? ([
          instance.switchOn,
          'at switch-on',
          'supply.riseTime',
          `envelope of tank and chokes from rest: ${startWords(analysis.start)}`,
        ] as const)
      : ([
          instance.loadRemoval,
          'at load removal',
          'loads',
          'envelope from this load to coil alone, the rail lifted by what comes back into the bulk capacitor',
        ] as const);
  if (running === undefined) return { ...notOscillating, path: 'loads', moment };
  if (transient === undefined) return undefined;
  if ('unknown' in transient) return { ...transient, path, moment };
  const { tankPeak, drainPeak, chokePeak, doubt, timed = false } = transient;
  const from = timed ? timedWords({ transient, name, analysis }) : basis;
  return { tankPeak, drainPeak, chokePeak, moment, path, basis: from, timed, ...(doubt === undefined ? {} : { doubt }) };
}

/** Where a peak from the time domain comes from, and what the closed form says beside it. */
function timedWords({
  transient: { drainPeak, closedFormDrainPeak },
  name,
  analysis,
}: {
  transient: Transient;
  name: MomentName;
  analysis: CheckInput['analysis'];
}): string {
  const what =
    name === 'switch-on'
      ? `time domain, eight runs, 3 % added: ${startWords(analysis.start)}`
      : 'time domain, from this load to coil alone, 3 % added';
  if (closedFormDrainPeak === undefined) return what;
  const difference = 100 * (closedFormDrainPeak / drainPeak - 1);
  const closed = formatQuantity({ value: closedFormDrainPeak, dimension: 'voltage' });
  const words = Math.abs(difference) < 0.5 ? 'the same' : `${Math.abs(difference).toFixed(0)} % ${difference > 0 ? 'more' : 'less'}`;
  return `${what}; closed form, with its allowance: drains ${closed}, ${words}`;
}

function startWords(start: CheckInput['analysis']['start']): string {
  return 'unknown' in start ? start.unknown : start.why;
}

function runningMoment(running: Running): Moment {
  return {
    path: 'supply.voltage',
    tankPeak: running.tankPeak,
    drainPeak: running.drainPeak,
    chokePeak: running.chokePeak,
    basis: 'running: Vt = π·(V − I·r) with the factor of finite Q, drain = Vt + I·Ron',
  };
}
