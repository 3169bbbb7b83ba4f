import { place, type Circuit } from '../../src/driver/time-domain/circuit.ts';
import { runOf } from '../../src/driver/time-domain/run.ts';
import { periodOf } from './reference-circuits.ts';

/** What an ideal stage is made of. */
export interface Stage {
  readonly arrangement: Circuit['arrangement'];
  readonly voltage: number;
  readonly inductance: number;
  readonly capacitance: number;
  readonly load: number;
  readonly choke: number;
}

/** A stage with switches as ideal as the solver can follow: 1 uΩ, thresholds of 10 mV, gates that follow within a nanosecond. */
export function idealCircuit({ arrangement, voltage, inductance, capacitance, load, choke }: Stage): Circuit {
  const channel = { constant: 1e6, series: 0, threshold: 0.006 };
  return {
    arrangement,
    supply: { voltage, riseTime: 0, rising: 0, resistance: 0 },
    choke: { inductance: choke, resistance: 0 },
    tank: { inductance, coilResistance: 0, capacitance, load, loadAfter: load, changesAt: 1e9 },
    switches: [channel, channel],
    capacitances: { gateToSource: 1e-14, gateToDrain: 1e-18, drainToSource: 1e-12 },
    bodyDiode: { saturation: 1e-12, emission: 0.039, slope: 0.001 },
    gates: {
      pullUp: 1e5,
      pullDown: Infinity,
      rail: 10,
      releasedAt: 0,
      crossDiode: { saturation: 1e-4 * Math.exp(-5), emission: 1e-3, slope: 1 },
    },
  };
}

/** What is read of a steady state, in SI. */
export interface Steady {
  readonly frequency: number;
  readonly drainPeak: number;
  readonly coilPeak: number;
  readonly supplyMean: number;
  readonly switchRms: number;
  readonly chokeRipple: number;
  readonly supplyRipple: number;
  readonly tankRms: number;
}

/** How a steady state is reached and read: periods, steps a period, and a supply current to begin with. */
export interface Reading {
  readonly settle: number;
  readonly read: number;
  readonly steps: number;
  readonly tolerance: number;
  readonly supply?: number;
}

/** An ideal stage followed until it is steady, and read over its last periods. */
export function steadyOf(
  stage: Stage,
  { settle, read, steps, tolerance, supply = (Math.PI ** 2 * stage.voltage) / (2 * stage.load) }: Reading,
): Steady {
  const circuit = idealCircuit(stage);
  const isTapped = stage.arrangement === 'centre-tap';
  const period = periodOf(circuit);
  // off at its crest: the mirror image of itself half a period later, so that no direct current is left in the coil
  const initial = Float64Array.of(Math.PI * stage.voltage, 0, 0, isTapped ? supply : supply / 2, isTapped ? 0 : supply / 2, 0.005, 10);
  const settled = runOf({
    circuit,
    initial,
    until: settle * period,
    accuracy: { tolerance, longestStep: period / steps },
    mostSteps: 1e7,
    watch: () => false,
  });
  // from one rising zero of the tank voltage to the last, by straight lines through the crossings
  let before: { time: number; state: Float64Array } | undefined;
  let [start, end, count] = [NaN, NaN, 0];
  const sums = new Float64Array(3);
  const kept = new Float64Array(3);
  let [low, high, lowSupply, highSupply, coil] = [Infinity, -Infinity, Infinity, -Infinity, 0];
  const currents = (y: Float64Array): number => (isTapped ? y[place.chokeA]! : y[place.chokeA]! + y[place.chokeB]!);
  const integrands = (y: Float64Array): readonly number[] => {
    const across = y[place.drainA]! - y[place.drainB]!;
    const isOn = across < 0;
    return [currents(y), isOn ? currents(y) ** 2 : 0, across ** 2];
  };
  const { peaks, complete } = runOf({
    circuit,
    initial: settled.state,
    until: read * period,
    accuracy: { tolerance, longestStep: period / steps },
    mostSteps: 1e7,
    watch: ({ time, state }) => {
      const across = state[place.drainA]! - state[place.drainB]!;
      if (before !== undefined) {
        const was = before.state[place.drainA]! - before.state[place.drainB]!;
        const [left, right] = [integrands(before.state), integrands(state)];
        sums.forEach((sum, i) => (sums[i] = sum + ((time - before!.time) * (left[i]! + right[i]!)) / 2));
        if (was < 0 && across >= 0) {
          const at = time - ((time - before.time) * across) / (across - was);
          if (Number.isNaN(start)) {
            start = at;
            sums.fill(0);
          } else {
            count++;
            end = at;
            kept.set(sums);
          }
        }
      }
      low = Math.min(low, state[place.chokeA]!);
      high = Math.max(high, state[place.chokeA]!);
      lowSupply = Math.min(lowSupply, currents(state));
      highSupply = Math.max(highSupply, currents(state));
      coil = Math.max(coil, Math.abs(state[place.coil]!));
      before = { time, state: Float64Array.from(state) };
      return false;
    },
  });
  if (!settled.complete || !complete || !(count > 0)) throw new Error('the ideal stage could not be followed');
  const span = end - start;
  return {
    frequency: count / span,
    drainPeak: peaks.drain,
    coilPeak: coil,
    supplyMean: kept[0]! / span,
    switchRms: Math.sqrt(kept[1]! / span),
    chokeRipple: high - low,
    supplyRipple: highSupply - lowSupply,
    tankRms: Math.sqrt(kept[2]! / span),
  };
}
