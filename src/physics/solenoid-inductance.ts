import type { Henry, Metre, Ratio } from '../units/si.ts';
import { ellipticIntegrals } from './elliptic.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/**
 * Nagaoka's coefficient: inductance of a cylindrical current sheet over that of the same length of an endless one.
 *
 *     K = (4/(3π·k'))·[(k'²/k²)·(K − E) + E − k],  k² = x²/(1 + x²),  x = D/l
 *
 * @param diameterOverLength  x, a ratio, above zero
 * @returns K, a ratio from 1 for a long coil to 0 for a flat one
 *
 * Valid for: x up to 1e4; measured against mpmath: within 1e-11 up to x 100, 1e-7 at 1e4.
 * Errors: RangeError where x is not above zero and at most 1e4.
 * Source: L. Lorenz 1879; H. Nagaoka, J. Coll. Sci. Tokyo 27, 1909, from memory (check-values B-nagaoka-*)
 *
 * @example nagaokaCoefficient({ diameterOverLength: 1 }) // 0.68842260732
 */
export function nagaokaCoefficient({ diameterOverLength: x }: { diameterOverLength: Ratio }): Ratio {
  requireWithin({ named: { 'diameter over length': x }, from: Number.MIN_VALUE, to: 1e4 });
  const complement = 1 / (1 + x * x);
  const k = x * Math.sqrt(complement);
  if (k < 1e-8) return 1;
  const { second: E, difference } = ellipticIntegrals({ complement, parameter: k * k });
  return (4 / (3 * Math.PI * Math.sqrt(complement))) * ((complement / (k * k)) * difference + E - k);
}

/**
 * Inductance of a solenoid as a current sheet.
 *
 *     L = µ0·π·D²·N²·K/(4·l)
 *
 * @param meanDiameter  D, to the middle of the wire, in m, above zero
 * @param length        l, number of turns times pitch, in m, above zero
 * @param turns         N, above zero
 * @returns L, in H
 *
 * Valid for: thin tape without gaps; round wire needs Rosa's corrections.
 * Errors: RangeError where an argument is not above zero, or D/l exceeds 1e4.
 * Source: Lorenz, Nagaoka (check-values B-sol-60-60-10, B-sol-50-100-20)
 *
 * @example currentSheetInductance({ meanDiameter: 0.06, length: 0.06, turns: 10 }) // 4.07667527701e-6
 */
export function currentSheetInductance({
  meanDiameter: D,
  length: l,
  turns: N,
}: {
  meanDiameter: Metre;
  length: Metre;
  turns: number;
}): Henry {
  requirePositive({ 'mean diameter': D, length: l, turns: N });
  return (µ0 * Math.PI * D * D * N * N * nagaokaCoefficient({ diameterOverLength: D / l })) / (4 * l);
}

/**
 * Rosa's correction of a current sheet for the self-inductance of round wire.
 *
 *     A = ln(d/p) + 3/2 − ln 2 − Y/4
 *
 * @param diameterOverPitch  d/p, a ratio, above 0 and up to 1
 * @param internalFactor     Y, a ratio: 1 for direct current, 0 for all current on the surface
 * @returns A, a ratio
 *
 * Valid for: current even around the wire; curvature neglected.
 * Errors: RangeError where d/p is not above 0 and at most 1.
 * Source: E. B. Rosa, Bull. Bureau of Standards 2, 1906, from memory (check-values B-rosa-A)
 *
 * @example rosaSelfCorrection({ diameterOverPitch: 1, internalFactor: 1 }) // 0.55685281944
 */
export function rosaSelfCorrection({ diameterOverPitch, internalFactor: Y }: { diameterOverPitch: Ratio; internalFactor: Ratio }): Ratio {
  requireWithin({ named: { 'diameter over pitch': diameterOverPitch }, from: Number.MIN_VALUE, to: 1 });
  return Math.log(diameterOverPitch) + 3 / 2 - Math.LN2 - Y / 4;
}

