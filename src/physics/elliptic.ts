import type { Ratio } from '../units/si.ts';
import { requireWithin } from './preconditions.ts';

/** Complete elliptic integrals of one parameter, and two combinations of them that would cancel if formed afterwards. */
export interface EllipticIntegrals {
  /** K. */
  readonly first: Ratio;
  /** E. */
  readonly second: Ratio;
  /** K − E. */
  readonly difference: Ratio;
  /** (1 − k²/2)·K − E, of the mutual inductance of two circles. */
  readonly mutual: Ratio;
}

/**
 * Complete elliptic integrals of the first and second kind by the arithmetic-geometric mean.
 *
 *     K = ∫0^π/2 dθ/√(1 − k²·sin²θ),  E = ∫0^π/2 √(1 − k²·sin²θ) dθ
 *     a, b → (a + b)/2, √(a·b);  K = π/(2a),  K − E = K·Σ 2^(n−1)·c_n²,  c_(n+1) = c_n²/(4·a_(n+1))
 *
 * @param complement  1 − k², the complementary parameter, a ratio above 0 and up to 1; given instead of k² because k² near 1 has lost it
 * @param parameter   k², a ratio; left out, 1 less the complement; given by those who know it better than that difference
 * @returns K, E, K − E and (1 − k²/2)·K − E, ratios
 *
 * Valid for: any complement above zero; measured against mpmath: within 2e-14 from 1e-300 to 1.
 * Errors: RangeError where the complement is not above 0 and at most 1: K is infinite at 0.
 * Source: NIST DLMF 19.8.1, 19.8.6, from memory (check-values B-maxwell-table, B-mut-*)
 *
 * @example ellipticIntegrals({ complement: 1 }) // { first: Math.PI / 2, second: Math.PI / 2, difference: 0, mutual: 0 }
 * @example ellipticIntegrals({ complement: 0.5 }).first // 1.8540746773013719
 * @example ellipticIntegrals({ complement: 0.5 }).second // 1.3506438810476755
 */
export function ellipticIntegrals({
  complement,
  parameter = 1 - complement,
}: {
  complement: Ratio;
  parameter?: Ratio | undefined;
}): EllipticIntegrals {
  requireWithin({ named: { 'complementary parameter': complement }, from: Number.MIN_VALUE, to: 1 });
  requireWithin({ named: { parameter }, from: 0, to: 1 });
  let a = 1;
  let b = Math.sqrt(complement);
  let square = parameter;
  let weight = 0.5;
  let tail = 0;
  // c² quadratically goes to nothing: 1e-300 takes 12 steps
  while (square > 1e-34) {
    const mean = (a + b) / 2;
    b = Math.sqrt(a * b);
    a = mean;
    square = (square / (4 * a)) ** 2;
    weight *= 2;
    tail += weight * square;
  }
  const first = Math.PI / (a + b);
  const difference = first * (parameter / 2 + tail);
  return { first, second: first - difference, difference, mutual: first * tail };
}
