import type { Ampere, Ratio, Second, Volt } from '../units/si.ts';
import { envelopeMode, envelopePath, settledEnvelope, type EnvelopeCircuit, type EnvelopeState, type RailRamp } from './envelope.ts';

/** Largest tank voltage and choke current of a transient. */
export interface EnvelopePeaks {
  readonly voltage: Volt;
  readonly voltageAt: Second;
  readonly current: Ampere;
  readonly currentAt: Second;
}

/**
 * Largest tank voltage and choke current while a rail moves and after it has settled. The state is exact at every time; the peaks
 * are found by sampling 16 times a period of the envelope and refining.
 *
 * @param circuit  as EnvelopeCircuit
 * @param initial  I in A and Vt in V at time zero
 * @param rail     from, to in V, time in s (0 for a step)
 * @returns the peaks in V and A and their times in s; a settled value that nothing exceeds has the time Infinity
 *
 * Valid for: as envelopeAt. In a long ramp its beginning and end are searched: the successive crests are a rising line
 * plus a decaying ripple, a convex sequence, so its largest stands at an end.
 * Source: check-values A-start-*
 *
 * @example envelopePeaks({ circuit: { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }, initial: { current: 0, voltage: 0 }, rail: { from: 0, to: 1 / Math.PI, time: 0 } }).voltage // 1.7039022441
 */
export function envelopePeaks({
  circuit,
  initial,
  rail,
}: {
  circuit: EnvelopeCircuit;
  initial: EnvelopeState;
  rail: RailRamp;
}): EnvelopePeaks {
  const stateAt = envelopePath({ circuit, initial, rail });
  const { angularFrequency, dampingRatio } = envelopeMode(circuit);
  const times = searchTimes({ period: (2 * Math.PI) / angularFrequency, dampingRatio, rampTime: rail.time });
  const states = times.map(stateAt);
  const settled = settledEnvelope({ circuit, voltage: rail.to });
  const peakOf = (quantity: keyof EnvelopeState): { value: number; time: Second } => {
    const peak = refinedPeak({ times, values: states.map((state) => state[quantity]), valueAt: (time) => stateAt(time)[quantity] });
    return settled[quantity] > peak.value ? { value: settled[quantity], time: Infinity } : peak;
  };
  const [voltage, current] = [peakOf('voltage'), peakOf('current')];
  return { voltage: voltage.value, voltageAt: voltage.time, current: current.value, currentAt: current.time };
}

const samplesPerPeriod = 16;

function searchTimes({ period, dampingRatio, rampTime }: { period: Second; dampingRatio: Ratio; rampTime: Second }): Second[] {
  const step = period / samplesPerPeriod;
  const times: Second[] = [];
  const uniform = (from: Second, to: Second): void => {
    for (let i = 0; from + i * step < to; i++) times.push(from + i * step);
  };
  uniform(0, Math.min(rampTime, 1.25 * period));
  uniform(Math.max(1.25 * period, rampTime - 1.25 * period), rampTime);
  if (dampingRatio < 0.9) {
    uniform(rampTime, rampTime + 1.25 * period);
    return times;
  }
  // without a ringing the crest may come early or late
  for (let decade = -4; decade < 2; decade += 1 / 8) times.push(rampTime + period * 10 ** decade);
  times.push(rampTime);
  return times.sort((x, y) => x - y);
}

/** Steps of the golden section: they narrow a crest to 3 millionths of a period, its height to 1e-9. */
const refinements = 22;
const golden = (Math.sqrt(5) - 1) / 2;

function refinedPeak({
  times,
  values,
  valueAt,
}: {
  times: readonly Second[];
  values: readonly number[];
  valueAt: (time: Second) => number;
}): { value: number; time: Second } {
  const best = values.indexOf(Math.max(...values));
  let low = times[Math.max(0, best - 1)]!;
  let high = times[Math.min(times.length - 1, best + 1)]!;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let leftValue = valueAt(left);
  let rightValue = valueAt(right);
  for (let i = 0; i < refinements; i++) {
    if (leftValue < rightValue) {
      low = left;
      left = right;
      leftValue = rightValue;
      right = low + golden * (high - low);
      rightValue = valueAt(right);
    } else {
      high = right;
      right = left;
      rightValue = leftValue;
      left = high - golden * (high - low);
      leftValue = valueAt(left);
    }
  }
  return leftValue > values[best]! ? { value: leftValue, time: left } : { value: values[best]!, time: times[best]! };
}
