import type { Location } from '../source/location.ts';
import type { Dimension } from '../units/dimension.ts';
import type { SubjectPart } from './check.ts';
import type { Verdict } from './judge.ts';
import type { AppliedWaiver } from './waiver.ts';

/** The worst of one check over all loads and corners. SI numbers; null where there is nothing to compare. */
export interface Result {
  readonly id: string;
  readonly part: SubjectPart;
  readonly title: string;
  /** The part in words. */
  readonly subject: string;
  /** Load, moment and corner in words. */
  readonly case: string;
  readonly verdict: Verdict;
  readonly value: number | null;
  readonly limit: number | null;
  /** Where the warning begins, on the scale of the value. */
  readonly warnAt: number | null;
  readonly dimension: Dimension;
  readonly sense: 'at-most' | 'at-least';
  readonly margin: number | null;
  /** Why nothing was assessed, or why it fails without a number. */
  readonly reason?: string | undefined;
  readonly at: Location;
  readonly basis: readonly string[];
  readonly remedy?: string | undefined;
  /** Whose levels it was judged by where not those of the default policy: `team.yaml:4`. */
  readonly levelsFrom?: string | undefined;
  /** Where the limits of the team waive it, or did until the waiver expired. */
  readonly waiver?: AppliedWaiver | undefined;
}
