import { envelopeMode } from '../../physics/envelope.ts';
import type { Design } from '../../project/design.ts';
import type { Ampere, Second, Volt } from '../../units/si.ts';
import type { OperatingPoint, Running } from '../operating-point.ts';
import { riseAtDriver } from '../rail.ts';
import { place, sourceVoltage, type Circuit } from './circuit.ts';
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
}

/** How exactly a start is followed: steps a period of the tank, error of a step, steps at most. */
export interface Effort {
  readonly stepsPerPeriod: number;
  readonly tolerance: number;
  readonly mostSteps: number;
}

export const usualEffort: Effort = { stepsPerPeriod: 70, tolerance: 1e-3, mostSteps: 150_000 };

/** Periods of the envelope after which the crest of a start is past, and those after which a start that does not swing is given up. */
const crestPassed = 1.3;
const givenUp = 6;
/** Periods of the envelope before the rail is up that are followed again. */
export const followedBefore = 4;
/** Periods of the tank that a start is followed at least, and the silence after which it does not swing. */
const leastPeriods = 12;
const silence = 8;
/** Part of the running amplitude that counts as running. */
const runningShare = 0.5;
/** Supply current, over the highest that the envelope gives, past which a pair that does not swing has latched. */
const latchedCurrent = 4;

/** What a start is measured against. */
export interface Measures {
  readonly period: Second;
  readonly envelopePeriod: Second;
  /** When the rail is up. */
  readonly railUp: Second;
  /** Whether a part may end before the rail is up, once it swings. */
  readonly mayRest: boolean;
  readonly amplitude: Volt;
  readonly current: Ampere;
}

/** What the events of a design with one load are measured against. */
export function measuresOf({
  design,
  point,
  running,
  circuit,
}: {
  design: Design;
  point: OperatingPoint;
  running: Running;
  circuit: Circuit;
}): Measures {
  const envelopePeriod = envelopePeriodOf({ design, circuit });
  const railUp = design.gates.pullUp.hold ? 0 : riseAtDriver(design);
  return {
    period: 1 / running.frequency,
    envelopePeriod,
    railUp,
    mayRest: railUp > (followedBefore + 3) * envelopePeriod && point.running !== undefined,
    amplitude: running.tankPeak,
    current: expectedCurrent({ circuit, running }),
  };
}

/** A stretch of a start, up to a verdict: `settled` where it swings on a rail that has still far to go. */
export function stretch({
  circuit,
  measures: { period, envelopePeriod, railUp, mayRest, amplitude, current: expected },
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
}): { readonly run: Run; readonly verdict: Outcome | 'settled' | undefined } {
  let swingingFrom = Infinity;
  let verdict: Outcome | 'settled' | undefined;
  const whole = sourceVoltage(circuit, Number.MAX_VALUE);
  const watch = (moment: Moment): boolean => {
    const { time, state, swings } = moment;
    see?.(moment);
    const rail = sourceVoltage(circuit, time) / whole;
    const isSwinging = time - swings.lastAt < silence * period && swings.amplitude > runningShare * rail * amplitude;
    swingingFrom = isSwinging ? Math.min(swingingFrom, time) : Infinity;
    const since = time - Math.max(railUp, swingingFrom);
    if (isSwinging && since > Math.max(crestPassed * envelopePeriod, leastPeriods * period)) verdict = 'runs';
    else if (isSwinging && mayRest && time - swingingFrom > Math.max(2 * envelopePeriod, 40 * period)) verdict = 'settled';
    const current = state[place.chokeA]! + state[place.chokeB]!;
    if (time - swings.lastAt > silence * period && current > latchedCurrent * expected) verdict = 'latches';
    return verdict !== undefined;
  };
  const until = railUp + givenUp * envelopePeriod + 100 * period;
  const run = runOf({ circuit, initial, until, accuracy, mostSteps, watch });
  return { run, verdict };
}

/** What a last stretch comes to. */
export function finished({
  circuit,
  measures: { period },
  run,
  verdict,
}: {
  circuit: Circuit;
  measures: Measures;
  run: Run;
  verdict: Outcome | 'settled' | undefined;
}): TimedEvent {
  const decided = verdict === 'settled' ? 'runs' : verdict;
  const outcome =
    decided ?? (run.complete ? ended({ circuit, state: run.state, swings: run.swings, endedAt: run.endedAt, period }) : 'undecided');
  return { outcome, at: run.endedAt, peaks: run.peaks, steps: run.steps, why: words[outcome] };
}

const words: Readonly<Record<Outcome, string>> = {
  runs: 'it oscillates once the rail is up',
  latches: 'both switches stay on and the current through the chokes keeps rising',
  stalls: 'it does not oscillate: the gates hang between their threshold and a few volts above it',
  undecided: 'the run was longer than its budget of steps or did not converge',
};

/** A run that ended without a verdict: a pair that conducts without swinging has latched, or hangs half on. */
function ended({
  circuit,
  state,
  swings,
  endedAt,
  period,
}: {
  circuit: Circuit;
  state: Float64Array;
  swings: { readonly lastAt: Second };
  endedAt: Second;
  period: Second;
}): Outcome {
  if (endedAt - swings.lastAt < silence * period) return 'undecided';
  const highest = Math.max(state[place.drainA]!, state[place.drainB]!);
  const lowestGate = Math.min(state[place.gateA]! - circuit.switches[0].threshold, state[place.gateB]! - circuit.switches[1].threshold);
  return lowestGate > 0 && highest < circuit.switches[0].threshold ? 'latches' : 'stalls';
}

function envelopePeriodOf({ design, circuit }: { design: Design; circuit: Circuit }): Second {
  const seen = design.chokes.arrangement === 'two' ? circuit.choke.inductance / 2 : circuit.choke.inductance;
  const { angularFrequency } = envelopeMode({
    chokeInductance: seen,
    capacitance: circuit.tank.capacitance,
    parallelResistance: Infinity,
    dropResistance: 0,
  });
  return (2 * Math.PI) / angularFrequency;
}

/** A step's largest choke current without damping, and the running one with it. */
function expectedCurrent({ circuit, running }: { circuit: Circuit; running: Running }): number {
  const seen = circuit.arrangement === 'two' ? circuit.choke.inductance / 2 : circuit.choke.inductance;
  return circuit.supply.voltage * Math.PI * Math.sqrt(circuit.tank.capacitance / seen) * 0.5 + 2 * running.supplyCurrent;
}

/** Tolerance and longest step for a tank. */
export function accuracyOf({ point: { tank }, effort }: { point: OperatingPoint; effort: Effort }): Accuracy {
  return {
    tolerance: effort.tolerance,
    longestStep: (2 * Math.PI * Math.sqrt(tank.inductance * tank.capacitance)) / effort.stepsPerPeriod,
  };
}
