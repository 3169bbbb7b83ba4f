import type { Analysis } from '../driver/analysis.ts';
import { bankRemedy } from './bank-remedy.ts';
import type { Verdict } from './judge.ts';
import { latchUp } from './latch-up.ts';
import type { Policies } from './policy.ts';
import { checks } from './registry.ts';
import type { Result } from './result.ts';
import { worstResult } from './worst-result.ts';

/**
 * Every check over every load and corner of an analysis, the worst of each, in the order of the registry; the summary last.
 *
 * @param policies  levels by check id, overrides of the project merged in
 */
export function reviewOf({ analysis, policies }: { analysis: Analysis; policies: Policies }): readonly Result[] {
  let bank: string | undefined;
  // a search over many banks: made where a check of the bank asks for it, and once for all of them
  const passingBank = (): string => (bank ??= bankRemedy({ analysis, policies }));
  const results = checks.flatMap((check) => worstResult({ check, analysis, policies, passingBank }) ?? []);
  return [...results, latchUp.run({ analysis, results })];
}

/** The verdict of every check, the summary included, without remedies. */
export function verdictsOf({ analysis, policies }: { analysis: Analysis; policies: Policies }): ReadonlyMap<string, Verdict> {
  const results = checks.flatMap((check) => worstResult({ check, analysis, policies, passingBank: undefined }) ?? []);
  const all = results.map(({ id, verdict }) => [id, verdict] as const);
  return new Map([...all, [latchUp.id, latchUp.verdict({ analysis, results })]]);
}
