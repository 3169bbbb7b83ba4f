import { jsonReport } from './json.ts';
import { refusalJson } from './refusal-json.ts';
import { isReviewed, type FormatOptions, type Reviewed } from './reviewed.ts';

type JsonOptions = Pick<FormatOptions, 'version' | 'several' | 'notes'>;

/** One file as its report or its refusal, several as `{reports: [..]}`; the schema is shared/report.schema.json. */
export function reviewJson(reviewed: readonly Reviewed[], { version, several, notes }: JsonOptions): object {
  const [first] = reviewed;
  const noted = notes.length === 0 ? {} : { notes };
  if (!several && first !== undefined)
    return isReviewed(first) ? { ...jsonReport({ report: first.report, version }), ...noted } : refusalJson(first.problems);
  return {
    reports: reviewed.map((one) =>
      isReviewed(one) ? jsonReport({ report: one.report, version }) : { file: one.file, ...refusalJson(one.problems) },
    ),
    ...noted,
  };
}

/** The same as the text of a file, which says first who wrote it. */
export function reviewJsonText(reviewed: readonly Reviewed[], options: JsonOptions): string {
  return `${JSON.stringify({ tankproof: { version: options.version, reportVersion: 1 }, ...reviewJson(reviewed, options) }, undefined, 2)}\n`;
}
