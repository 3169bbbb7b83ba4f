/** Preferred values of a decade: E24 of IEC 60063:2015. Eight of them are not what rounding of 10^(i/24) gives. */
export const preferredValuesE24: readonly number[] = [
  10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
];

/**
 * The nearest preferred value on one side of a value.
 *
 * @param value  any unit, above zero
 * @param side   `below`: the largest that is not above the value; `above`: the smallest that is not below it
 * @returns in the unit of the value
 *
 * Valid for: resistors and capacitors that are sold in the E24 series.
 * Source: IEC 60063:2015 (check-values D-e24)
 *
 * @example preferredValue({ value: 377, side: 'below' }) // 360
 * @example preferredValue({ value: 377, side: 'above' }) // 390
 */
export function preferredValue({ value, side }: { value: number; side: 'below' | 'above' }): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  const candidates = [...preferredValuesE24, 100].map((ten) => (ten / 10) * decade);
  const slack = 1e-9 * value;
  const fitting = candidates.filter((candidate) => (side === 'below' ? candidate <= value + slack : candidate >= value - slack));
  return side === 'below' ? Math.max(...fitting) : Math.min(...fitting);
}
