import type { Analysis } from '../driver/analysis.ts';
import type { StartProbe } from '../driver/start-probe.ts';
import { windowSearch, type Window as SearchedWindow } from '../driver/window-search.ts';
import type { Ratio, Second, Volt } from '../units/si.ts';
import { breakdownAt } from './breakdown.ts';

/** Rise times beyond this, or the project's own if that is longer, are not tried: such a supply is turned up, not switched on. */
const longestTried: Second = 0.1;

/** How near the ends of the window come. */
const precision: Ratio = 0.05;

/** Steps of the solver after which the ends are left as near as they are: a second or so. */
const mostSteps = 200_000;

/** Added to a start's peak for the corners and pairs that are not run, as for a settled start. */
const allowance: Ratio = 0.03;

/** What the rise time of a supply may be. */
export interface RiseWindow extends SearchedWindow {
  /** Why the next shorter one is not well. */
  readonly whyBelow?: string;
  readonly whyAbove?: string;
  /** Longest that was tried. */
  readonly tried: Second;
}

const found = new WeakMap<StartProbe, RiseWindow | 'none'>();

/**
 * The rise times with which a design starts and keeps its drains within their rating, with every load, its gates fed as they are.
 *
 * The grid lies where a ramp overshoots most, at odd numbers of half envelope periods; beyond sixteen of them a rail moves too slowly to
 * ring, and wider steps do.
 *
 * @param analysis  with its starts in the time domain
 * @returns the window; undefined where no rise time up to `longestTried` does
 */
export function riseWindow(analysis: Analysis): RiseWindow | undefined {
  const { probe, design } = analysis;
  if (probe === undefined) return undefined;
  const known = found.get(probe);
  if (known !== undefined) return known === 'none' ? undefined : known;
  const rating = design.switches.mosfet.ratings.drainVoltage?.value;
  const highest = rating === undefined ? Infinity : breakdownAt({ design, rated: rating });
  const window = searched({ probe, highest, own: design.supply.riseTime ?? 0 });
  found.set(probe, window ?? 'none');
  return window;
}

function searched({ probe, highest, own }: { probe: StartProbe; highest: Volt; own: Second }): RiseWindow | undefined {
  const isWell = (load: number) => (riseTime: Second) => trouble({ probe, highest, load, riseTime }) === undefined;
  const tried = Math.max(longestTried, own);
  const grid = gridOf({ period: probe.envelopePeriod, own, tried });
  // one that runs until its rail is up first: what is slower need not be followed to there
  const quickest = quickPeriods.at(-1)! * probe.envelopePeriod;
  if (quickest <= tried) probe.start({ riseTime: quickest, load: 0 });
  const mayGoOn = (): boolean => probe.steps() < mostSteps;
  let window = windowSearch({ isWell: isWell(0), grid, precision, mayGoOn });
  // the ends that one load gives hold for the others too, or move inwards
  for (let load = 1; load < probe.loads && window !== undefined; load++) {
    const { shortest, longest } = window;
    // how slow a rail may be hardly hangs on the corner: where a pair latches first it is the quick end that counts
    if (isWell(load)(shortest) && (load >= probe.peaking || isWell(load)(longest))) continue;
    const inside = [shortest, ...grid.filter((time) => time > shortest && time < longest), longest];
    const narrower = windowSearch({ isWell: isWell(load), grid: inside, precision, mayGoOn });
    window = narrower && { ...window, ...narrower };
  }
  if (window === undefined) return undefined;
  const why = (riseTime: Second | undefined): string | undefined => {
    if (riseTime === undefined) return undefined;
    const loads = Array.from({ length: probe.loads }, (_, load) => trouble({ probe, highest, load, riseTime }));
    return loads.find((words) => words !== undefined);
  };
  const [whyBelow, whyAbove] = [why(window.badBelow), why(window.badAbove)];
  return { ...window, tried, ...(whyBelow === undefined ? {} : { whyBelow }), ...(whyAbove === undefined ? {} : { whyAbove }) };
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
  return { latches: 'both switches latch', stalls: 'it does not start', undecided: 'its outcome is undecided', unknown: 'it is not known' }[
    outcome
  ];
}

/** Periods of the envelope in which a rail rises that rings. */
const quickPeriods = [0, 0.5, 1, 1.5, 2.5, 4.5, 8.5, 16.5];
/** Ratio of neighbours where a rail moves too slowly to ring. */
const longSteps = 6;

function gridOf({ period, own, tried }: { period: Second; own: Second; tried: Second }): readonly Second[] {
  const short = quickPeriods.map((periods) => periods * period);
  const long: Second[] = [];
  for (let time = longSteps * quickPeriods.at(-1)! * period; time < tried; time *= longSteps) long.push(time);
  return [...new Set([...short, ...long, own, tried])].filter((time) => time <= tried).toSorted((a, b) => a - b);
}
