import type { Result } from '../../checks/result.ts';
import type { Quantity } from '../../driver/quantities.ts';
import type { Design } from '../../project/design.ts';
import type { StatedValue } from '../../project/stated-values.ts';
import { checkChanges, type CheckChange } from './checks.ts';
import { inputChanges, type InputChanges } from './inputs.ts';
import { loadPairs } from './load-pairs.ts';
import { quantityChanges, type QuantityChange } from './quantities.ts';
import { ratingChanges, type RatingChange } from './ratings.ts';

/** A project that was read and reviewed. */
export interface ReviewedProject {
  /** Path of the project file, as positions have it. */
  readonly path: string;
  readonly design: Design;
  readonly stated: readonly StatedValue[];
  readonly quantities: readonly Quantity[];
  readonly results: readonly Result[];
  readonly assumptions: readonly string[];
}

/** What a change came to. `mixed`: no verdict changed, some margins are worse and others better. */
export const changeWords = ['worse', 'mixed', 'better', 'none'] as const;
/** Gravest first. */
export type ChangeWord = (typeof changeWords)[number];

/** What a change of a project did. */
export interface Comparison {
  readonly change: ChangeWord;
  readonly inputs: InputChanges;
  readonly ratings: readonly RatingChange[];
  /** Every check of either design, also those that stand as they did. */
  readonly checks: readonly CheckChange[];
  /** Those that moved. */
  readonly quantities: readonly QuantityChange[];
  /** Assumptions that are made only before and only after. */
  readonly assumptions: { readonly before: readonly string[]; readonly after: readonly string[] };
}

/**
 * What a change did to every input, margin and quantity.
 *
 * @param before  the project as it was
 * @param after   the project as it is
 */
export function comparison({ before, after }: { before: ReviewedProject; after: ReviewedProject }): Comparison {
  const names = (project: ReviewedProject): readonly string[] => project.design.loads.map(({ name }) => name);
  const [was, is] = [names(before), names(after)];
  const loads = loadPairs({ before: was, after: is });
  const checks = checkChanges({ before: before.results, after: after.results });
  const only = (own: readonly string[], other: readonly string[]): readonly string[] => own.filter((text) => !other.includes(text));
  return {
    change: changeOf(checks),
    inputs: inputChanges({ before: before.stated, after: after.stated, loads }),
    ratings: ratingChanges({ before: before.design, after: after.design, projects: [before.path, after.path] }),
    checks,
    quantities: quantityChanges({
      before: before.quantities,
      after: after.quantities,
      loads: new Map([...loads].map(([now, old]) => [is[now]!, was[old]!])),
    }),
    assumptions: { before: only(before.assumptions, after.assumptions), after: only(after.assumptions, before.assumptions) },
  };
}

/** A changed verdict decides; where there is none, the margins do. */
function changeOf(checks: readonly CheckChange[]): ChangeWord {
  if (checks.some(({ isGraver }) => isGraver)) return 'worse';
  if (checks.some(({ isLighter }) => isLighter)) return 'better';
  const [worse, better] = [checks.some(({ fate }) => fate === 'worse'), checks.some(({ fate }) => fate === 'better')];
  if (worse) return better ? 'mixed' : 'worse';
  return better ? 'better' : 'none';
}

/** Whether nothing at all differs: no value, rating, check or quantity. */
export function isSame({ inputs, ratings, checks, quantities, assumptions }: Comparison): boolean {
  const lists = [inputs.changes, ratings, checks.filter(({ fate }) => fate !== 'same'), quantities, assumptions.before, assumptions.after];
  return lists.every(({ length }) => length === 0);
}
