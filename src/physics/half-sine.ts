import type { Ratio } from '../units/si.ts';

/** Decay per radian of the damped half-sine: q = 1/√(4Q² − 1). */
function decayPerRadian(Q: Ratio): Ratio {
  if (!(Q > 0.5)) throw new RangeError(`no oscillation at Q ${Q}`);
  return 1 / Math.sqrt(4 * Q * Q - 1);
}

/**
 * Peak of the drain voltage as a multiple of π times its mean, for a tank of finite quality.
 *
 *     Vpk/(π·V) = 2·√(1 + q²)·exp(−q·atan(1/q)) / (1 + exp(−π·q)),  q = 1/√(4Q² − 1)
 *
 * Each half cycle is a free damped half-sine; the mean over a period is the supply voltage, since no dc stands across a choke.
 *
 * @param quality  Q, a ratio, above ½
 * @returns the factor, a ratio: 1.0007 at Q 10, 1.08 at Q 1
 *
 * Valid for: chokes of infinite inductance, ideal switches.
 * Errors: RangeError where Q is not above ½.
 * Source: derived, confirmed with an exact state-space solution (check-values A-finiteQ-*)
 *
 * @example finiteQualityPeakFactor({ quality: 3 }) // 1.0075758265334427
 */
export function finiteQualityPeakFactor({ quality: Q }: { quality: Ratio }): Ratio {
  const q = decayPerRadian(Q);
  return (2 * Math.sqrt(1 + q * q) * Math.exp(-q * Math.atan(1 / q))) / (1 + Math.exp(-Math.PI * q));
}

/**
 * Mean square of the tank voltage as a multiple of that of a pure sine of peak π·V, for a tank of finite quality. It is also the
 * factor on the power that the tank takes at a given supply voltage.
 *
 *     k = 2·(1 + q²)·tanh(π·q/2)/(π·q),  q = 1/√(4Q² − 1)
 *
 * @param quality  Q, a ratio, above ½
 * @returns the factor, a ratio: 1 at high Q
 *
 * Valid for: chokes of infinite inductance, ideal switches.
 * Errors: RangeError where Q is not above ½.
 * Source: derived by integrating the damped half-sine of check-values A-finiteQ-*; compared with A-ode-12V-10uH-1uF-10R-100uHch
 *
 * @example finiteQualityPowerFactor({ quality: 3 }) // 1.0050636400409
 */
export function finiteQualityPowerFactor({ quality: Q }: { quality: Ratio }): Ratio {
  const q = decayPerRadian(Q);
  return (2 * (1 + q * q) * Math.tanh((Math.PI * q) / 2)) / (Math.PI * q);
}
