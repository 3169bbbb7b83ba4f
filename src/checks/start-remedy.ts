import { cornersOf } from '../driver/corner.ts';
import type { Analysis } from '../driver/analysis.ts';
import { operatingPoint } from '../driver/operating-point.ts';
import { settledStart } from '../driver/settled-start.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Second, Volt } from '../units/si.ts';
import { gentleStart, gentleWords, withRise } from './gentle-start.ts';
import { longestTried, riseWindow, type RiseWindow } from './rise-window.ts';

/** Shares of the rated drain voltage that a remedy keeps to: the first lets every check of it pass. */
const shares = { passes: 0.8, fails: 1 } as const;

/** Over the shortest rise time of the window: well beyond it first, where the choke current peaks less. */
const beyondShortest = [3, 1.25] as const;
/** Below the longest one. */
const beforeLongest = 1.25;
/** From the rise time on by which the envelope keeps low. */
const beyondEnvelope = [1, 5] as const;

/**
 * A supply that rises otherwise, as words of a remedy, that runs with every load in every run of `settledStart`: within the window of the gates as
 * they are fed, else with the gates up before the supply; undefined where none of those tried does.
 */
export function startRemedy(analysis: Analysis): string | undefined {
  const known = found.get(analysis);
  if (known !== undefined) return known.remedy;
  const remedy = withinWindow(analysis) ?? gatesFirst(analysis);
  found.set(analysis, { remedy });
  return remedy;
}

/** Several checks ask for it, and it takes many runs. */
const found = new WeakMap<Analysis, { readonly remedy: string | undefined }>();

function withinWindow(analysis: Analysis): string | undefined {
  const { design } = analysis;
  const window = design.gates.pullUp.hold ? undefined : riseWindow(analysis);
  if (window === undefined) return undefined;
  const until = window.longest / beforeLongest;
  for (const factor of beyondShortest) {
    const riseTime = nicelyAbove(Math.max(factor * window.shortest, 1e-5));
    if (riseTime > until || riseTime === design.supply.riseTime) continue;
    if (runsWithEveryLoad({ ...design, supply: { ...design.supply, riseTime } })) return windowWords({ riseTime, window, until });
  }
  return undefined;
}

function windowWords({ riseTime, window, until }: { riseTime: Second; window: RiseWindow; until: Second }): string {
  const time = (seconds: Second): string => formatQuantity({ value: seconds, dimension: 'time' });
  const isOpen = window.longest >= longestTried;
  return `a supply that rises in ${time(riseTime)} ${isOpen ? 'or more' : `to ${time(until)}`} (supply.riseTime)`;
}

function gatesFirst(analysis: Analysis): string | undefined {
  const { design } = analysis;
  const rating = design.switches.mosfet.ratings.drainVoltage?.value;
  const byEnvelope = rating === undefined ? undefined : gentleStart({ design, highest: shares.passes * rating })?.riseTime;
  const first = Math.max(byEnvelope ?? 0, 1e-3);
  const { pullUp } = design.gates;
  const present = pullUp.from === 'supply' || pullUp.hold ? 0 : (design.supply.riseTime ?? 0);
  for (const factor of beyondEnvelope) {
    if (factor * first <= present) continue;
    if (runsWithEveryLoad(withRise({ design, riseTime: factor * first }))) return gentleWords({ analysis, riseTime: factor * first });
  }
  return undefined;
}

function runsWithEveryLoad(design: Design): boolean {
  const corners = cornersOf(design);
  const [high, low] = [corners.at(-1)!, corners[0]!];
  const rated: Volt = design.switches.mosfet.ratings.drainVoltage?.value ?? Infinity;
  return design.loads.every((load) => {
    const start = settledStart({
      design,
      point: operatingPoint({ design, load, corner: high }),
      weak: operatingPoint({ design, load, corner: low }),
    });
    return !('unknown' in start) && start.transient !== undefined && start.transient.drainPeak <= shares.fails * rated;
  });
}

/** The next of 1, 1.5, 2, 3, 5, 7 in its decade. */
function nicelyAbove(time: Second): Second {
  const decade = 10 ** Math.floor(Math.log10(time));
  const step = [1, 1.5, 2, 3, 5, 7, 10].find((value) => value * decade >= time * (1 - 1e-9)) ?? 10;
  return Number((step * decade).toPrecision(2));
}
