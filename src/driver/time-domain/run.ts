import type { Ampere, Joule, Second, Volt } from '../../units/si.ts';
import { place, type Circuit } from './circuit.ts';
import { equationsOf } from './equations.ts';
import { follow, type Accuracy } from './solver.ts';

/** Highest values of a run, or of a part of it. */
export interface Peaks {
  drain: Volt;
  drainAt: Second;
  tank: Volt;
  gate: Volt;
  /** Both chokes together. */
  supply: Ampere;
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
  readonly peaks: Peaks;
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

/** Swings below this are noise of the start. */
const leastSwing: Volt = 1;

/** Every peak at zero. */
export function noPeaks(): Peaks {
  return { drain: 0, drainAt: 0, tank: 0, gate: 0, supply: 0, choke: 0, rail: 0, breakdownEnergy: 0 };
}

/** The higher of every peak of two runs; the energies add up. */
export function higherPeaks(a: Peaks, b: Peaks): Peaks {
  return {
    drain: Math.max(a.drain, b.drain),
    drainAt: b.drain > a.drain ? b.drainAt : a.drainAt,
    tank: Math.max(a.tank, b.tank),
    gate: Math.max(a.gate, b.gate),
    supply: Math.max(a.supply, b.supply),
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
 * @param watch     called after every step; true to stop; may replace the peaks it was given by `noPeaks` to begin anew
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
  const equations = equationsOf(circuit);
  const { dip } = circuit.supply;
  const { watched } = equations;
  const state = Float64Array.from(initial);
  const [peaks, swings] = [noPeaks(), { count: 0, lastAt: 0, amplitude: 0 }];
  let [crest, side, steps, isOut, endedAt] = [0, 0, 0, false, 0];
  const moment = { time: 0, state, peaks, swings };
  const { complete } = follow({
    equations,
    state,
    until,
    breaks: [
      circuit.supply.riseTime - circuit.supply.rising,
      circuit.tank.changesAt,
      circuit.gates.releasedAt,
      dip?.from ?? 0,
      dip?.until ?? 0,
    ],
    accuracy,
    watch: (time, step, y) => {
      const [vA, vB] = [y[place.drainA]!, y[place.drainB]!];
      const drain = vA > vB ? vA : vB;
      if (drain > peaks.drain) [peaks.drain, peaks.drainAt] = [drain, time];
      const tank = vA - vB;
      const size = tank < 0 ? -tank : tank;
      if (size > peaks.tank) peaks.tank = size;
      const gate = Math.max(y[place.gateA]!, y[place.gateB]!);
      if (gate > peaks.gate) peaks.gate = gate;
      const [jA, jB] = [y[place.chokeA]!, y[place.chokeB]!];
      if (jA + jB > peaks.supply) peaks.supply = jA + jB;
      const choke = jA > jB ? jA : jB;
      if (choke > peaks.choke) peaks.choke = choke;
      if (watched.rail > peaks.rail) peaks.rail = watched.rail;
      peaks.breakdownEnergy += step * (watched.breakdownA * vA + watched.breakdownB * vB);
      // a half period ends where the tank voltage changes its sign
      if (tank * side < 0) {
        if (crest >= leastSwing) {
          swings.count++;
          swings.lastAt = time;
          swings.amplitude = crest;
        }
        crest = 0;
      }
      side = tank === 0 ? side : tank;
      if (size > crest) crest = size;
      moment.time = endedAt = time;
      steps++;
      isOut = steps >= mostSteps;
      return isOut || watch(moment);
    },
  });
  return { peaks, swings, state, endedAt, steps, complete: complete && !isOut };
}
