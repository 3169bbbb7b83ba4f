import type { Policies } from '../checks/policy.ts';
import { addedResistance } from '../driver/operating-point.ts';
import type { Design } from '../project/design.ts';
import type { Ratio, Volt, Watt } from '../units/si.ts';
import { clearPlaces, ladder, wellRanges, type LadderInput } from './limit-ladder.ts';
import { atVoltage, failingIn, type Failing, type WindowDepth } from './window-designs.ts';

/** A stretch of values with no check that fails, and what fails right beside it. */
export interface ValueRange {
  readonly low: number;
  readonly high: number;
  readonly setsLow: readonly string[];
  readonly setsHigh: readonly string[];
}

/** A limit with those before it left out. */
export interface ValueRung {
  readonly value: number;
  /** What fails next; empty where nothing does up to the end of what was looked at. */
  readonly checks: readonly string[];
}

/** Where no check fails along one quantity. SI numbers. */
export interface AxisWindow {
  readonly present: number;
  /** What fails at the present value. */
  readonly failingNow: readonly string[];
  readonly from: number;
  readonly to: number;
  /** Distance of the values that were looked at first. */
  readonly coarse: readonly number[];
  readonly ranges: readonly ValueRange[];
  /** The range that the present value lies in, else the nearest. */
  readonly chosen?: ValueRange;
  /** Where it starts too: the summary of the start is assessed, not only without a fail. With the time domain, which alone assesses it. */
  readonly starting?: readonly ValueRange[];
  /** Of these the one that the present value lies in, else the nearest. */
  readonly surest?: ValueRange;
  /** What is not assessed at the ends of the range in which it starts, else of the chosen one. */
  readonly openAtEnds?: { readonly low: readonly string[]; readonly high: readonly string[] };
  readonly lower: readonly ValueRung[];
  readonly upper: readonly ValueRung[];
  /** Checks that fail at every value looked at; with no range at all, left out for what follows. */
  readonly always: readonly string[];
  /** Where no range is left: a check that fails up to a value, and one that fails from a lower one on. */
  readonly crossing?: { readonly below: string; readonly until: number; readonly above: string; readonly from: number };
  /** Where checks fail everywhere: the ranges without them. */
  readonly rest: readonly ValueRange[];
}

/** What `window` finds. */
export interface WindowStudy {
  readonly depth: WindowDepth;
  readonly supply: AxisWindow;
  /** Power of the heaviest load at the present voltage; undefined where no load takes any. */
  readonly load?: AxisWindow & { readonly name: string };
}

/** Rungs of a ladder. */
const rungs = 5;
/** Distance of the ends of the supply's window. */
export const finest: Volt = 0.1;
/** From one power to the next. */
const finestFactor: Ratio = 1.01;
const [lightest, heaviest]: readonly [Ratio, Ratio] = [0.1, 10];
const placesOf = { 'closed form': { supply: 48, load: 25 }, 'time domain': { supply: 24, load: 7 } } as const;

/** One quantity that is varied. */
interface Axis {
  readonly present: number;
  readonly valueAt: (index: number) => number;
  readonly designAt: (value: number) => Design;
  readonly places: readonly number[];
}

/** What both windows are searched with. */
interface WindowInput {
  readonly design: Design;
  readonly policies: Policies;
  readonly depth: WindowDepth;
  readonly progress: (share: Ratio) => void;
}

/**
 * The supply voltages and the powers of the heaviest load at which no check fails, with what sets each end and what comes next.
 *
 * @param design    the project
 * @param policies  levels by check id
 * @param depth     of switch-on and load removal
 * @param from      lowest voltage that is looked at
 * @param to        highest one
 * @param progress  called after each analysis with a guess at the share that is done
 */
export function windowStudy({ from, to, progress, ...rest }: WindowInput & { from: Volt; to: Volt }): WindowStudy {
  const input = { ...rest, progress: counted({ progress, expected: rest.depth === 'time domain' ? 60 : 250 }) };
  const failingNow = [...failingIn(rest).failing];
  const supply = supplyWindow({ ...input, failingNow, from, to });
  const load = loadWindow({ ...input, failingNow });
  progress(1);
  return { depth: rest.depth, supply, ...(load === undefined ? {} : { load }) };
}

function counted({ progress, expected }: { progress: (share: Ratio) => void; expected: number }): () => void {
  let done = 0;
  return () => {
    progress(Math.min(0.99, ++done / expected));
  };
}

/** Along the supply voltage, the loads held. */
export function supplyWindow({ from, to, ...input }: WindowInput & { from: Volt; to: Volt; failingNow: readonly string[] }): AxisWindow {
  const { design, depth } = input;
  const [least, most] = [Math.ceil(from / finest - 1e-6), Math.floor(to / finest + 1e-6)];
  const axis: Axis = {
    present: design.supply.voltage,
    valueAt: (index) => Number((index * finest).toFixed(1)),
    designAt: (voltage) => atVoltage({ design, voltage }),
    places: evenly({ from: least, to: most, count: placesOf[depth].supply, own: Math.round(design.supply.voltage / finest) }),
  };
  return axisWindow({ axis, ...input });
}

