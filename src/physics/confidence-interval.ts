import type { Ratio } from '../units/si.ts';
import { requireWithin } from './preconditions.ts';

/** Standard deviations that hold 95 % of a normal distribution. */
const z = 1.959963984540054;

/**
 * Between what shares a share lies that was counted in a sample, with 95 % confidence: Wilson's score interval.
 *
 *     (p + z²/2n ± z·√(p·(1 − p)/n + z²/4n²)) / (1 + z²/n),  p = k/n,  z = 1.96
 *
 * @param count  k, how many of the sample, a whole number
 * @param of     n, size of the sample, a whole number of 1 or more
 * @returns lower and upper end, ratios from 0 to 1
 *
 * Valid for: independent draws; at none and at all of them too, where the interval has one end at 0 or 1.
 * Errors: RangeError where the count is not from 0 to n, or n is not 1 or more.
 * Source: Wilson 1927, J. Am. Stat. Assoc. 22, 209–212; rows of Newcombe 1998, Stat. Med. 17, 857–872 (memory)
 *
 * @example shareInterval({ count: 0, of: 20 }).upper // 0.16112515805390837
 */
export function shareInterval({ count: k, of: n }: { count: number; of: number }): { lower: Ratio; upper: Ratio } {
  requireWithin({ named: { sample: n }, from: 1 });
  requireWithin({ named: { count: k }, from: 0, to: n });
  const p = k / n;
  const half = z * Math.sqrt((p * (1 - p)) / n + z ** 2 / (4 * n ** 2));
  const [middle, over] = [p + z ** 2 / (2 * n), 1 + z ** 2 / n];
  // rounding must not leave a sliver beside an end that is exact
  return { lower: k === 0 ? 0 : (middle - half) / over, upper: k === n ? 1 : (middle + half) / over };
}
