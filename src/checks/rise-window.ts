import type { Analysis } from '../driver/analysis.ts';
import type { StartProbe } from '../driver/start-probe.ts';
import type { Design } from '../project/design.ts';
import { windowSearch, type Window as SearchedWindow } from '../driver/window-search.ts';
import type { Ratio, Second, Volt } from '../units/si.ts';
import { breakdownAt } from './breakdown.ts';

/** Rise times beyond this, or the project's own if that is longer, are not tried: such a supply is turned up, not switched on. */
export const longestTried: Second = 0.1;

/** How near the ends of the window come. */
const precision: Ratio = 0.05;

/** Steps of the solver after which no longer rise time is tried, and after which the ends are left as near as they are: half a second or so. */
const mostSteps = { climbing: 200_000, refining: 900_000 } as const;

/** Added to a start's peak for the corners and pairs that are not run, as for a settled start. */
const allowance: Ratio = 0.03;

/** What the rise time of a supply may be. */
export interface RiseWindow extends SearchedWindow {
  /** Why the next shorter one is not well. */
  readonly whyBelow?: string;
  readonly whyAbove?: string;
}

const found = new WeakMap<StartProbe, RiseWindow | 'none'>();

/**
 * The rise times with which a design starts and keeps its drains within their rating, with every load, its gates fed as they are.
 *
 * The grid lies where a ramp overshoots most, at odd numbers of half envelope periods; beyond sixteen of them a rail moves too slowly to
 * ring, and the next one is tried at twice the time. It is searched from there, or from the project's own rise time, upwards first: the
 * slower the rail, the longer it takes to follow a start.
 *
 * @param analysis  with its starts in the time domain
 * @returns the window; undefined where no rise time that was tried does
 */
export function riseWindow(analysis: Analysis): RiseWindow | undefined {
  const { probe, design } = analysis;
  if (probe === undefined) return undefined;
  const known = found.get(probe);
  if (known !== undefined) return known === 'none' ? undefined : known;
  const window = searched({ probe, highest: highestDrain(design), own: design.supply.riseTime ?? 0 });
  found.set(probe, window ?? 'none');
  return window;
}

/** Whether the project's own rise time is well with every load, without the search for the window about it. */
export function isWellAsItIs({ probe, design }: Analysis): boolean {
  if (probe === undefined) return false;
  const riseTime = design.supply.riseTime ?? 0;
  return Array.from({ length: probe.loads }, (_, load) => load).every(
    (load) => trouble({ probe, highest: highestDrain(design), load, riseTime }) === undefined,
  );
}

function highestDrain(design: Design): Volt {
  const rating = design.switches.mosfet.ratings.drainVoltage?.value;
  return rating === undefined ? Infinity : breakdownAt({ design, rated: rating });
}

function searched({ probe, highest, own }: { probe: StartProbe; highest: Volt; own: Second }): RiseWindow | undefined {
  const troubleWith = (load: number, riseTime: Second): string | undefined => trouble({ probe, highest, load, riseTime });
  const loads = Array.from({ length: probe.loads }, (_, load) => load);
  const [peaking, strong] = [loads.slice(0, probe.peaking), loads.slice(probe.peaking)];
  /** Whether a rise time is well with some of the loads, the one that was not the last time asked first. */
  const wellWith = (some: readonly number[]): ((riseTime: Second) => boolean | undefined) => {
    let order = some;
    return (riseTime) => {
      const bad = order.find((load) => troubleWith(load, riseTime) !== undefined);
      if (bad === undefined) return true;
      order = [bad, ...order.filter((load) => load !== bad)];
      return probe.start({ riseTime, load: bad }).outcome === 'unfinished' ? undefined : false;
    };
  };
  const mayRefine = (): boolean => probe.steps() < mostSteps.refining;
  const mayClimb = (riseTime: Second): boolean => riseTime <= own || probe.steps() < mostSteps.climbing;
  const { grid, slow } = gridOf({ period: probe.envelopePeriod, own });
  // one that runs until its rail is up first: with it, what is slower need not be followed to there
  if (own > slow) peaking.forEach((load) => probe.start({ riseTime: slow, load }));
  const window = windowSearch({ isWell: wellWith(peaking), grid, from: Math.max(own, slow), precision, mayClimb, mayRefine });
  if (window === undefined) return undefined;
  const narrower = narrowed({ window, isWell: wellWith(strong), grid, slow, mayRefine });
  if (narrower === undefined) return undefined;
  const why = (riseTime: Second | undefined): string | undefined =>
    riseTime === undefined ? undefined : loads.map((load) => troubleWith(load, riseTime)).find((words) => words !== undefined);
  const [whyBelow, whyAbove] = [why(narrower.badBelow), why(narrower.badAbove)];
  return { ...narrower, ...(whyBelow === undefined ? {} : { whyBelow }), ...(whyAbove === undefined ? {} : { whyAbove }) };
}

/** A window whose lower end is well too where a pair latches first. How slow a rail may be hardly hangs on the corner. */
function narrowed({
  window,
  isWell,
  grid,
  slow,
  mayRefine,
}: {
  window: SearchedWindow;
  isWell: (riseTime: Second) => boolean | undefined;
  grid: readonly Second[];
  slow: Second;
  mayRefine: () => boolean;
}): SearchedWindow | undefined {
  const { shortest, longest } = window;
  if (isWell(shortest) === true) return window;
  const inside = [shortest, ...grid.filter((time) => time > shortest && time < longest), longest];
  const from = inside.findLast((time) => time <= slow) ?? shortest;
  const found = windowSearch({ isWell, grid: inside, from, precision, mayClimb: (riseTime) => riseTime <= slow, mayRefine });
  if (found === undefined) return undefined;
  return { ...window, shortest: found.shortest, ...(found.badBelow === undefined ? {} : { badBelow: found.badBelow }) };
}

/** What is wrong with a start; undefined where it runs within the rating. */
function trouble({
  probe,
  highest,
  load,
  riseTime,
}: {
  probe: StartProbe;
  highest: Volt;
  load: number;
  riseTime: Second;
}): string | undefined {
  const { outcome, drainPeak, needs } = probe.start({ riseTime, load });
  if (outcome === 'runs') return drainPeak * (1 + allowance) > highest ? 'the drains exceed their rating' : undefined;
  if (needs !== undefined) return 'it takes the supply to its limit';
  return words[outcome];
}

const words = {
  latches: 'both switches latch',
  stalls: 'it does not start',
  undecided: 'its outcome is undecided',
  unfinished: 'it takes longer than it is followed',
  unknown: 'it is not known',
} as const;

/** Periods of the envelope in which a rail rises that rings; the first ones are those of a live rail that is plugged in, a tank period or two. */
const quickPeriods = [0, 0.05, 0.1, 0.2, 0.5, 1, 1.5, 2.5, 4.5, 8.5, 16.5];
/** Ratio of neighbours where a rail moves too slowly to ring. */
const longSteps = 2;

/** Ascending, with the project's own rise time and the longest that is tried; `slow` is where a rail begins to move too slowly to ring. */
function gridOf({ period, own }: { period: Second; own: Second }): { readonly grid: readonly Second[]; readonly slow: Second } {
  const tried = Math.max(longestTried, own);
  const short = quickPeriods.map((periods) => periods * period).filter((time) => time <= tried);
  const slow = short.at(-1)!;
  const long: Second[] = [];
  for (let time = longSteps * slow; 0 < time && time < tried; time *= longSteps) long.push(time);
  return { grid: [...new Set([...short, ...long, own, tried])].toSorted((a, b) => a - b), slow };
}