/** Along the power of the heaviest load; undefined where no load takes any. */
function loadWindow(input: WindowInput & { failingNow: readonly string[] }): WindowStudy['load'] {
  const { design, depth } = input;
  const added = design.loads.map((load) => addedResistance({ design, load }));
  const least = Math.min(...added);
  const heaviestAt = added.indexOf(least);
  const own = design.loads[heaviestAt];
  if (own === undefined || !Number.isFinite(least)) return undefined;
  const present: Watt = own.power ?? (Math.PI * design.supply.voltage) ** 2 / (2 * least);
  const { power: _power, loadedQ: _loadedQ, parallelResistance: _resistance, ...rest } = own;
  const steps = (scale: Ratio): number => Math.round(Math.log(scale) / Math.log(finestFactor));
  const axis: Axis = {
    present,
    valueAt: (step) => Number((present * finestFactor ** step).toPrecision(3)),
    designAt: (power) => ({ ...design, loads: design.loads.map((one, i) => (i === heaviestAt ? { ...rest, power } : one)) }),
    places: evenly({ from: steps(lightest), to: steps(heaviest), count: placesOf[depth].load, own: 0 }),
  };
  return { ...axisWindow({ axis, ...input }), name: own.name };
}

/** So many whole numbers between two, both among them, and one of its own that lies between them. */
function evenly({ from, to, count, own }: { from: number; to: number; count: number; own: number }): readonly number[] {
  const all = Array.from({ length: count }, (_, i) => Math.round(from + ((to - from) * i) / (count - 1)));
  return [...new Set([...all, ...(own > from && own < to ? [own] : [])])].toSorted((a, b) => a - b);
}

function axisWindow({
  axis: { present, valueAt, designAt, places },
  policies,
  depth,
  progress,
  failingNow,
}: WindowInput & { axis: Axis; failingNow: readonly string[] }): AxisWindow {
  const remembered = (of: (design: Design) => Failing): ((index: number) => Failing) => {
    const known = new Map<number, Failing>();
    return (index) => {
      const value = valueAt(index);
      const found = known.get(value) ?? of(designAt(value));
      known.set(value, found);
      return found;
    };
  };
  const whole = remembered((design) => {
    const found = failingIn({ design, policies, depth });
    progress(0);
    return found;
  });
  const running = remembered((design) => failingIn({ design, policies, depth: 'running' }));
  const input: LadderInput = {
    places,
    failing: (index) => whole(index).failing,
    ...(depth === 'closed form' ? {} : { surelyFailing: (index: number) => running(index).failing }),
  };
  const valued = (found: ReturnType<typeof wellRanges>): readonly ValueRange[] =>
    found.map((range) => ({ ...range, low: valueAt(range.low), high: valueAt(range.high) }));
  const distance = ({ low, high }: ValueRange): number => Math.max(0, low - present, present - high);
  const nearestOf = (ranges: readonly ValueRange[]): ValueRange | undefined => ranges.toSorted((a, b) => distance(a) - distance(b))[0];
  const found = wellRanges(input);
  const ranges = valued(found);
  const chosen = nearestOf(ranges);
  const common = { present, failingNow, from: valueAt(places[0]!), to: valueAt(places.at(-1)!), coarse: places.map(valueAt) };
  if (chosen !== undefined) {
    const nearest = found[ranges.indexOf(chosen)]!;
    const startingAt = depth === 'time domain' ? wellRanges({ ...input, failing: (index) => undecided(whole(index)) }) : undefined;
    const starting = startingAt && valued(startingAt);
    const surest = starting && nearestOf(starting);
    const ends = (surest && startingAt[starting.indexOf(surest)]) ?? nearest;
    const rungsTo = (from: number, direction: 1 | -1): readonly ValueRung[] =>
      ladder({ input, from, direction, rungs }).map(({ index, checks }) => ({ value: valueAt(index), checks }));
    return {
      ...common,
      ranges,
      chosen,
      ...(starting === undefined ? {} : { starting }),
      ...(surest === undefined ? {} : { surest }),
      lower: rungsTo(nearest.low, -1),
      upper: rungsTo(nearest.high, 1),
      openAtEnds: { low: whole(ends.low).open, high: whole(ends.high).open },
      always: [],
      rest: [],
    };
  }
  const all = [...new Set(places.flatMap((place) => [...input.failing(place)]))];
  const always = all.filter((id) => clearPlaces({ input, id }) === undefined);
  const rest = always.length === 0 ? [] : valued(wellRanges(input, new Set(always)));
  const crossing = rest.length > 0 ? undefined : crossingOf({ input, ids: all.filter((id) => !always.includes(id)), valueAt });
  return { ...common, ranges: [], lower: [], upper: [], always, rest, ...(crossing === undefined ? {} : { crossing }) };
}

/** What fails, and the start where it is not assessed. */
function undecided({ failing, open }: Failing): ReadonlySet<string> {
  return new Set([...failing, ...open.filter((id) => id === 'latch-up')]);
}

/** The check that ends last on the way up, and the one that begins first. */
function crossingOf({
  input,
  ids,
  valueAt,
}: {
  input: LadderInput;
  ids: readonly string[];
  valueAt: (index: number) => number;
}): AxisWindow['crossing'] {
  const clear = ids.flatMap((id) => {
    const places = clearPlaces({ input, id });
    return places === undefined ? [] : [{ id, ...places }];
  });
  const below = clear.toSorted((a, b) => b.first - a.first)[0];
  const above = clear.toSorted((a, b) => a.last - b.last)[0];
  if (below === undefined || above === undefined || below.id === above.id) return undefined;
  return { below: below.id, until: valueAt(below.first), above: above.id, from: valueAt(above.last) };
}
