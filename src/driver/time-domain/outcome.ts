import type { Ampere, Second } from '../../units/si.ts';
import type { OperatingPoint } from '../operating-point.ts';
import { meanCurrent, type MeanCurrent } from './mean-current.ts';
import { place, sourceOverTime, type Circuit } from './circuit.ts';
import type { Measures } from './measures.ts';
import { runOf, type Moment, type Peaks, type Run } from './run.ts';
import type { Accuracy } from './solver.ts';

/** What a start comes to. */
export type Outcome = 'runs' | 'latches' | 'stalls' | 'undecided';

/** An event in the time domain. */
export interface TimedEvent {
  readonly outcome: Outcome;
  readonly at: Second;
  readonly peaks: Peaks;
  readonly steps: number;
  /** In one sentence. */
  readonly why: string;
  /** What a supply must give, where its limit is why the outcome is undecided. */
  readonly needs?: Ampere;
}

/** How exactly a start is followed: steps a period of the tank, error of a step, steps at most. */
export interface Effort {
  readonly stepsPerPeriod: number;
  readonly tolerance: number;
  readonly mostSteps: number;
}

export const usualEffort: Effort = { stepsPerPeriod: 70, tolerance: 1e-3, mostSteps: 150_000 };

/** Periods of the envelope from the first swings to where the mean current is looked at, and those after which a start is given up. */
const crestPassed = 0.3;
const givenUp = 6;
/** Periods of the tank that a start is followed at least, and the silence after which it does not swing. */
const leastPeriods = 12;
const silence = 8;
/** Part of the running amplitude that counts as running. */
const runningShare = 0.5;
/** Mean current over the running one with which a driver runs, at once and where it is steady; and what it may lie above, of the envelope's. */
const fairCurrent = { atOnce: 1.05, steady: 1.25 } as const;
const spareCurrent = 0.05;
/** What is left of the envelope's ringing in the means of a rail that creeps up, of its highest current. */
const ringing = 0.02;
/** From one mean to the next, or from one half of a window to the other, a current that grows by more still rises. */
const steadyCurrent = 1.05;
/** Supply current, over the highest that the envelope gives, past which a pair has latched that does not swing: not yet, or no more. */
const latchedCurrent = { notYet: 4, noMore: 1.25 } as const;

/** How a stretch of a start ended: `settled` where it swings on a rail that has still far to go. */
export interface Stretch {
  readonly run: Run;
  readonly verdict: Outcome | 'settled' | undefined;
  /** Of both chokes, over periods of the envelope. */
  readonly mean: MeanCurrent;
}

/**
 * A stretch of a start, up to a verdict. That it swings does not make it run: a pair that leaks swings for a while with a current that
 * rises until it latches. So the mean current over a period of the envelope must be that of a running driver.
 */
export function stretch({
  circuit,
  measures: { period, envelopePeriod, railUp, mayRest, amplitude, current: expected, running },
  accuracy,
  mostSteps,
  initial,
  see,
}: {
  circuit: Circuit;
  measures: Measures;
  accuracy: Accuracy;
  mostSteps: number;
  initial: Float64Array;
  /** Called after every step. */
  see?: ((moment: Moment) => void) | undefined;
}): Stretch {
  const mean = meanCurrent({ window: Math.max(envelopePeriod, leastPeriods * period) });
  let [swingingFrom, hasSwung] = [Infinity, false];
  let verdict: Outcome | 'settled' | undefined;
  const { voltageAt, whole } = sourceOverTime(circuit);
  // what the bank takes while its voltage grows with the rail
  const charging = (Math.PI * amplitude * circuit.tank.capacitance) / railUp;
  /** Whether the driver swings on a rising rail with the current of a running one, from one envelope period to the next. */
  const isCalm = ({ most }: { most: Ampere }): boolean =>
    mean.last !== undefined &&
    mean.before !== undefined &&
    mean.last <= most &&
    mean.last <= steadyCurrent * mean.before + ringing * expected;
  const watch = (moment: Moment): boolean => {
    const { time, state, swings } = moment;
    see?.(moment);
    const rail = voltageAt(time) / whole;
    const isSwinging = time - swings.lastAt < silence * period && swings.amplitude > runningShare * rail * amplitude;
    hasSwung ||= isSwinging;
    swingingFrom = isSwinging ? Math.min(swingingFrom, time) : Infinity;
    const current = state[place.chokeA]! + state[place.chokeB]!;
    const isResting = mayRest && time < railUp;
    mean.see({ time, current, from: (isResting ? swingingFrom : Math.max(railUp, swingingFrom)) + crestPassed * envelopePeriod });
    const most = (mean.isSteady(steadyCurrent) ? fairCurrent.steady : fairCurrent.atOnce) * rail * running + spareCurrent * expected;
    const isFair = mean.last !== undefined && mean.last <= most && (mean.isSteadyWithin(steadyCurrent) || mean.isSteady(steadyCurrent));
    if (isSwinging && isFair && time >= railUp) verdict = 'runs';
    else if (isSwinging && isResting && isCalm({ most: fairCurrent.steady * rail * running + spareCurrent * expected + charging }))
      verdict = 'settled';
    if (time - swings.lastAt > silence * period && current > (hasSwung ? latchedCurrent.noMore : latchedCurrent.notYet) * expected)
      verdict = 'latches';
    return verdict !== undefined;
  };
  const until = railUp + givenUp * envelopePeriod + 100 * period;
  const run = runOf({ circuit, initial, until, accuracy, mostSteps, watch });
  return { run, verdict, mean };
}

