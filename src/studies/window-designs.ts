import type { Policies } from '../checks/policy.ts';
import { standingsOf } from '../checks/review.ts';
import { analysisOf, runningAnalysisOf } from '../driver/analysis.ts';
import { timedAnalysis } from '../driver/timed-analysis.ts';
import type { Design, Load } from '../project/design.ts';
import type { Volt } from '../units/si.ts';
import { heldLoad } from './held-load.ts';

/** How switch-on and load removal are found. */
export type WindowDepth = 'closed form' | 'time domain';

/** The loads as resistances, which they keep when the voltage changes: their power is at the voltage of the project. */
function heldLoads(design: Design): readonly Load[] {
  return design.loads.map((load) => (load.power === undefined ? load : heldLoad({ design, load })));
}

/** A design at another supply voltage, its loads held. */
export function atVoltage({ design, voltage }: { design: Design; voltage: Volt }): Design {
  return { ...design, loads: heldLoads(design), supply: { ...design.supply, voltage } };
}

/** Check ids by what they came to. */
export interface Failing {
  readonly failing: ReadonlySet<string>;
  readonly open: readonly string[];
}

/** The checks that fail, and those that are not assessed. */
export function failingIn({ design, policies, depth }: { design: Design; policies: Policies; depth: WindowDepth | 'running' }): Failing {
  const analysis =
    depth === 'running'
      ? runningAnalysisOf(design)
      : depth === 'closed form'
        ? analysisOf(design)
        : timedAnalysis(analysisOf(design), 'fails');
  const standings = standingsOf({ analysis, policies });
  const failing = standings.flatMap(({ id, verdict }) => (verdict === 'fail' ? [id] : []));
  return {
    // without the transients the summary says nothing that is sure
    failing: new Set(depth === 'running' ? failing.filter((id) => id !== 'latch-up') : failing),
    open: standings.flatMap(({ id, verdict }) => (verdict === 'not assessed' ? [id] : [])),
  };
}
