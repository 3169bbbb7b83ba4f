import { cornersOf } from '../driver/corner.ts';
import { drainBoundAtSwitchOn, isSureAtSwitchOn, switchOn } from '../driver/events.ts';
import { isKnown } from '../driver/known.ts';
import { operatingPoint, type OperatingPoint } from '../driver/operating-point.ts';
import type { Analysis } from '../driver/analysis.ts';
import { preferredValue } from '../physics/preferred-values.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Second, Volt } from '../units/si.ts';

/** Gate rail that a remedy proposes where the gates hang on the supply. */
const proposedRail: Volt = 12;

/** Rise times that are tried: a live rail, and from 20 µs to 1 s. */
export const riseTimes: readonly Second[] = [
  0,
  ...[1e-5, 1e-4, 1e-3, 1e-2, 1e-1].flatMap((decade) => [2, 3, 5, 7, 10].map((step) => step * decade)),
];

/** A load at a corner. */
export type StartCase = Pick<OperatingPoint, 'load' | 'corner'>;

function allCases(design: Design): readonly StartCase[] {
  const corners = cornersOf(design).filter(({ supply }) => supply >= 1);
  return design.loads.flatMap((load) => corners.map((corner) => ({ load, corner })));
}

/** A start that keeps the drains low: gates up first, then a supply that rises in this time or more. */
export interface GentleStart {
  readonly riseTime: Second;
  readonly design: Design;
}

/**
 * The shortest rise time from which on every longer one keeps the drains at or below a voltage, the gates on their own rail.
 *
 * @param scan     of the project
 * @param highest  drain voltage, in V
 * @returns the rise time, in s; undefined where none up to a second does
 */
export function shortestRise({ scan, highest }: { scan: RiseScan; highest: Volt }): Second | undefined {
  let found: Second | undefined;
  for (const riseTime of [...riseTimes].reverse()) {
    if (!scan({ riseTime, highest })) break;
    found = riseTime;
  }
  return found;
}

/** Whether a start with this rise time keeps the drains at or below a voltage, every load and corner without a doubt. */
export type RiseScan = (of: { riseTime: Second; highest: Volt }) => boolean;

/**
 * Looks at a design's start with any rise time, each only once.
 *
 * @param design  the project
 * @param cases   loads and corners to look at; all of them if left out
 */
export function riseScan({ design, cases = allCases(design) }: { design: Design; cases?: readonly StartCase[] }): RiseScan {
  const seen = new Map<Second, Volt>();
  // the running state does not know how long the supply has risen
  const gentle = withRise({ design, riseTime: 0 });
  const points = cases.map((one) => operatingPoint({ ...one, design: gentle }));
  const bound = Math.max(...points.map((point) => drainBoundAtSwitchOn({ design: gentle, point })));
  return ({ riseTime, highest }) => {
    const slower = withRise({ design, riseTime });
    if (bound <= highest) return points.every((point) => isSureAtSwitchOn({ design: slower, point }));
    const drain = seen.get(riseTime) ?? highestDrain({ design: slower, points });
    seen.set(riseTime, drain);
    return drain <= highest;
  };
}

/**
 * A gentle start with every load at every corner.
 *
 * @param design   the project
 * @param highest  drain voltage, in V
 * @returns the start, as a design that has it; undefined where no rise time up to a second does
 */
export function gentleStart({ design, highest }: { design: Design; highest: Volt }): GentleStart | undefined {
  const riseTime = shortestRise({ scan: riseScan({ design }), highest });
  return riseTime === undefined ? undefined : { riseTime, design: withRise({ design, riseTime }) };
}

/** A design with its gates on a rail of their own, up before the supply, which rises in this time. */
export function withRise({ design, riseTime }: { design: Design; riseTime: Second }): Design {
  const { pullUp } = design.gates;
  const from = pullUp.from === 'supply' ? proposedRail : pullUp.from;
  return {
    ...design,
    supply: { ...design.supply, riseTime },
    gates: { ...design.gates, pullUp: { ...pullUp, from, hold: false } },
  };
}

function highestDrain({ design, points }: { design: Design; points: readonly OperatingPoint[] }): Volt {
  let highest = 0;
  for (const point of points) {
    const peaks = switchOn({ design, point, damping: 'least' });
    if (!('drainPeak' in peaks) || peaks.doubt !== undefined) return Infinity;
    highest = Math.max(highest, peaks.drainPeak);
  }
  return highest;
}

/** The changes that a gentle start takes, as words of a remedy. */
export function gentleWords({ analysis, riseTime }: { analysis: Analysis; riseTime: Second }): string {
  const { pullUp } = analysis.design.gates;
  const rise = formatQuantity({ value: riseTime, dimension: 'time' });
  const rail = pullUp.from === 'supply' ? `gates on their own rail (${ownRailWords(analysis)}) and ` : '';
  return `${rail}a supply that rises in ${rise} or more (supply.riseTime)${pullUp.hold ? ' with the gates live before it (no gates.pullUp.hold)' : ''}`;
}

/** A gate rail of its own, with the pull-up that reaches the plateau in the same time from it. */
export function ownRailWords({ design, corners }: Analysis): string {
  const { resistance } = design.gates.pullUp;
  const gates = { ...design.gates, pullUp: { ...design.gates.pullUp, from: proposedRail } };
  const slower = corners.map(({ point }) => {
    const now = point.running?.gateRise;
    const then = operatingPoint({ design: { ...design, gates }, load: point.load, corner: point.corner }).running?.gateRise;
    return typeof now === 'number' && typeof then === 'number' && isKnown(now) && isKnown(then) ? then / now : 1;
  });
  const smaller = resistance / Math.max(1, ...slower);
  const pullUp = smaller < resistance ? preferredValue({ value: smaller, side: 'below' }) : resistance;
  return `gates.pullUp.from: ${proposedRail} V, with a pull-up of ${formatQuantity({ value: pullUp, dimension: 'resistance' })} or less`;
}
