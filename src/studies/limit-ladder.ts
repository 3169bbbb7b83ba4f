/** What fails at a place of a grid of whole numbers: check ids. */
export type FailingAt = (index: number) => ReadonlySet<string>;

/** A stretch of the grid in which nothing fails. Both ends are well. */
export interface WellRange {
  readonly low: number;
  readonly high: number;
  /** What fails one place below; empty where the grid ends. */
  readonly setsLow: readonly string[];
  readonly setsHigh: readonly string[];
}

/** An end of a range with some checks left out. */
export interface Rung {
  /** The last place that is well with everything before it left out. */
  readonly index: number;
  /** What fails at the next place; empty where the grid ends. */
  readonly checks: readonly string[];
}

/** A grid: places that are looked at first, ascending; the ones between are looked at where something changes. */
export interface LadderInput {
  readonly failing: FailingAt;
  readonly places: readonly number[];
  /** Whether some check of a place's may already be told without all of them: asked before the whole, which may take long. */
  readonly surelyFailing?: FailingAt;
}

/** Whether nothing but what is left out fails at a place. */
function isWell({ failing, surelyFailing }: LadderInput, index: number, without: ReadonlySet<string>): boolean {
  const hasOther = (of: ReadonlySet<string>): boolean => [...of].some((id) => !without.has(id));
  return !(surelyFailing !== undefined && hasOther(surelyFailing(index))) && !hasOther(failing(index));
}

/** Brings a place that holds and one that does not together: neighbours at the end. */
function closeIn({ from, to, holds }: { from: number; to: number; holds: (index: number) => boolean }): number {
  let [good, bad] = [from, to];
  while (Math.abs(good - bad) > 1) {
    const middle = Math.round((good + bad) / 2);
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/**
 * Every stretch of a grid in which nothing fails, each end refined to one place. Holes that lie between two places that are looked at,
 * and are narrower than their distance, are not seen; a stretch between two places that fail for different reasons is.
 *
 * @param input    grid and what fails on it
 * @param without  checks to leave out
 */
export function wellRanges(input: LadderInput, without: ReadonlySet<string> = new Set()): readonly WellRange[] {
  const { failing } = input;
  const holds = (index: number): boolean => isWell(input, index, without);
  const places = input.places.flatMap((place, i, all) => {
    const next = all[i + 1];
    if (next === undefined || holds(place) || holds(next)) return [place];
    const between = islandBetween({ input, low: place, high: next, without });
    return between === undefined ? [place] : [place, between];
  });
  const ranges: WellRange[] = [];
  let start: number | undefined;
  const others = (index: number): readonly string[] => [...failing(index)].filter((id) => !without.has(id));
  for (const [i, place] of places.entries()) {
    const before = places[i - 1];
    const next = places[i + 1];
    if (!holds(place)) continue;
    if (before === undefined || !holds(before)) start = before === undefined ? place : closeIn({ from: place, to: before, holds });
    if (next !== undefined && holds(next)) continue;
    const high = next === undefined ? place : closeIn({ from: place, to: next, holds });
    const low = start ?? place;
    ranges.push({
      low,
      high,
      setsLow: low === places[0] ? [] : others(low - 1),
      setsHigh: next === undefined ? [] : others(high + 1),
    });
  }
  return ranges;
}

/** A place between two failing ones at which what fails below has ended and what fails above has not begun. */
function islandBetween({
  input,
  low,
  high,
  without,
}: {
  input: LadderInput;
  low: number;
  high: number;
  without: ReadonlySet<string>;
}): number | undefined {
  const { failing, surelyFailing = failing } = input;
  const others = (of: ReadonlySet<string>): readonly string[] => [...of].filter((id) => !without.has(id));
  // what is known without the whole decides first
  const [below, above] = [others(surelyFailing(low)), others(surelyFailing(high))].map((ids, i) =>
    ids.length > 0 ? ids : others(failing(i === 0 ? low : high)),
  ) as [readonly string[], readonly string[]];
  if (below.some((id) => above.includes(id))) return undefined;
  const ended = (index: number): boolean => {
    const now = surelyFailing(index);
    if (below.some((id) => now.has(id))) return false;
    const all = failing(index);
    return !below.some((id) => all.has(id));
  };
  const first = closeIn({ from: high, to: low, holds: ended });
  return first < high && isWell(input, first, without) ? first : undefined;
}

/** The same, one end after the other: who sets it, left out; the next limit beyond; up to so many. */
export function ladder({
  input,
  from,
  direction,
  rungs,
}: {
  input: LadderInput;
  from: number;
  direction: 1 | -1;
  rungs: number;
}): readonly Rung[] {
  const without = new Set<string>();
  const found: Rung[] = [];
  const onward = input.places.filter((place) => (place - from) * direction > 0).toSorted((a, b) => (a - b) * direction);
  const end = onward.at(-1) ?? from;
  let at = from;
  while (found.length < rungs) {
    const holds = (index: number): boolean => isWell(input, index, without);
    let [good, bad] = [at, undefined as number | undefined];
    for (const place of onward) {
      if ((place - at) * direction <= 0) continue;
      if (!holds(place)) {
        bad = place;
        break;
      }
      good = place;
    }
    if (bad === undefined) return [...found, { index: end, checks: [] }];
    const index = closeIn({ from: good, to: bad, holds });
    const checks = [...input.failing(index + direction)].filter((id) => !without.has(id));
    found.push({ index, checks });
    for (const id of checks) without.add(id);
    at = index;
  }
  return found;
}

/** The first and the last place looked at where a check does not fail; undefined where it fails at all of them. */
export function clearPlaces({
  input: { failing, places },
  id,
}: {
  input: LadderInput;
  id: string;
}): { first: number; last: number } | undefined {
  const clear = places.filter((place) => !failing(place).has(id));
  const [first] = clear;
  return first === undefined ? undefined : { first, last: clear.at(-1)! };
}
