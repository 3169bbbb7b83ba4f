/** Two numbers nearer than this, as a share of the larger, are one: the same value written in another unit differs in its last digit. */
const resolution = 1e-6;

/**
 * Whether two numbers differ by more than rounding.
 *
 * @param a  any number, or none
 * @param b  any number, or none
 *
 * @example differ(18, 18.000001) // false
 */
export function differ(a: number | null | undefined, b: number | null | undefined): boolean {
  if (a === null || a === undefined || b === null || b === undefined) return (a ?? null) !== (b ?? null);
  return Math.abs(a - b) > resolution * Math.max(Math.abs(a), Math.abs(b));
}
