import type { Location } from '../source/location.ts';
import type { Verdict } from './judge.ts';
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
  readonly at: Location;
}

/** A waiver of a result, and whether its last day has passed. */
export interface AppliedWaiver extends Waiver {
  readonly expired: boolean;
}

/**
 * Whether a result makes a run fail. One that is waived does not; one whose waiver has expired does, whatever its verdict short of a
 * pass, so that somebody looks at it again.
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
  return waiver.expired;
}

/**
 * Results with the waivers that hold for their file: of several for one result, the one that expires last.
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
    const [waiver] = waivers.filter(({ id }) => id === result.id).toSorted((a, b) => (a.expires < b.expires ? 1 : -1));
    if (waiver === undefined || result.verdict === 'pass') return result;
    // what is made when it is asked for is asked for here: a copy would make it anyway
    const { basis, remedy, ...rest } = result;
    return { ...rest, basis, remedy, waiver: { ...waiver, expired: waiver.expires < today } };
  });
}
