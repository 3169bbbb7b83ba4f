import { jsonReport } from './json.ts';
import { refusalJson } from './refusal-json.ts';
import { isReviewed, type Reviewed } from './reviewed.ts';

/** One file as its report or its refusal, several as `{reports: [..]}`; the schema is shared/report.schema.json. */
export function reviewJson(reviewed: readonly Reviewed[], { version }: { version: string }): object {
  const [first] = reviewed;
  if (reviewed.length === 1 && first !== undefined)
    return isReviewed(first) ? jsonReport({ report: first.report, version }) : refusalJson(first.problems);
  return {
    reports: reviewed.map((one) =>
      isReviewed(one) ? jsonReport({ report: one.report, version }) : { file: one.file, ...refusalJson(one.problems) },
    ),
  };
}

/** The same as the text of a file, which says first who wrote it. */
export function reviewJsonText(reviewed: readonly Reviewed[], { version }: { version: string }): string {
  return `${JSON.stringify({ tankproof: { version, reportVersion: 1 }, ...reviewJson(reviewed, { version }) }, undefined, 2)}\n`;
}
