import type { Result } from '../checks/result.ts';
import type { Verdict } from '../checks/judge.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { gravestVerdict, type ReviewReport } from './review-report.ts';

/** A file that was reviewed; `file` is its path as it was named. */
export interface ReviewedFile {
  readonly file: string;
  readonly report: ReviewReport;
}

/** A file that could not be. */
export interface RefusedFile {
  readonly file: string;
  readonly problems: readonly Diagnostic[];
}

/** What became of one file of a run. Every format is made from a list of these, in the order in which the files were named. */
export type Reviewed = ReviewedFile | RefusedFile;

/** What a format is told beside the files. */
export interface FormatOptions {
  /** Of the tool. */
  readonly version: string;
  /** Passes as fully as all else. */
  readonly all: boolean;
  /** Of a text: a page names its own script and the data of the parts by it. */
  readonly sha256: (text: string, encoding: 'hex' | 'base64') => string;
  /** Verdicts that fail the run. */
  readonly failing: readonly Verdict[];
  /** What is to be said of the run as a whole: files that were skipped, waivers that match nothing. */
  readonly notes: readonly string[];
  /** Whether a set of files was asked for, though it may hold one. */
  readonly several: boolean;
  /** When it ran, `2027-03-31T12:00:00`, in UTC. */
  readonly time: string;
}

/** A format of a review: the whole text of a file, the same for the same arguments. */
export type ReviewFormat = (reviewed: readonly Reviewed[], options: FormatOptions) => string;

/** Whether a file could be reviewed. */
export function isReviewed(one: Reviewed): one is ReviewedFile {
  return 'report' in one;
}

/** The results of all files together. */
export function resultsOf(reviewed: readonly Reviewed[]): readonly Result[] {
  return reviewed.flatMap((one) => (isReviewed(one) ? one.report.results : []));
}

/** What a run came to: the gravest verdict, and the files that could not be reviewed, which are graver than any. */
export function outcomeWords(reviewed: readonly Reviewed[]): string {
  const refused = reviewed.filter((one) => !isReviewed(one)).length;
  const verdict: readonly Verdict[] = refused === reviewed.length ? [] : [gravestVerdict(resultsOf(reviewed))];
  return [...verdict, ...(refused === 0 ? [] : [`${refused} could not run`])].join(', ');
}
