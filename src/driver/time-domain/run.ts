import type { Ampere, Joule, Second, Volt } from '../../units/si.ts';
import { chargedEquationsOf } from './charged-equations.ts';
import type { Circuit } from './circuit.ts';
import { equationsOf } from './circuit-equations.ts';
import type { Equations } from './equations.ts';
import { RunWatch } from './run-watch.ts';
import { follow, type Accuracy } from './solver.ts';

/** Highest values of a run, or of a part of it. */
export interface Peaks {
  drain: Volt;
  drainAt: Second;
  tank: Volt;
  gate: Volt;
  /** Both chokes together. */
  supply: Ampere;
  /** Out of the source, in front of a bulk capacitor: chokes, pull-ups that hang on it, and what charges the capacitor; read at the steps. */
  source: Ampere;
  choke: Ampere;
  rail: Volt;
  /** Put into breakdown. */
  breakdownEnergy: Joule;
}

/** What is seen of the oscillation as it goes. */
export interface Swings {
  /** Zero crossings of the tank voltage with a swing worth the name on both sides. */
  count: number;
  lastAt: Second;
  /** Tank voltage at the crest of the last half period that ended. */
  amplitude: Volt;
}

/** A run as its watcher sees it after every step. */
export interface Moment {
  readonly time: Second;
  readonly state: Float64Array;
  readonly swings: Swings;
}

/** How a run ended. */
export interface Run {
  readonly peaks: Peaks;
  readonly swings: Swings;
  readonly state: Float64Array;
  readonly endedAt: Second;
  readonly steps: number;
  /** False where the solver gave up or the budget of steps ran out. */
  readonly complete: boolean;
}

/** The higher of every peak of two runs; the energies add up. */
export function higherPeaks(a: Peaks, b: Peaks): Peaks {
  return {
    drain: Math.max(a.drain, b.drain),
    drainAt: b.drain > a.drain ? b.drainAt : a.drainAt,
    tank: Math.max(a.tank, b.tank),
    gate: Math.max(a.gate, b.gate),
    supply: Math.max(a.supply, b.supply),
    source: Math.max(a.source, b.source),
    choke: Math.max(a.choke, b.choke),
    rail: Math.max(a.rail, b.rail),
    breakdownEnergy: a.breakdownEnergy + b.breakdownEnergy,
  };
}

/**
 * Follows a circuit from a state and notes its peaks and swings.
 *
 * @param circuit   values
 * @param initial   state at time 0
 * @param until     in s, at the latest
 * @param accuracy  see Accuracy
 * @param mostSteps  budget
 * @param watch     called after every step; true to stop
 */
export function runOf({
  circuit,
  initial,
  until,
  accuracy,
  mostSteps,
  watch,
}: {
  circuit: Circuit;
  initial: Float64Array;
  until: Second;
  accuracy: Accuracy;
  mostSteps: number;
  watch: (moment: Moment) => boolean;
}): Run {
  const { equations, state } = beginningOf(circuit, initial);
  const { supply, tank, gates } = circuit;
  const seen = new RunWatch({ circuit, watched: equations.watched, state });
  let isOut = false;
  const { complete } = follow({
    equations,
    state,
    until,
    breaks: [supply.riseTime - supply.rising, tank.changesAt, gates.releasedAt, supply.dip?.from ?? 0, supply.dip?.until ?? 0],
    accuracy,
    watch: (time, y) => {
      seen.see(time, y);
      isOut = seen.steps >= mostSteps;
      return isOut || watch(seen.moment);
    },
  });
  const { time: endedAt, swings } = seen.moment;
  return { peaks: seen.peaks(), swings, state, endedAt, steps: seen.steps, complete: complete && !isOut };
}

/** The equations that a circuit is followed by, and their state; charges follow from the voltages. */
function beginningOf(circuit: Circuit, initial: Float64Array): { readonly equations: Equations; readonly state: Float64Array } {
  const { overVoltage } = circuit.capacitances;
  if (overVoltage === undefined) return { equations: equationsOf(circuit), state: Float64Array.from(initial) };
  const equations = chargedEquationsOf(circuit, overVoltage);
  const state = new Float64Array(equations.count);
  state.set(initial);
  equations.settle(state);
  return { equations, state };
}
