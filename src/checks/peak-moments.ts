import { startRuns } from '../driver/settled-start.ts';
import type { Analysis } from '../driver/analysis.ts';
import type { Transient } from '../driver/events.ts';
import type { Running } from '../driver/operating-point.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { CheckInput, Finding } from './check.ts';
import { notOscillating, unassessed } from './words.ts';

/** A peak of the running state or of a transient, as a check sees it. */
export interface Moment {
  readonly moment?: string | undefined;
  readonly path: string;
  readonly tankPeak: number;
  readonly drainPeak: number;
  /** One choke's peak while running; its share of the chokes' current in a transient. */
  readonly chokePeak: number;
  /** Where the peak comes from. */
  readonly basis: () => string;
  /** Why the peaks may be higher. */
  readonly doubt?: string | undefined;
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
  const findings: Finding[] = [];
  for (const name of moments) {
    const moment = momentOf(input, name);
    if (moment === undefined) continue;
    findings.push('kind' in moment ? moment : asSureAs(moment, finding(moment)));
  }
  return findings;
}

function asSureAs({ doubt, timed }: Moment, finding: Finding): Finding {
  if (finding.kind !== 'measured' || (doubt === undefined && timed !== true)) return finding;
  return { ...finding, doubt: finding.doubt ?? doubt, timed };
}

/** The peak of a moment, or why it is not assessed; undefined where it is not looked at. */
function momentOf({ analysis, instance }: CheckInput, name: MomentName): Moment | Finding | undefined {
  const { running } = instance.point;
  if (name === 'running') return running === undefined ? unassessed({ ...notOscillating, path: 'loads' }) : runningMoment(running);
  const { moment, path, basis } = transients[name];
  const transient = name === 'switch-on' ? instance.switchOn : instance.loadRemoval;
  if (running === undefined) return unassessed({ ...notOscillating, path: 'loads', moment });
  if (transient === undefined) return undefined;
  if ('unknown' in transient) return unassessed({ unknown: transient.unknown, path, moment });
  const { tankPeak, drainPeak, chokePeak, doubt, timed = false } = transient;
  const from = (): string => (timed ? timedWords({ transient, name, analysis }) : basis(analysis));
  return { tankPeak, drainPeak, chokePeak, moment, path, basis: from, timed, doubt };
}

const transients = {
  'switch-on': {
    moment: 'at switch-on',
    path: 'supply.riseTime',
    basis: ({ start }: Analysis) => `envelope of tank and chokes from rest: ${startWords(start)}`,
  },
  'load removal': {
    moment: 'at load removal',
    path: 'loads',
    basis: () => 'envelope from this load to coil alone, the rail lifted by what comes back into the bulk capacitor',
  },
} as const;

/** Where a peak from the time domain comes from, and what the closed form says beside it. */
function timedWords({
  transient: { drainPeak, closedFormDrainPeak },
  name,
  analysis,
}: {
  transient: Transient;
  name: MomentName;
  analysis: Analysis;
}): string {
  const what =
    name === 'switch-on'
      ? `time domain, ${startRuns}, 3 % added: ${startWords(analysis.start)}`
      : 'time domain, from this load to coil alone, 3 % added';
  if (closedFormDrainPeak === undefined) return what;
  const difference = 100 * (closedFormDrainPeak / drainPeak - 1);
  const closed = formatQuantity({ value: closedFormDrainPeak, dimension: 'voltage' });
  const words = Math.abs(difference) < 0.5 ? 'the same' : `${Math.abs(difference).toFixed(0)} % ${difference > 0 ? 'more' : 'less'}`;
  return `${what}; closed form, with its allowance: drains ${closed}, ${words}`;
}

function startWords(start: Analysis['start']): string {
  return 'unknown' in start ? start.unknown : start.why;
}

function runningMoment(running: Running): Moment {
  return {
    path: 'supply.voltage',
    tankPeak: running.tankPeak,
    drainPeak: running.drainPeak,
    chokePeak: running.chokePeak,
    basis: () => 'running: Vt = π·(V − I·r) with the factor of finite Q, drain = Vt + I·Ron',
  };
}
