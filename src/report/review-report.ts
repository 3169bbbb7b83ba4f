import type { FaultResult } from '../checks/faults.ts';
import type { Result } from '../checks/result.ts';
import { verdicts, type Verdict } from '../checks/judge.ts';
import type { UsedRating } from '../driver/assumptions.ts';
import type { Quantity } from '../driver/quantities.ts';
import type { ReviewSheet } from '../studies/review-sheet.ts';

/** Everything that a report of one project says; every format is made from it. */
export interface ReviewReport {
  readonly file: string;
  readonly title: string;
  readonly quantities: readonly Quantity[];
  readonly results: readonly Result[];
  readonly cautions: readonly string[];
  readonly assumptions: readonly string[];
  readonly ratings: readonly UsedRating[];
  /** Ids of the checks that were asked for; all where it is not given. */
  readonly only?: readonly string[];
  /** Where single faults were asked for. */
  readonly faults?: readonly FaultResult[];
  /** What a page draws, where that was asked for: it takes as long as a few reviews. */
  readonly sheet?: ReviewSheet;
}

/** How many results came to each verdict. */
export type VerdictCounts = Readonly<Record<Verdict, number>>;

/** Counts of the verdicts of one report or several. */
export function verdictCounts(results: readonly Result[]): VerdictCounts {
  const counts: Record<Verdict, number> = { pass: 0, warn: 0, 'not assessed': 0, fail: 0 };
  for (const { verdict } of results) counts[verdict] += 1;
  return counts;
}

/** `2 failed, 4 not assessed, 5 warned, 25 passed`. */
export function countWords(results: readonly Result[]): string {
  const counts = verdictCounts(results);
  return `${counts.fail} failed, ${counts['not assessed']} not assessed, ${counts.warn} warned, ${counts.pass} passed`;
}

/** The gravest verdict: fail, then not assessed, then warn, then pass; where there is no result, nothing was assessed. */
export function gravestVerdict(results: readonly Result[]): Verdict {
  if (results.length === 0) return 'not assessed';
  return verdicts[Math.max(0, ...results.map(({ verdict }) => verdicts.indexOf(verdict)))]!;
}

/** Ratings that a report must name: all that were not read in a data sheet. */
export function unverifiedRatings(ratings: readonly UsedRating[]): readonly UsedRating[] {
  return ratings.filter(({ rating }) => rating.source !== 'data sheet');
}