/** ln m − ln R_m, R_m the geometric mean distance of two strips m of their widths apart; from its series where the logarithms would cancel. */
function distanceExcess(m: number): number {
  if (m >= 10) return 1 / (12 * m ** 2) + 1 / (60 * m ** 4) + 1 / (168 * m ** 6) + 1 / (360 * m ** 8);
  const below = m === 1 ? 0 : (m - 1) ** 2 * Math.log(m - 1);
  return Math.log(m) - (((m + 1) ** 2 * Math.log(m + 1) + below) / 2 - m ** 2 * Math.log(m) - 3 / 2);
}

/**
 * Rosa's correction of a current sheet for the mutual inductance of round turns.
 *
 *     B = (2/N)·Σ_m=1^(N−1) (N − m)·[ln m − ln R_m],  ln R_m = ½[(m+1)²·ln(m+1) + (m−1)²·ln(m−1)] − m²·ln m − 3/2
 *
 * @param turns  N, from 1 to 1e6; between whole numbers a straight line
 * @returns B, a ratio from 0 for one turn to 0.3379 for many
 *
 * Valid for: curvature neglected.
 * Errors: RangeError where N is out of range.
 * Source: E. B. Rosa, Bull. Bureau of Standards 2, 1906, from memory (check-values B-rosa-B)
 *
 * @example rosaMutualCorrection({ turns: 2 }) // 0.11370563888
 */
export function rosaMutualCorrection({ turns: N }: { turns: number }): Ratio {
  requireWithin({ named: { turns: N }, from: 1, to: 1e6 });
  const whole = Math.floor(N);
  if (whole < N) {
    const rest = N - whole;
    return (1 - rest) * rosaMutualCorrection({ turns: whole }) + rest * rosaMutualCorrection({ turns: whole + 1 });
  }
  let sum = 0;
  for (let m = 1; m < N; m++) sum += (N - m) * distanceExcess(m);
  return (2 * sum) / N;
}

/** A single-layer coil on a cylinder. */
export interface Solenoid {
  /** To the middle of the wire. */
  readonly meanDiameter: Metre;
  /** Centre to centre of neighbouring turns. */
  readonly pitch: Metre;
  readonly turns: number;
  readonly wireRadius: Metre;
}

/**
 * Inductance of a solenoid of round wire with the current even around the wire.
 *
 *     L = L_sheet − µ0·(D/2)·N·(A + B),  l = N·p
 *
 * @param meanDiameter    D, to the middle of the wire, in m, above zero
 * @param pitch           p, in m, above zero
 * @param turns           N, 1 or more, part turns allowed
 * @param wireRadius      a, outer, in m, above zero, up to p/2
 * @param internalFactor  Y, a ratio: 0 with all current on the surface, 1 uniform over a solid wire
 * @returns L, in H
 *
 * Valid for: curvature of the wire small; measured against the sum of circles: within 0.3 % for a/(D/2) up to 0.1. Crowding of current in a thin skin lowers
 * L further: `solenoidEstimate`.
 * Errors: RangeError where an argument is out of range.
 * Source: Lorenz, Nagaoka, Rosa (check-values B-sol-rosa-60-60-10)
 *
 * @example solenoidInductance({ meanDiameter: 0.06, pitch: 6e-3, turns: 10, wireRadius: 1e-3, internalFactor: 0 }) // 4.08623251585e-6
 */
export function solenoidInductance({
  meanDiameter: D,
  pitch: p,
  turns: N,
  wireRadius: a,
  internalFactor,
}: Solenoid & { internalFactor: Ratio }): Henry {
  const A = rosaSelfCorrection({ diameterOverPitch: (2 * a) / p, internalFactor });
  const B = rosaMutualCorrection({ turns: N });
  return currentSheetInductance({ meanDiameter: D, length: N * p, turns: N }) - µ0 * (D / 2) * N * (A + B);
}
