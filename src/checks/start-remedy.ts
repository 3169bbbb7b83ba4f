import { cornersOf } from '../driver/corner.ts';
import type { Analysis } from '../driver/analysis.ts';
import { operatingPoint } from '../driver/operating-point.ts';
import { settledStart } from '../driver/settled-start.ts';
import type { Design } from '../project/design.ts';
import { gentleStart, gentleWords, withRise } from './gentle-start.ts';

/** Rise times that are tried after the one by which the envelope keeps low. */
const longer = [1, 5] as const;

/**
 * A slower supply with the gates up before it, as words of a remedy, that runs in the time domain with every load; undefined where
 * none of those tried does.
 */
export function startRemedy(analysis: Analysis): string | undefined {
  const { design } = analysis;
  const rating = design.switches.mosfet.ratings.drainVoltage?.value;
  const byEnvelope = rating === undefined ? undefined : gentleStart({ design, highest: 0.8 * rating })?.riseTime;
  const first = Math.max(byEnvelope ?? 0, 1e-3);
  const { pullUp } = design.gates;
  const present = pullUp.from === 'supply' || pullUp.hold ? 0 : (design.supply.riseTime ?? 0);
  for (const factor of longer) {
    if (factor * first <= present) continue;
    const slower = withRise({ design, riseTime: factor * first });
    if (runsWithEveryLoad(slower)) return gentleWords({ analysis, riseTime: factor * first });
  }
  return undefined;
}

function runsWithEveryLoad(design: Design): boolean {
  const corners = cornersOf(design);
  const [high, low] = [corners.at(-1)!, corners[0]!];
  return design.loads.every((load) => {
    const start = settledStart({
      design,
      point: operatingPoint({ design, load, corner: high }),
      weak: operatingPoint({ design, load, corner: low }),
    });
    return !('unknown' in start) && start.outcome === 'runs';
  });
}
