import type { Metre, SquareMetre } from '../units/si.ts';
import { requirePositive } from './preconditions.ts';

/** Diameter of No. 36 in m: 0.0050 in. */
const number36 = 0.005 * 0.0254;

/**
 * Diameter of a round wire of an American wire gauge.
 *
 *     d = 0.005 in·92^((36 − n)/39);  4/0 is n = −3
 *
 * @param gauge  n, a whole number from −3 to 40
 * @returns d, in m
 *
 * Valid for: solid wire; the standard tabulates diameters rounded to 0.0001 in, No. 22 as 0.0253 in.
 * Errors: RangeError where the gauge is not a whole number from −3 to 40.
 * Source: ASTM B258, definition read (check-values C-awg-formula, C-awg-table)
 *
 * @example wireGaugeDiameter({ gauge: 36 }) // 0.000127
 */
export function wireGaugeDiameter({ gauge: n }: { gauge: number }): Metre {
  if (!(Number.isInteger(n) && n >= -3 && n <= 40)) throw new RangeError(`no wire gauge ${n}`);
  return number36 * 92 ** ((36 - n) / 39);
}

/**
 * Thinnest American wire gauge that has at least a cross-section.
 *
 *     π·d(n)²/4 ≥ A
 *
 * @param crossSection  A, in m², above zero
 * @returns n, from −3 (4/0) to 40; undefined above 4/0
 *
 * Valid for: solid round wire.
 * Errors: RangeError where the cross-section is not finite and above zero.
 * Source: ASTM B258 (check-values C-awg-formula)
 *
 * @example wireGaugeForCrossSection({ crossSection: 2e-6 }) // 14
 */
export function wireGaugeForCrossSection({ crossSection: A }: { crossSection: SquareMetre }): number | undefined {
  requirePositive({ crossSection: A });
  for (let gauge = 40; gauge >= -3; gauge--) {
    const d = wireGaugeDiameter({ gauge });
    if ((Math.PI / 4) * d * d >= A * (1 - 1e-9)) return gauge;
  }
  return undefined;
}
