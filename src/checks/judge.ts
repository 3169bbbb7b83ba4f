import type { Finding } from './check.ts';
import { levelValue, type Policy } from './policy.ts';

export const verdicts = ['pass', 'warn', 'not assessed', 'fail'] as const;
/** Ascending in weight. */
export type Verdict = (typeof verdicts)[number];

/** What one finding comes to. */
export interface Judgement {
  readonly verdict: Verdict;
  readonly value: number | null;
  readonly limit: number | null;
  readonly warnAt: number | null;
  /** Where a remedy must bring the value for a pass. */
  readonly target?: number;
  /** (limit − value)/|limit| for at-most, (value − limit)/|limit| for at-least; null without a value or with a limit of zero. */
  readonly margin: number | null;
  /** Why there is no value, or why a value is no basis for a pass. */
  readonly reason?: string;
}

/**
 * The only place that decides.
 *
 * A value exactly at a level has not passed it: at the warn line it passes, at the limit it warns.
 *
 * @param finding  what a check states
 * @param policy   levels for that check
 * @param sense    at-most | at-least
 * Errors: RangeError where a value or a level is not finite; nothing can be judged against it.
 */
export function judge({ finding, policy, sense }: { finding: Finding; policy: Policy; sense: 'at-most' | 'at-least' }): Judgement {
  if (finding.kind === 'unassessed')
    return { verdict: 'not assessed', value: null, limit: null, warnAt: null, margin: null, reason: finding.reason };
  if (finding.kind === 'hopeless') return { verdict: 'fail', value: null, limit: null, warnAt: null, margin: null, reason: finding.reason };
  // a part's own strictness belongs to the default policy, not to levels that a project sets itself
  const { value, rating } = finding;
  const strictness = policy.overriddenAt === undefined ? (finding.strictness ?? 1) : 1;
  const levels = finding.other === true && policy.other !== undefined ? policy.other : policy;
  const limit = finding.levels?.limit ?? levelValue({ level: levels.fail, rating, strictness });
  const failAt = finding.levels?.failAt ?? limit;
  const warnAt = finding.levels?.warnAt ?? levelValue({ level: levels.warn, rating, strictness });
  if (!Number.isFinite(value) || !Number.isFinite(limit) || !Number.isFinite(warnAt))
    throw new RangeError(`cannot judge value ${value} against limit ${limit} with a warn line of ${warnAt}`);
  if (Number.isNaN(failAt)) throw new RangeError(`cannot judge value ${value}: it has no line to fail at`);
  const beyond = (line: number): boolean => (sense === 'at-most' ? value > line : value < line);
  // a project may accept more than a rating, but past the rating it does not pass
  const isPastRating = policy.overriddenAt !== undefined && rating !== undefined && beyond(rating);
  const isPastLine = beyond(warnAt) || (finding.levels !== undefined && beyond(limit)) || isPastRating;
  const verdict = beyond(failAt) ? 'fail' : isPastLine ? 'warn' : 'pass';
  const distance = sense === 'at-most' ? limit - value : value - limit;
  const lines = isPastRating ? rating : warnAt;
  const target = sense === 'at-most' ? Math.min(warnAt, limit, lines) : Math.max(warnAt, limit, lines);
  const margin = limit === 0 ? null : distance / Math.abs(limit);
  if (!isPastRating || verdict !== 'warn') return { verdict, value, limit, warnAt, target, margin };
  const reason = 'past what the default policy takes as the rating, within the limits that the project sets itself';
  return { verdict, value, limit, warnAt, target, margin, reason };
}
