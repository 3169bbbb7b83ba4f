import type { Finding } from './check.ts';
import type { Ratio } from '../units/si.ts';
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
  readonly target: number | null;
  /** (limit − value)/|limit| for at-most, (value − limit)/|limit| for at-least; null without a value or with a limit of zero. */
  readonly margin: number | null;
  /** Why there is no value, or why a value is no basis for a pass. */
  readonly reason: string | undefined;
}

/**
 * The only place that decides.
 *
 * A value exactly at a level has not passed it: at the warn line it passes, at the limit it warns.
 *
 * @param finding    what a check states
 * @param policy     levels for that check
 * @param sense      at-most | at-least
 * @param allowance  share that is added to the value
 * Errors: RangeError where a value or a level is not finite; nothing can be judged against it.
 */
export function judge({
  finding,
  policy,
  sense,
  allowance = 0,
}: {
  finding: Finding;
  policy: Policy;
  sense: 'at-most' | 'at-least';
  allowance?: Ratio;
}): Judgement {
  if (finding.kind !== 'measured') {
    const verdict = finding.kind === 'hopeless' ? 'fail' : 'not assessed';
    return { verdict, value: null, limit: null, warnAt: null, target: null, margin: null, reason: finding.reason };
  }
  // a part's own strictness belongs to the default policy, not to levels that a project sets itself
  const { rating, levels: own } = finding;
  const value = finding.value * (1 + allowance);
  const strictness = policy.overriddenAt === undefined ? (finding.strictness ?? 1) : 1;
  const levels = finding.other === true && policy.other !== undefined ? policy.other : policy;
  const limit = own?.limit ?? levelValue({ level: levels.fail, rating, strictness });
  const failAt = own?.failAt ?? limit;
  const warnAt = own?.warnAt ?? levelValue({ level: levels.warn, rating, strictness });
  if (!Number.isFinite(value) || !Number.isFinite(limit) || !Number.isFinite(warnAt))
    throw unjudgeable({ value, because: { limit, warnAt } });
  if (Number.isNaN(failAt)) throw unjudgeable({ value, because: { failAt } });
  // a project may accept more than a rating, but past the rating it does not pass
  const isPastRating = policy.overriddenAt !== undefined && rating !== undefined && isBeyond(sense, value, rating);
  const isPastLine = isBeyond(sense, value, warnAt) || (own !== undefined && isBeyond(sense, value, limit)) || isPastRating;
  const verdict = isBeyond(sense, value, failAt) ? 'fail' : isPastLine ? 'warn' : 'pass';
  const distance = sense === 'at-most' ? limit - value : value - limit;
  const lines = isPastRating ? rating : warnAt;
  const target = sense === 'at-most' ? Math.min(warnAt, limit, lines) : Math.max(warnAt, limit, lines);
  const margin = limit === 0 ? null : distance / Math.abs(limit);
  const reason =
    isPastRating && verdict === 'warn'
      ? 'past what the default policy takes as the rating, within the limits that the project sets itself'
      : undefined;
  return { verdict, value, limit, warnAt, target, margin, reason };
}

function isBeyond(sense: 'at-most' | 'at-least', value: number, line: number): boolean {
  return sense === 'at-most' ? value > line : value < line;
}

/** On its own, since judge would make all of its numbers ready for a text at every call. */
function unjudgeable({ value, because }: { value: number; because: Readonly<Record<string, number>> }): RangeError {
  const against = Object.entries(because).map(([name, line]) => `${name} ${line}`);
  return new RangeError(`cannot judge value ${value} against ${against.join(', ')}`);
}
