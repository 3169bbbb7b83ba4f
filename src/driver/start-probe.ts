import { envelopeMode } from '../physics/envelope.ts';
import { seenChokeInductance } from '../physics/push-pull.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Second, Volt } from '../units/si.ts';
import type { Unknown } from './known.ts';
import type { OperatingPoint } from './operating-point.ts';
import { usualEffort } from './time-domain/effort.ts';
import type { Outcome, TimedEvent } from './time-domain/outcome.ts';
import { holdsBack } from './time-domain/measures.ts';
import { isGivingWay, starvedBy } from './time-domain/supply-limit.ts';
import { timedStart } from './time-domain/switch-on.ts';
import { usualPair } from './usual-pair.ts';

/** A start with another rise time. */
export interface ProbedStart {
  /** `unfinished` where it takes more steps than a start is followed for. */
  readonly outcome: Outcome | 'unknown' | 'unfinished';
  readonly drainPeak: Volt;
  /** What the supply must give, where its limit is why the outcome is undecided. */
  readonly needs?: Ampere;
}

/** Runs the start of a design with any rise time, each only once. */
export interface StartProbe {
  /** Loads in the order in which they are worth asking: the one with the highest peaks first; behind them those at which a pair latches first. */
  readonly loads: number;
  /** How many of them are loads at the corner with the highest peaks. */
  readonly peaking: number;
  readonly start: (asked: { readonly riseTime: Second; readonly load: number }) => ProbedStart;
  /** Of the envelope of tank and chokes without damping, the longest of the loads. */
  readonly envelopePeriod: Second;
  /** Steps that all its starts took. */
  readonly steps: () => number;
}

/** Envelope periods from which a rail is slow: its limit acts all the time, and its drains end as they do while running. */
const slow = 20;

/**
 * A probe of a design.
 *
 * Output capacitors feed a quick start before any limit acts, so a rail that comes up within some envelope periods is run without one;
 * a slow one has the limit against it all the time, and is run with it too. Once a start of a load has been followed until the rail was up, and ran, a slower one
 * with it has started where it swings: its drains come to what they have while running. Before, none has: of 200 random designs 34 swing
 * on a rail that creeps up and latch where it is up, with none of those that ran on a quicker one among them.
 * A supply that folds back or switches off at its limit is held against what it gives with any rise time.
 *
 * @param design  the project
 * @param points  each load at the corner with its highest peaks
 * @param strongPoints  and at the one with the highest choke current, where that is another
 */
export function startProbe({
  design,
  points,
  strongPoints,
}: {
  design: Design;
  points: readonly OperatingPoint[];
  strongPoints: readonly OperatingPoint[];
}): StartProbe {
  const { currentLimit: _limit, ...supply } = design.supply;
  const seen = new Map<string, ProbedStart>();
  const hasRun = new Set<number>();
  let steps = 0;
  const byQuality = (some: readonly OperatingPoint[]): readonly OperatingPoint[] =>
    some.toSorted((a, b) => b.tank.quality - a.tank.quality);
  const ordered = [...byQuality(points), ...byQuality(strongPoints)];
  const periods = points.map(({ tank: { chokeInductance, capacitance } }) => {
    const seenInductance = seenChokeInductance({ arrangement: design.chokes.arrangement, chokeInductance });
    const circuit = { chokeInductance: seenInductance, capacitance, parallelResistance: Infinity, dropResistance: 0 };
    return (2 * Math.PI) / envelopeMode(circuit).angularFrequency;
  });
  const envelopePeriod = Math.max(...periods);
  return {
    loads: ordered.length,
    peaking: points.length,
    envelopePeriod,
    steps: () => steps,
    start: ({ riseTime, load }) => {
      const key = `${load} ${riseTime}`;
      const known = seen.get(key);
      if (known !== undefined) return known;
      const point = ordered[load]!;
      if (starvedBy({ design, point }) !== undefined) return { outcome: 'unknown', drainPeak: Infinity };
      const isQuick = riseTime <= slow * envelopePeriod;
      const whole = isQuick || !hasRun.has(load);
      const run = (fed: Design['supply']): TimedEvent | Unknown => {
        const event = timedStart({ design: { ...design, supply: { ...fed, riseTime } }, point, pair: usualPair(point), whole });
        if ('unknown' in event) return event;
        steps += event.steps;
        if (whole && event.outcome === 'runs') hasRun.add(load);
        return event;
      };
      const unlimited = run(isGivingWay(design) ? design.supply : supply);
      const limit = design.supply.currentLimit?.kind === 'constant' && !isQuick ? design.supply.currentLimit.current : Infinity;
      // one that acts all the time, where it is come to: of a start that is not followed to its end, only the running current tells
      const { running } = point;
      const isReached = (event: TimedEvent): boolean =>
        event.peaks.source > limit || (running !== undefined && holdsBack({ limit, running }));
      const isLimited = 'outcome' in unlimited && unlimited.outcome === 'runs' && isReached(unlimited);
      const found = probed({ events: [unlimited, ...(isLimited ? [run(design.supply)] : [])], settledPeak: running?.drainPeak ?? 0 });
      seen.set(key, found);
      return found;
    },
  };
}

/**
 * @param events       without a limit, and with it where it acts: each must run
 * @param settledPeak  of the drains while it runs, to which a start that is not followed to its end comes
 */
function probed({ events, settledPeak }: { events: readonly (TimedEvent | Unknown)[]; settledPeak: Volt }): ProbedStart {
  const last = events.at(-1)!;
  if ('unknown' in last) return { outcome: 'unknown', drainPeak: Infinity };
  const { outcome, steps, needs } = last;
  const isCut = outcome === 'undecided' && needs === undefined && steps >= usualEffort.mostSteps;
  return {
    outcome: isCut ? 'unfinished' : outcome,
    drainPeak: Math.max(settledPeak, ...events.map((event) => ('peaks' in event ? event.peaks.drain : 0))),
    ...(needs === undefined ? {} : { needs }),
  };
}
