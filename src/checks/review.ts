import type { Analysis } from '../driver/analysis.ts';
import { bankRemedy } from './bank-remedy.ts';
import { latchUp } from './latch-up.ts';
import type { Policies } from './policy.ts';
import { checks } from './registry.ts';
import type { Result } from './result.ts';
import { worstJudged, worstResult } from './worst-result.ts';

/**
 * Every check over every load and corner of an analysis, the worst of each, in the order of the registry; the summary last.
 *
 * @param policies  levels by check id, overrides of the project merged in
 * @param only      ids of the checks that are wanted; all of them where not given
 */
export function reviewOf({
  analysis,
  policies,
  only,
}: {
  analysis: Analysis;
  policies: Policies;
  only?: ReadonlySet<string> | undefined;
}): readonly Result[] {
  let bank: string | undefined;
  // a search over many banks: made where a check of the bank asks for it, and once for all of them
  const passingBank = (): string => (bank ??= bankRemedy({ analysis, policies }));
  const isWanted = (id: string): boolean => only === undefined || only.has(id);
  const wanted = checks.filter(({ id }) => isWanted(id) || (isWanted(latchUp.id) && latchUp.sums.includes(id)));
  const results = wanted.flatMap((check) => worstResult({ check, analysis, policies, passingBank }) ?? []);
  const summary = isWanted(latchUp.id) ? [latchUp.run({ analysis, results })] : [];
  return [...results.filter(({ id }) => isWanted(id)), ...summary];
}

/** How a check stands at its worst, without the words of a report. */
export type Standing = Pick<Result, 'id' | 'verdict' | 'value' | 'limit' | 'margin' | 'reason'>;

/**
 * How every check stands, as `reviewOf` has it: for many designs of which only the verdicts count.
 *
 * @param without  ids of checks that are left out
 */
export function standingsOf({
  analysis,
  policies,
  without,
}: {
  analysis: Analysis;
  policies: Policies;
  without?: string;
}): readonly Standing[] {
  const standings: (Standing & { readonly case: string })[] = [];
  for (const check of checks) {
    const worst = check.id === without ? undefined : worstJudged({ check, analysis, policies });
    if (worst === undefined) continue;
    const { verdict, value, limit, margin, reason } = worst.judgement;
    standings.push({ id: check.id, verdict, value, limit, margin, reason, case: '' });
  }
  return [...standings, latchUp.standing({ analysis, results: standings })];
}
