import type { Location } from '../source/location.ts';
import { verdicts, type Verdict } from './judge.ts';
import type { Result } from './result.ts';

/** A result that a team has decided to live with for a while: a line of `waivers` in a file of limits. */
export interface Waiver {
  /** Id of the check. */
  readonly id: string;
  /** Path or pattern of the project files, relative to the file of limits. */
  readonly file: string;
  readonly reason: string;
  /** Last day on which it holds, `2027-03-31`. */
  readonly expires: string;
  /** The gravest verdict that is waived; any where it is not given. */
  readonly verdict?: Exclude<Verdict, 'pass'>;
  /** The worst value that is waived, in SI: the largest of a check with an upper limit, the smallest of one with a lower. */
  readonly upTo?: number;
  readonly at: Location;
}

/** A waiver of a result, whether its last day has passed, and what of the result lies beyond it. */
export interface AppliedWaiver extends Waiver {
  readonly expired: boolean;
  /** Undefined where the waiver covers the result. */
  readonly beyond?: 'verdict' | 'value' | undefined;
}

/** What a waiver is held against. */
type Waivable = Pick<Result, 'verdict' | 'value' | 'sense'>;

/**
 * What of a result a waiver does not cover: a graver verdict than the one that it was written for, or a value past the worst that it
 * names. A result without a value is not known to be within that.
 *
 * @param result  verdict, value in SI or null, and sense of the check
 * @param waiver  its `verdict` and `upTo`, both optional
 * @returns verdict | value; undefined where it is covered
 *
 * @example beyondWaiver({ result: { verdict: 'fail', value: 9, sense: 'at-most' }, waiver: { verdict: 'warn' } }) // 'verdict'
 * @example beyondWaiver({ result: { verdict: 'fail', value: 4, sense: 'at-least' }, waiver: { upTo: 4 } }) // undefined
 */
export function beyondWaiver({
  result: { verdict, value, sense },
  waiver,
}: {
  result: Waivable;
  waiver: Pick<Waiver, 'verdict' | 'upTo'>;
}): AppliedWaiver['beyond'] {
  const { verdict: gravest = 'fail', upTo } = waiver;
  if (verdicts.indexOf(verdict) > verdicts.indexOf(gravest)) return 'verdict';
  if (upTo === undefined) return undefined;
  const isWithin = value !== null && (sense === 'at-most' ? value <= upTo : value >= upTo);
  return isWithin ? undefined : 'value';
}

/**
 * Whether a waiver keeps a result from failing a run: it covers the result and has not expired.
 *
 * @example isWaived({}) // false
 */
export function isWaived({ waiver }: Pick<Result, 'waiver'>): boolean {
  return waiver !== undefined && !waiver.expired && waiver.beyond === undefined;
}

/**
 * Whether a result makes a run fail. One that is waived does not; one whose waiver has expired does, whatever its verdict short of a
 * pass, so that somebody looks at it again. One that its waiver does not cover is taken as if there were none.
 *
 * @param result   verdict and waiver
 * @param failing  verdicts that fail a run
 *
 * @example isFailing({ result: { verdict: 'warn' }, failing: ['fail'] }) // false
 */
export function isFailing({
  result: { verdict, waiver },
  failing,
}: {
  result: { readonly verdict: Verdict; readonly waiver?: AppliedWaiver | undefined };
  failing: readonly Verdict[];
}): boolean {
  if (waiver === undefined || verdict === 'pass') return failing.includes(verdict);
  return waiver.expired || (waiver.beyond !== undefined && failing.includes(verdict));
}

/**
 * Results with the waivers that hold for their file: of several for one result one that covers it, and of those the one that expires last.
 *
 * @param results  of one project file
 * @param waivers  whose files match it
 * @param today    as `2027-03-31`
 */
export function waivedResults({
  results,
  waivers,
  today,
}: {
  results: readonly Result[];
  waivers: readonly Waiver[];
  today: string;
}): readonly Result[] {
  if (waivers.length === 0) return results;
  return results.map((result) => {
    if (result.verdict === 'pass') return result;
    const own = waivers
      .filter(({ id }) => id === result.id)
      .map((waiver): AppliedWaiver => ({ ...waiver, expired: waiver.expires < today, beyond: beyondWaiver({ result, waiver }) }))
      .toSorted((a, b) => (a.expires < b.expires ? 1 : -1));
    const waiver = own.find(({ beyond }) => beyond === undefined) ?? own[0];
    if (waiver === undefined) return result;
    // what is made when it is asked for is asked for here: a copy would make it anyway
    const { basis, remedy, ...rest } = result;
    return { ...rest, basis, remedy, waiver };
  });
}
