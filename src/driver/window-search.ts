import type { Ratio } from '../units/si.ts';

/** Where something is well, between two ends. */
export interface Window {
  /** From here on every value that was tried is well, up to `longest`. */
  readonly shortest: number;
  readonly longest: number;
  /** The next value below that is not; undefined where the lowest of the grid is well. */
  readonly badBelow?: number;
  /** The next value above that is not; undefined where the highest of the grid is well. */
  readonly badAbove?: number;
  /** Whether something further down is well again: the window has a neighbour. */
  readonly isBroken: boolean;
}

/**
 * The highest window of a quantity in which a predicate holds: a grid is scanned from its top down, then each end is refined by
 * bisection between the last value that holds and the first that does not. Both ends are values that hold.
 *
 * @param isWell     the predicate; asked once for every value
 * @param grid       ascending, not negative
 * @param precision  how near the ends come, a ratio of neighbours (0.05: within 5 %)
 * @param mayGoOn    false to leave the ends as near as they are
 * @returns the window; undefined where nothing on the grid is well
 *
 * @example windowSearch({ isWell: (x) => x >= 4, grid: [0, 1, 2, 4, 8], precision: 1 }) // { shortest: 4, longest: 8, badBelow: 2, isBroken: false }
 */
export function windowSearch({
  isWell,
  grid,
  precision,
  mayGoOn = () => true,
}: {
  isWell: (value: number) => boolean;
  grid: readonly number[];
  precision: Ratio;
  mayGoOn?: () => boolean;
}): Window | undefined {
  let top = grid.length - 1;
  while (top >= 0 && !isWell(grid[top]!)) top--;
  if (top < 0) return undefined;
  let bottom = top;
  while (bottom > 0 && isWell(grid[bottom - 1]!)) bottom--;
  // the lower end first, in case it may not go on
  const below = bottom > 0 ? refined({ isWell, good: grid[bottom]!, bad: grid[bottom - 1]!, precision, mayGoOn }) : undefined;
  const above = top < grid.length - 1 ? refined({ isWell, good: grid[top]!, bad: grid[top + 1]!, precision, mayGoOn }) : undefined;
  return {
    shortest: below?.good ?? grid[bottom]!,
    longest: above?.good ?? grid[top]!,
    ...(below === undefined ? {} : { badBelow: below.bad }),
    ...(above === undefined ? {} : { badAbove: above.bad }),
    isBroken: grid.slice(0, Math.max(0, bottom - 1)).some((value) => isWell(value)),
  };
}

/** Brings a value that holds and one that does not together. */
function refined({
  isWell,
  good: firstGood,
  bad: firstBad,
  precision,
  mayGoOn,
}: {
  isWell: (value: number) => boolean;
  good: number;
  bad: number;
  precision: Ratio;
  mayGoOn: () => boolean;
}): { readonly good: number; readonly bad: number } {
  let [good, bad] = [firstGood, firstBad];
  while (mayGoOn() && Math.max(good, bad) > (1 + precision) * Math.min(good, bad)) {
    // from zero on there is no ratio: halve down to a small part of the other end, then stop there
    const low = Math.min(good, bad);
    if (low === 0 && Math.max(good, bad) < precision * Math.max(firstGood, firstBad)) break;
    const middle = low === 0 ? Math.max(good, bad) / 2 : Math.sqrt(good * bad);
    if (isWell(middle)) good = middle;
    else bad = middle;
  }
  return { good, bad };
}
