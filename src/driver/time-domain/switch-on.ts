import { envelopeMode } from '../../physics/envelope.ts';
import type { Design } from '../../project/design.ts';
import type { Second } from '../../units/si.ts';
import type { Unknown } from '../known.ts';
import type { OperatingPoint, Running } from '../operating-point.ts';
import { riseAtDriver } from '../rail.ts';
import { place, stateCount, type Circuit } from './circuit.ts';
import { circuitOf, type Pair } from './circuit-of.ts';
import { runOf, type Moment, type Peaks } from './run.ts';

/** What a start comes to. */
export type Outcome = 'runs' | 'latches' | 'stalls' | 'undecided';

/** A start in the time domain. */
export interface TimedStart {
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
/** Periods of the tank that a start is followed at least, and the silence after which it does not swing. */
const leastPeriods = 12;
const silence = 8;
/** Part of the running amplitude that counts as running. */
const runningShare = 0.5;
/** Supply current, over the highest that the envelope gives, past which a pair that does not swing has latched. */
const latchedCurrent = 4;

/**
 * The start of a design in the time domain, with one load at one corner.
 *
 * @param design   the project
 * @param point    load and corner
 * @param pair     how the switches are taken
 * @param effort   how exactly it is followed
 * @returns what it comes to, with the peaks; unknown where a rating is missing or nothing oscillates
 */
export function timedStart({
  design,
  point,
  pair,
  effort = usualEffort,
}: {
  design: Design;
  point: OperatingPoint;
  pair: Pair;
  effort?: Effort;
}): TimedStart | Unknown {
  const { running, tank } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const circuit = circuitOf({ design, point, pair });
  if ('unknown' in circuit) return circuit;
  const period = 1 / running.frequency;
  const envelopePeriod = envelopePeriodOf({ design, circuit });
  const railUp = design.gates.pullUp.hold ? 0 : riseAtDriver(design);
  const until = railUp + givenUp * envelopePeriod + 100 * period;
  const expected = { amplitude: running.tankPeak, current: expectedCurrent({ circuit, running }) };
  let runningFrom = Infinity;
  let verdict: Outcome | undefined;
  const watch = ({ time, state, swings }: Moment): boolean => {
    const isSwinging =
      time - swings.lastAt < silence * period && swings.amplitude > runningShare * Math.min(1, time / railUp || 1) * expected.amplitude;
    if (isSwinging && runningFrom === Infinity) runningFrom = time;
    if (!isSwinging && swings.amplitude < 1) runningFrom = Infinity;
    if (isSwinging && time > Math.max(railUp, runningFrom) + Math.max(crestPassed * envelopePeriod, leastPeriods * period)) {
      verdict = 'runs';
      return true;
    }
    const current = state[place.chokeA]! + state[place.chokeB]!;
    if (time - swings.lastAt > silence * period && current > latchedCurrent * expected.current) {
      verdict = 'latches';
      return true;
    }
    return false;
  };
  const run = runOf({
    circuit,
    initial: initialState({ design, circuit }),
    until,
    accuracy: {
      tolerance: effort.tolerance,
      longestStep: (2 * Math.PI * Math.sqrt(tank.inductance * tank.capacitance)) / effort.stepsPerPeriod,
    },
    mostSteps: effort.mostSteps,
    watch,
  });
  const outcome =
    verdict ?? (run.complete ? ended({ circuit, state: run.state, swings: run.swings, endedAt: run.endedAt, period }) : 'undecided');
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

/** At rest; with the gates held until the rail is up, the drains stand at the rail. */
function initialState({ design, circuit }: { design: Design; circuit: Circuit }): Float64Array {
  const state = new Float64Array(stateCount(circuit));
  if (!design.gates.pullUp.hold) return state;
  state[place.drainA] = state[place.drainB] = circuit.supply.voltage;
  if (circuit.supply.buffer !== undefined) state[place.rail] = circuit.supply.voltage;
  return state;
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
