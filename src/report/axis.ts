/**
 * Round numbers that divide a range, for the marks of an axis: 1, 2 or 5 times a power of ten apart.
 *
 * @param from   lower end
 * @param to     upper end
 * @param count  marks that are wanted, about
 * @returns ascending, within the range
 *
 * @example axisMarks({ from: 0, to: 10, count: 5 }) // [0, 2, 4, 6, 8, 10]
 */
export function axisMarks({ from, to, count }: { from: number; to: number; count: number }): readonly number[] {
  if (!(to > from)) return [from];
  const rough = (to - from) / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((factor) => factor * power >= rough * 0.999) ?? 10) * power;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}
