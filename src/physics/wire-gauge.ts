import type { Metre } from '../units/si.ts';
import { requireWithin } from './preconditions.ts';

/**
 * Diameter of American wire gauge.
 *
 *     d = 0.127 mm·92^((36 − n)/39)
 *
 * @param gauge  n, from −3 (4/0) to 56
 * @returns d, of the bare wire, in m
 *
 * Valid for: solid round wire; the standard's own table rounds to 0.0001 in.
 * Errors: RangeError where n is out of range.
 * Source: ASTM B258 (check-values C-awg-formula, C-awg-table)
 *
 * @example gaugeDiameter({ gauge: 36 }) // 0.000127
 */
export function gaugeDiameter({ gauge: n }: { gauge: number }): Metre {
  requireWithin({ named: { gauge: n }, from: -3, to: 56 });
  return 0.127e-3 * 92 ** ((36 - n) / 39);
}
