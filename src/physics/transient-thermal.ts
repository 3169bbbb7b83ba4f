import type { KelvinPerWatt, KelvinRise, Second, Watt } from '../units/si.ts';
import { requirePositive } from './preconditions.ts';

/** Time from which a junction's step response has reached the junction-to-case resistance: class, power MOSFETs in cases with a tab. */
export const junctionToCaseTime: Second = 0.1;

/**
 * Rise of a junction over its case by a loss that changes in steps.
 *
 *     ΔT(t) = Σ ΔP_k·Z(t − t_k),  Z(t) = R_jc·min(1, √(t/τ))
 *
 * @param steps             times in s, ascending, and the loss in W from each on
 * @param time              t, in s
 * @param junctionToCase    R_jc, in K/W
 * @param settling          τ, in s: from then on the step response is R_jc
 * @returns ΔT, in K
 *
 * Valid for: an estimate within a factor of two; the case stays where it is, which it does for some tenths of a second on a heatsink.
 * Errors: RangeError where R_jc or τ is not above zero.
 * Source: superposition; one-dimensional heat flow into a half space gives the square root (Carslaw & Jaeger, Conduction of Heat in Solids), the curves of data sheets follow it below τ; τ from memory
 *
 * @example junctionRise({ steps: [{ from: 0, loss: 100 }], time: 1e-3, junctionToCase: 0.5, settling: 0.1 }) // 5
 */
export function junctionRise({
  steps,
  time,
  junctionToCase,
  settling,
}: {
  steps: readonly { readonly from: Second; readonly loss: Watt }[];
  time: Second;
  junctionToCase: KelvinPerWatt;
  settling: Second;
}): KelvinRise {
  requirePositive({ junctionToCase, settling });
  let [rise, before] = [0, 0];
  for (const { from, loss } of steps) {
    if (from >= time) break;
    rise += (loss - before) * junctionToCase * Math.min(1, Math.sqrt((time - from) / settling));
    before = loss;
  }
  return rise;
}
