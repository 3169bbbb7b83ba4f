import type { Ratio } from '../units/si.ts';

/**
 * Complete elliptic integral of the first kind.
 *
 *     K(m) = ∫₀^(π/2) dθ/√(1 − m·sin²θ) = π/(2·agm(1, √(1 − m)))
 *
 * @param parameter  m = k², below 1; the modulus k is its root
 * @returns K, a ratio
 *
 * Valid for: m below 1, also negative.
 * Errors: RangeError where m is not a finite number below 1.
 * Source: arithmetic-geometric mean, DLMF 19.8.5
 *
 * @example completeEllipticK({ parameter: 0.5 }) // 1.8540746773013719
 */
export function completeEllipticK({ parameter: m }: { parameter: Ratio }): Ratio {
  if (!(m < 1 && m > -Infinity)) throw new RangeError(`no complete elliptic integral of the first kind at parameter ${m}`);
  let [a, g] = [1, Math.sqrt(1 - m)];
  while (Math.abs(a - g) > 1e-15 * a) [a, g] = [(a + g) / 2, Math.sqrt(a * g)];
  return Math.PI / (a + g);
}

/**
 * Complete elliptic integral of the second kind.
 *
 *     E(m) = ∫₀^(π/2) √(1 − m·sin²θ) dθ = K·(1 − Σ 2^(n−1)·cₙ²),  c₀² = m,  cₙ₊₁ = (aₙ − gₙ)/2
 *
 * @param parameter  m = k², not above 1; the modulus k is its root
 * @returns E, a ratio
 *
 * Valid for: m up to 1, also negative.
 * Errors: RangeError where m is not a finite number up to 1.
 * Source: arithmetic-geometric mean, DLMF 19.8.6
 *
 * @example completeEllipticE({ parameter: 0.5 }) // 1.3506438810476755
 */
export function completeEllipticE({ parameter: m }: { parameter: Ratio }): Ratio {
  if (!(m <= 1 && m > -Infinity)) throw new RangeError(`no complete elliptic integral of the second kind at parameter ${m}`);
  if (m === 1) return 1;
  let [a, g] = [1, Math.sqrt(1 - m)];
  let [sum, weight] = [m / 2, 1];
  while (Math.abs(a - g) > 1e-15 * a) {
    const c = (a - g) / 2;
    sum += weight * c * c;
    weight *= 2;
    [a, g] = [(a + g) / 2, Math.sqrt(a * g)];
  }
  return (Math.PI / (a + g)) * (1 - sum);
}
