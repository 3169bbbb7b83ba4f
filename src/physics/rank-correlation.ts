import type { Ratio } from '../units/si.ts';

/**
 * Ranks of numbers, from 1; equal ones share the mean of theirs.
 *
 * @param values  any numbers, infinite ones too, no unit
 * @returns ranks, in the order of the values
 *
 * Valid for: numbers.
 * Errors: none.
 * Source: Spearman 1904; mean ranks for ties as in Kendall, Rank Correlation Methods (memory)
 *
 * @example ranks({ values: [10, 30, 20, 20] }) // [1, 4, 2.5, 2.5]
 */
export function ranks({ values }: { values: ArrayLike<number> }): Float64Array {
  // numbers sorted as they are take a tenth of the time of places sorted by their numbers
  const sorted = new Float64Array(values).sort();
  const rankAt = new Float64Array(sorted.length);
  for (let begin = 0; begin < sorted.length;) {
    let end = begin + 1;
    while (end < sorted.length && sorted[end] === sorted[begin]) end++;
    rankAt.fill((begin + 1 + end) / 2, begin, end);
    begin = end;
  }
  const ranked = new Float64Array(sorted.length);
  for (let i = 0; i < ranked.length; i++) ranked[i] = rankAt[placeIn(sorted, values[i]!)]!;
  return ranked;
}

/** Place of a number among ascending ones that hold it: of the first, where there are several. */
function placeIn(sorted: Float64Array, value: number): number {
  let [low, high] = [0, sorted.length - 1];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * How far one number rises with another, whatever the shape of the curve: Pearson's correlation of ranks.
 *
 *     ρ = Σ (a − ā)(b − b̄) / √(Σ (a − ā)²·Σ (b − b̄)²),  a and b ranks
 *
 * @param first   ranks of one, no unit
 * @param second  ranks of the other, as many
 * @returns ρ, from −1 to 1; 0 where one of them does not vary
 *
 * Valid for: ranks with the mean of ties, as `ranks` gives them.
 * Errors: RangeError where they are not as many.
 * Source: Spearman 1904, Am. J. Psychol. 15, 72–101
 *
 * @example rankCorrelation({ first: [1, 2, 3, 4, 5], second: [1, 2, 3, 5, 4] }) // 0.9
 */
export function rankCorrelation({ first, second }: { first: ArrayLike<number>; second: ArrayLike<number> }): Ratio {
  const n = first.length;
  if (second.length !== n) throw new RangeError(`${n} ranks cannot be compared with ${second.length}`);
  const mean = (n + 1) / 2;
  let [both, one, other] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const a = first[i]! - mean;
    const b = second[i]! - mean;
    both += a * b;
    one += a * a;
    other += b * b;
  }
  return one === 0 || other === 0 ? 0 : both / Math.sqrt(one * other);
}
