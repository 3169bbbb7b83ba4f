import { analysisOf, runningAnalysisOf, type Analysis } from '../driver/analysis.ts';
import { shareOf, standInFor, type MixedBank } from '../driver/mixed-bank.ts';
import { timedAnalysis } from '../driver/timed-analysis.ts';
import type { Design } from '../project/design.ts';
import { attempted, stateOf, withBank, worseState, type BankDepth, type BankState } from './bank-state.ts';
import type { Policies } from './policy.ts';

/** A mixed bank as its checks see it: the worst of its parts, and each part by itself. */
export interface MixedState {
  readonly whole: BankState;
  readonly members: readonly BankState[];
}

/**
 * What the checks of the bank say of strings of several parts in parallel, each part judged with its share of the current.
 *
 * @param design    the project, whose own bank is left out
 * @param mix       the bank in its place
 * @param policies  levels by check id
 * @param depth     of the transients; `running` for none
 */
export function mixedStateOf({
  design,
  mix,
  policies,
  depth,
}: {
  design: Design;
  mix: MixedBank;
  policies: Policies;
  depth: BankDepth | 'running';
}): MixedState {
  const changed = withBank({ design, bank: standInFor(mix) });
  const judged = (analysisFor: () => Analysis): MixedState => {
    let members: readonly BankState[] = [];
    const whole = attempted(() => {
      const analysis = analysisFor();
      members = mix.members.map((member) => stateOf({ analysis: shareOf({ analysis, mix, member }), policies }));
      return members.reduce(worseState);
    });
    return { whole, members };
  };
  const running = judged(() => runningAnalysisOf(changed));
  if (depth === 'running' || running.whole.verdict === 'fail' || running.whole.verdict === 'warn') return running;
  return judged(() => (depth === 'time domain' ? timedAnalysis(analysisOf(changed), 'peaks') : analysisOf(changed)));
}