/** What a last stretch comes to. */
export function finished({ circuit, measures, run, verdict, mean }: Stretch & { circuit: Circuit; measures: Measures }): TimedEvent {
  const decided = verdict === 'settled' ? undefined : verdict;
  const end = run.complete ? ended({ circuit, run, measures, mean }) : { outcome: 'undecided' as const, why: words.undecided };
  const { outcome, why } = decided === undefined ? end : { outcome: decided, why: words[decided] };
  return { outcome, at: run.endedAt, peaks: run.peaks, steps: run.steps, why };
}

const words: Readonly<Record<Outcome, string>> = {
  runs: 'it oscillates once the rail is up',
  latches: 'both switches conduct and the current through the chokes keeps rising',
  stalls: 'it does not oscillate: the gates hang between their threshold and a few volts above it',
  undecided: 'the run was longer than its budget of steps or did not converge',
};

/** Supply current over the running one from which a pair that hardly swings conducts through both switches. */
const crossConducting = 2.5;

/**
 * A run that ended without a verdict: a pair that conducts without swinging, or that swings or hardly swings and draws far too much, has
 * latched; one that swings with a steady current runs.
 */
function ended({ circuit, run, measures, mean }: Omit<Stretch, 'verdict'> & { circuit: Circuit; measures: Measures }): {
  outcome: Outcome;
  why: string;
} {
  const { state, swings, endedAt } = run;
  const current = state[place.chokeA]! + state[place.chokeB]!;
  const drawsTooMuch = current > crossConducting * measures.running;
  if (endedAt - swings.lastAt < silence * measures.period) {
    const times = `${((mean.last ?? current) / measures.running).toPrecision(2)} times its running current`;
    if (swings.amplitude > runningShare * measures.amplitude && mean.last !== undefined) {
      if (mean.last > crossConducting * measures.running + spareCurrent * measures.current)
        return { outcome: 'latches', why: `both switches conduct in part: it swings and draws ${times}` };
      if (mean.isSteady(steadyCurrent)) return { outcome: 'runs', why: words.runs };
      return { outcome: 'undecided', why: `it swings and draws ${times}, still rising when the run was ended` };
    }
    const swing = `it swings to ${Math.round((100 * swings.amplitude) / measures.amplitude)} % of its running voltage`;
    if (drawsTooMuch)
      return {
        outcome: 'latches',
        why: `both switches conduct in part: ${swing} and draws ${(current / measures.running).toPrecision(2)} times its running current`,
      };
    return { outcome: 'stalls', why: `${swing} and no further` };
  }
  const highest = Math.max(state[place.drainA]!, state[place.drainB]!);
  const lowestGate = Math.min(state[place.gateA]! - circuit.switches[0].threshold, state[place.gateB]! - circuit.switches[1].threshold);
  const isLatched = drawsTooMuch || (lowestGate > 0 && highest < circuit.switches[0].threshold);
  return isLatched ? { outcome: 'latches', why: words.latches } : { outcome: 'stalls', why: words.stalls };
}

/** Tolerance and longest step for a tank. */
export function accuracyOf({ point: { tank }, effort }: { point: OperatingPoint; effort: Effort }): Accuracy {
  return {
    tolerance: effort.tolerance,
    longestStep: (2 * Math.PI * Math.sqrt(tank.inductance * tank.capacitance)) / effort.stepsPerPeriod,
  };
}
