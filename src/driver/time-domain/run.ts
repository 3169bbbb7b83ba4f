import type { Ampere, Joule, Second, Volt } from '../../units/si.ts';
import { breakdownEnergyOf } from './breakdown.ts';
import { chargedEquationsOf } from './charged-equations.ts';
import { place, type Circuit } from './circuit.ts';
import { crestsOf } from './crest.ts';
import { equationsOf, type Equations } from './equations.ts';
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

/** Swings below this are noise of the start. */
const leastSwing: Volt = 1;

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
  const { dip } = circuit.supply;
  const { watched } = equations;
  const swings = { count: 0, lastAt: 0, amplitude: 0 };
  const crests = crestsOf(6);
  const seen = new Float64Array(6);
  const { highest } = crests;
  const { breakdown } = circuit;
  const [brokenA, brokenB] = [breakdownEnergyOf(breakdown ?? Infinity), breakdownEnergyOf(breakdown ?? Infinity)];
  const isBuffered = circuit.supply.buffer !== undefined;
  // fields, not variables, which would be made anew at every step
  const so = { swing: 0, side: 0, steps: 0, isOut: false, highestGate: 0, highestRail: 0, highestSource: 0 };
  const moment = { time: 0, state, swings };
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
    watch: (time, y) => {
      const [vA, vB] = [y[place.drainA]!, y[place.drainB]!];
      const across = vA - vB;
      const size = across < 0 ? -across : across;
      const [jA, jB] = [y[place.chokeA]!, y[place.chokeB]!];
      seen[0] = vA;
      seen[1] = vB;
      seen[2] = size;
      seen[3] = jA + jB;
      seen[4] = jA;
      seen[5] = jB;
      crests.see(time, seen);
      const gate = Math.max(y[place.gateA]!, y[place.gateB]!);
      if (gate > so.highestGate) so.highestGate = gate;
      if (watched.rail > so.highestRail) so.highestRail = watched.rail;
      const source = isBuffered ? y[place.lead]! : watched.supply;
      if (source > so.highestSource) so.highestSource = source;
      if (breakdown !== undefined) {
        brokenA.see(time, vA);
        brokenB.see(time, vB);
      }
      // a half period ends where the tank voltage changes its sign
      if (across * so.side < 0) {
        if (so.swing >= leastSwing) {
          swings.count++;
          swings.lastAt = time;
          swings.amplitude = so.swing;
        }
        so.swing = 0;
      }
      if (across !== 0) so.side = across;
      if (size > so.swing) so.swing = size;
      moment.time = time;
      so.steps++;
      so.isOut = so.steps >= mostSteps;
      return so.isOut || watch(moment);
    },
  });
  const higher = highest[0]! > highest[1]! ? 0 : 1;
  const peaks: Peaks = {
    drain: highest[higher]!,
    drainAt: crests.at[higher]!,
    tank: highest[2]!,
    gate: so.highestGate,
    supply: highest[3]!,
    source: so.highestSource,
    choke: Math.max(highest[4]!, highest[5]!),
    rail: so.highestRail,
    breakdownEnergy: brokenA.energy + brokenB.energy,
  };
  return { peaks, swings, state, endedAt: moment.time, steps: so.steps, complete: complete && !so.isOut };
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
