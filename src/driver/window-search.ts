import type { Ratio } from '../units/si.ts';

/** Where something is well, between two ends. */
export interface Window {
  /** From here on every value that was tried is well, up to `longest`. */
  readonly shortest: number;
  readonly longest: number;
  /** The next value below that is not; undefined where the lowest of the grid is well. */
  readonly badBelow?: number;
  /** The next value above that is not; undefined where none was found: the highest of the grid is well, or higher ones were not tried. */
  readonly badAbove?: number;
}

/**
 * The window around a value in which a predicate holds: a grid is climbed from there to the first value that does not, or else to the
 * first that does; then it is gone down to the first that does not, and each end is refined by bisection. Both ends are values that hold.
 *
 * @param isWell     the predicate, undefined where it cannot be told
 * @param grid       ascending, not negative
 * @param from       a value of the grid, from which it is searched: upwards first, then downwards
 * @param precision  how near the ends come, a ratio of neighbours (0.05: within 5 %)
 * @param mayClimb   false not to try a higher value
 * @param mayRefine  false to leave the ends as near as they are
 * @returns the window; undefined where nothing that was tried is well
 *
 * @example windowSearch({ isWell: (x) => x >= 4, grid: [0, 1, 2, 4, 8], from: 4, precision: 1 }) // { shortest: 4, longest: 8, badBelow: 2 }
 */
export function windowSearch({
  isWell,
  grid,
  from,
  precision,
  mayClimb = () => true,
  mayRefine = () => true,
}: {
  isWell: (value: number) => boolean | undefined;
  grid: readonly number[];
  from: number;
  precision: Ratio;
  mayClimb?: (value: number) => boolean;
  mayRefine?: () => boolean;
}): Window | undefined {
  /** What is said of the next higher value; undefined where it is not tried. */
  const above = (index: number): boolean | undefined => {
    const next = grid[index + 1];
    return next === undefined || !mayClimb(next) ? undefined : isWell(next);
  };
  const start = grid.indexOf(from);
  let top = start;
  let isAboveWell = isWell(from);
  if (isAboveWell !== true) {
    while ((isAboveWell = above(top)) === false) top++;
    // above the one that it is well at nothing has been tried yet; without one what lies above is not
    top = isAboveWell ? top + 1 : grid.slice(0, start).findLastIndex((value) => isWell(value) === true);
    if (top < 0) return undefined;
  }
  // what was found further down has one above it that is not well, or cannot be told
  if (top < start) isAboveWell = isWell(grid[top + 1]!);
  else while ((isAboveWell = above(top))) top++;
  let bottom = top;
  while (bottom > 0 && isWell(grid[bottom - 1]!) === true) bottom--;
  const end = (good: number, bad: number | undefined): { good: number; bad?: number } =>
    bad === undefined ? { good } : refined({ isWell, good, bad, precision, mayRefine });
  // the lower end first, in case it may not go on
  const lower = end(grid[bottom]!, grid[bottom - 1]);
  const upper = end(grid[top]!, isAboveWell === false ? grid[top + 1] : undefined);
  return {
    shortest: lower.good,
    longest: upper.good,
    ...(lower.bad === undefined ? {} : { badBelow: lower.bad }),
    ...(upper.bad === undefined ? {} : { badAbove: upper.bad }),
  };
}

/** Brings a value that holds and one that does not together. */
function refined({
  isWell,
  good: firstGood,
  bad: firstBad,
  precision,
  mayRefine,
}: {
  isWell: (value: number) => boolean | undefined;
  good: number;
  bad: number;
  precision: Ratio;
  mayRefine: () => boolean;
}): { readonly good: number; readonly bad: number } {
  let [good, bad] = [firstGood, firstBad];
  while (mayRefine() && Math.max(good, bad) > (1 + precision) * Math.min(good, bad)) {
    // from zero on there is no ratio: halve down to a small part of the other end, then stop there
    const low = Math.min(good, bad);
    if (low === 0 && Math.max(good, bad) < precision * Math.max(firstGood, firstBad)) break;
    const middle = low === 0 ? Math.max(good, bad) / 2 : Math.sqrt(good * bad);
    if (isWell(middle) === true) good = middle;
    else bad = middle;
  }
  return { good, bad };
}
