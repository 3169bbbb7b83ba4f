import type { Second } from '../units/si.ts';
import { envelopeMode, type EnvelopeCircuit } from './envelope.ts';
import { railMode, type RailFeed } from './rail-ringing.ts';

/**
 * Natural periods of envelope and rail. Without lead inductance the rail has its time constant.
 *
 * @param circuit  as EnvelopeCircuit
 * @param feed     rs in Ω, Ls in H, Cb in F
 * @returns both, in s
 *
 * Valid for: as envelopeMode and railMode.
 * Source: as envelopeMode and railMode
 *
 * @example naturalPeriods({ circuit: { chokeInductance: 1 / Math.PI ** 2, capacitance: 1, parallelResistance: Infinity, dropResistance: 0 }, feed: { resistance: 0, leadInductance: 1, bulkCapacitance: 4 } }) // { envelope: 6.283185307179586, rail: 12.566370614359172 }
 */
export function naturalPeriods({ circuit, feed }: { circuit: EnvelopeCircuit; feed: RailFeed }): { envelope: Second; rail: Second } {
  return {
    envelope: (2 * Math.PI) / envelopeMode(circuit).angularFrequency,
    rail: feed.leadInductance > 0 ? (2 * Math.PI) / railMode(feed).angularFrequency : feed.resistance * feed.bulkCapacitance,
  };
}
