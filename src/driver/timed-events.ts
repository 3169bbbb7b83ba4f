import type { Design, Load } from '../project/design.ts';
import type { Ratio } from '../units/si.ts';
import { railLift, type Transient } from './events.ts';
import { isKnown, type Unknown } from './known.ts';
import type { OperatingPoint, Running } from './operating-point.ts';
import { timedAllowance } from './timed-allowance.ts';
import { usualPair } from './usual-pair.ts';
import { timedDisturbance, type Disturbance } from './time-domain/disturbance.ts';
import type { TimedEvent } from './time-domain/outcome.ts';
import type { Peaks } from './time-domain/run.ts';
import { isGivingWay } from './time-domain/supply-limit.ts';

/** What a driver that runs with one load makes of what happens to it, at one corner. Undefined where it was not run: nothing is put on or taken off. */
export interface TimedEvents {
  readonly loadRemoval?: TimedEvent | Unknown;
  readonly loadApplication?: TimedEvent | Unknown;
  readonly supplyDrop?: TimedEvent | Unknown;
}

/**
 * Which events are run: all, those that set a peak, or those that can fail or leave the start open. A dip of the supply only warns, but
 * of a supply that gives way at its limit it may not be decided.
 */
export type WantedEvents = 'all' | 'peaks' | 'fails';

/** The dip of a supply that a driver is asked to stand: to a half, for so many periods of the tank. */
export const supplyDip = { kind: 'supply drop', share: 0.5, periods: 20 } as const satisfies Disturbance;

/** Whether a load adds anything to the coil's own loss, so that it can be put on and taken off. */
export function addsLoss({ power, parallelResistance, loadedQ }: Load): boolean {
  return power !== undefined || parallelResistance !== undefined || loadedQ !== undefined;
}

/**
 * Load removal and application and a dip of the supply in the time domain, with the usual pair when hot.
 *
 * @param design  the project
 * @param point   load and corner: where the drains go highest
 * @param strong  load and the corner at which the pair latches first, at which the load is put on
 * @param wanted  see WantedEvents
 */
export function timedEvents({
  design,
  point,
  strong,
  wanted,
}: {
  design: Design;
  point: OperatingPoint;
  strong: OperatingPoint;
  wanted: WantedEvents;
}): TimedEvents {
  const run = (disturbance: Disturbance, at = point): TimedEvent | Unknown =>
    timedDisturbance({ design, point: at, pair: usualPair(at), disturbance });
  const isAsked = wanted === 'all' || (wanted === 'fails' && isGivingWay(design));
  const supplyDrop = isAsked ? { supplyDrop: run(supplyDip) } : {};
  if (!addsLoss(point.load)) return supplyDrop;
  const loadApplication = wanted === 'peaks' ? {} : { loadApplication: run({ kind: 'load application' }, strong) };
  return { loadRemoval: run({ kind: 'load removal' }), ...loadApplication, ...supplyDrop };
}

/**
 * The peaks of a run as a transient, with nothing added.
 *
 * @param peaks       of the run
 * @param closedForm  what the envelope says of it
 */
export function timedTransient({ peaks, closedForm }: { peaks: Peaks; closedForm?: Transient | undefined }): Transient {
  return {
    drainPeak: peaks.drain,
    tankPeak: peaks.tank,
    supplyPeak: peaks.supply,
    chokePeak: peaks.choke,
    timed: true,
    ...(closedForm === undefined ? {} : { closedFormDrainPeak: closedForm.drainPeak }),
  };
}

/** A transient with the allowance for what was not run added, and its rail lifted by what comes back into a bulk capacitor. */
export function judgedTransient({ transient, running, lift = 1 }: { transient: Transient; running: Running; lift?: Ratio }): Transient {
  const on = isKnown(running.onResistance) ? running.onResistance : 0;
  const [v, i] = [lift * (1 + timedAllowance.voltage), lift * (1 + timedAllowance.current)];
  return {
    ...transient,
    drainPeak: transient.drainPeak * v + Math.max(0, (i - v) * transient.supplyPeak * on),
    tankPeak: transient.tankPeak * v,
    supplyPeak: transient.supplyPeak * i,
    chokePeak: transient.chokePeak * i,
  };
}

/** A load removal as it is judged; what it comes to where it does not run. */
export function judgedRemoval({
  design,
  point,
  event,
  closedForm,
}: {
  design: Design;
  point: OperatingPoint;
  event: TimedEvent | Unknown;
  closedForm: Transient | undefined;
}): Transient | Unknown {
  const { running } = point;
  if ('unknown' in event) return event;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  if (event.outcome !== 'runs')
    return { unknown: `in the time domain it ${doesNotRun[event.outcome]} when the load is taken away: see latch-up` };
  const transient = timedTransient({ peaks: event.peaks, closedForm });
  return judgedTransient({ transient, running, lift: railLift({ design, running }) });
}

export const doesNotRun = { latches: 'latches', stalls: 'stops', undecided: 'is undecided', runs: 'runs' } as const;
