import type { Result } from '../../checks/result.ts';
import type { Ratio } from '../../units/si.ts';

const zeroCelsius = 273.15;

/** What a share is taken of. */
type Limited = Pick<Result, 'limit' | 'dimension' | 'sense'> & { readonly value: number | null };

/**
 * How much of a limit is used: 1 at the limit, more past it, for both senses.
 *
 * A temperature counts from 0 °C, since from absolute zero even a cold part would use most of its limit. Of what must be at least so
 * much it is the share that is needed of what there is.
 *
 * @param value      in SI; null where there is none
 * @param limit      in SI; null where there is none
 * @param dimension  of both
 * @param sense      at-most | at-least
 * @returns 0 or more, Infinity where there is nothing of what is needed; undefined where no share can be drawn
 *
 * @example shareOfLimit({ value: 50, limit: 200, dimension: 'voltage', sense: 'at-most' }) // 0.25
 * @example shareOfLimit({ value: 40, limit: 10, dimension: 'count', sense: 'at-least' }) // 0.25
 */
export function shareOfLimit({ value, limit, dimension, sense }: Limited): Ratio | undefined {
  if (value === null || limit === null) return undefined;
  const zero = dimension === 'temperature' ? zeroCelsius : 0;
  const [used, whole] = sense === 'at-most' ? [value - zero, limit - zero] : [limit - zero, value - zero];
  if (limit - zero <= 0) return undefined;
  if (whole <= 0) return Infinity;
  return Math.max(0, used / whole);
}
