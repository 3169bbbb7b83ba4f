import type { Waiver } from '../checks/waiver.ts';
import { isReviewed, type Reviewed } from '../report/reviewed.ts';
import { waiverMatches } from './review-settings.ts';

/** Names that are told; further ones are counted. */
const mostNamed = 5;

/** That not all checks were made: their passes are not those of a review. */
export function onlyNotes(only: readonly string[] | undefined): readonly string[] {
  return only === undefined ? [] : [`checked nothing but ${only.join(', ')}`];
}

/** Files of folders and patterns that were left out, in one statement. */
export function skippedNotes(skipped: readonly string[]): readonly string[] {
  if (skipped.length === 0) return [];
  const named = skipped.slice(0, mostNamed).join(', ');
  const more = skipped.length > mostNamed ? ` and ${skipped.length - mostNamed} more` : '';
  return [`skipped ${skipped.length === 1 ? 'a file' : `${skipped.length} files`} without a key tankproof: ${named}${more}`];
}

/** Waivers that waived nothing, and why: nobody reads a list of them again otherwise. */
export function waiverNotes({
  waivers,
  limitsPath,
  reviewed,
}: {
  waivers: readonly Waiver[];
  limitsPath: string | undefined;
  reviewed: readonly Reviewed[];
}): readonly string[] {
  return waivers.flatMap((waiver) => {
    const { id, file, at } = waiver;
    const place = `${at.path}:${at.line}:${at.column}`;
    const matched = reviewed.filter((one) => waiverMatches({ waiver, file: one.file, limitsPath }));
    if (matched.length === 0) return [`the waiver of ${id} at ${place} matches none of these files: ${file}`];
    const results = matched.flatMap((one) => (isReviewed(one) ? one.report.results : []));
    const isNeeded = results.some((result) => result.id === id && result.verdict !== 'pass');
    return isNeeded || !matched.some(isReviewed) ? [] : [`the waiver of ${id} at ${place} is not needed: nothing of it fails or warns`];
  });
}
