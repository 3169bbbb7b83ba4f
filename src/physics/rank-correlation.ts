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
export function ranks({ values }: { values: ArrayLike<number> }): readonly number[] {
  const order = Uint32Array.from({ length: values.length }, (_, i) => i).sort((a, b) => compared(values[a]!, values[b]!));
  const ranked = Array.from({ length: values.length }, () => 0);
  for (let begin = 0; begin < order.length;) {
    let end = begin + 1;
    while (end < order.length && values[order[end]!] === values[order[begin]!]) end++;
    for (let i = begin; i < end; i++) ranked[order[i]!] = (begin + 1 + end) / 2;
    begin = end;
  }
  return ranked;
}

function compared(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
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
export function rankCorrelation({ first, second }: { first: readonly number[]; second: readonly number[] }): Ratio {
  const n = first.length;
  if (second.length !== n) throw new RangeError(`${n} ranks cannot be compared with ${second.length}`);
  const mean = (n + 1) / 2;
  let [both, one, other] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const [a, b] = [first[i]! - mean, second[i]! - mean];
    both += a * b;
    one += a * a;
    other += b * b;
  }
  return one === 0 || other === 0 ? 0 : both / Math.sqrt(one * other);
}
