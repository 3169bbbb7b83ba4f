import type { Ampere, Second, Volt } from '../units/si.ts';
import { EnvelopeTransient } from './envelope-motion.ts';
import { settledEnvelope, type EnvelopeCircuit, type EnvelopeState, type RailRamp } from './envelope.ts';

/** Largest tank voltage and choke current of a transient. */
export interface EnvelopePeaks {
  readonly voltage: Volt;
  readonly voltageAt: Second;
  readonly current: Ampere;
  readonly currentAt: Second;
}

/**
 * Largest tank voltage and choke current while a rail moves and after it has settled: at its crests, which are found exactly, at either
 * end of the ramp, or at last.
 *
 * @param circuit  as EnvelopeCircuit
 * @param initial  I in A and Vt in V at time zero
 * @param rail     from, to in V, time in s (0 for a step)
 * @returns the peaks in V and A and their times in s; a settled value that nothing exceeds has the time Infinity
 *
 * Valid for: as envelopeAt. Of a long ramp its first and its last crest are looked at: the successive ones are a rising line plus a
 * decaying ripple, a convex sequence, so its largest stands at an end.
 * Source: check-values A-start-*
 *
 * @example envelopePeaks({ circuit: { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }, initial: { current: 0, voltage: 0 }, rail: { from: 0, to: 1 / Math.PI, time: 0 } }).voltage // 1.7039022441
 */
export function envelopePeaks(of: { circuit: EnvelopeCircuit; initial: EnvelopeState; rail: RailRamp }): EnvelopePeaks {
  const transient = new EnvelopeTransient(of);
  const settled = settledEnvelope({ circuit: of.circuit, voltage: of.rail.to });
  const [voltage, current] = [
    peakOf({ quantity: 'voltage', transient, initial: of.initial, settled }),
    peakOf({ quantity: 'current', transient, initial: of.initial, settled }),
  ];
  return { voltage: voltage.value, voltageAt: voltage.time, current: current.value, currentAt: current.time };
}

function peakOf({
  quantity,
  transient: { rising, settling, time },
  initial,
  settled,
}: {
  quantity: keyof EnvelopeState;
  transient: EnvelopeTransient;
  initial: EnvelopeState;
  settled: EnvelopeState;
}): { value: number; time: Second } {
  let peak: { value: number; time: Second } = { value: initial[quantity], time: 0 };
  const see = (value: number, at: Second): void => {
    if (value > peak.value) peak = { value, time: at };
  };
  for (const crest of rising?.crestsWithin(quantity, time) ?? []) see(rising!.valueOf(quantity, crest), crest);
  see(settling.valueOf(quantity, 0), time);
  const crest = settling.crestAtRest(quantity);
  if (crest !== undefined) see(settling.valueOf(quantity, crest), time + crest);
  see(settled[quantity], Infinity);
  return peak;
}
