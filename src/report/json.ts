import type { Result } from '../checks/result.ts';
import type { Verdict } from '../checks/judge.ts';
import { unitOf } from '../units/dimensions-table.ts';
import { gravestVerdict, unverifiedRatings, verdictCounts, type ReviewReport } from './review-report.ts';

/** The JSON report of one project; its schema is shared/report.schema.json. SI units, numbers not strings. */
export interface JsonReport {
  readonly tankproof: { readonly version: string; readonly reportVersion: 1 };
  readonly file: string;
  readonly title: string;
  readonly verdict: Verdict;
  readonly counts: { readonly pass: number; readonly warn: number; readonly fail: number; readonly notAssessed: number };
  readonly quantities: readonly object[];
  readonly results: readonly object[];
  readonly cautions: readonly string[];
  readonly assumptions: readonly string[];
  readonly ratings: readonly object[];
  readonly faults?: readonly object[];
  readonly only?: readonly string[];
}

/** A report as JSON data. */
export function jsonReport({ report, version }: { report: ReviewReport; version: string }): JsonReport {
  const counts = verdictCounts(report.results);
  return {
    tankproof: { version, reportVersion: 1 },
    file: report.file,
    title: report.title,
    verdict: gravestVerdict(report.results),
    counts: { pass: counts.pass, warn: counts.warn, fail: counts.fail, notAssessed: counts['not assessed'] },
    quantities: report.quantities.map(({ id, value, dimension, case: load, reason }) => ({
      id,
      value,
      unit: unitOf(dimension),
      case: load,
      ...(reason === undefined ? {} : { reason }),
    })),
    results: report.results.map(jsonResult),
    cautions: report.cautions,
    assumptions: report.assumptions,
    ratings: unverifiedRatings(report.ratings).map(({ part, key, rating }) => ({
      part,
      key,
      source: rating.source,
      ...(rating.note === undefined ? {} : { note: rating.note }),
    })),
    ...(report.faults === undefined
      ? {}
      : {
          faults: report.faults.map(({ fault, survives, effects, note }) => ({
            fault,
            survives: survives ?? null,
            effects,
            note: note ?? null,
          })),
        }),
    ...(report.only === undefined ? {} : { only: report.only }),
  };
}

/** `use` is 1 − margin; both are null where nothing was assessed or the limit is 0. */
export function jsonResult(result: Result): object {
  const {
    id,
    subject,
    case: where,
    verdict,
    value,
    limit,
    dimension,
    sense,
    margin,
    reason,
    at,
    basis,
    remedy,
    levelsFrom,
    waiver,
  } = result;
  return {
    id,
    subject,
    case: where,
    verdict,
    value,
    limit,
    unit: unitOf(dimension),
    sense,
    use: margin === null ? null : 1 - margin,
    margin,
    ...(reason === undefined ? {} : { reason }),
    at: { path: at.path, line: at.line, column: at.column },
    basis,
    remedy: remedy ?? null,
    ...(levelsFrom === undefined ? {} : { levelsFrom }),
    ...(waiver === undefined
      ? {}
      : {
          waiver: {
            expires: waiver.expires,
            expired: waiver.expired,
            covers: waiver.beyond === undefined,
            ...(waiver.verdict === undefined ? {} : { verdict: waiver.verdict }),
            ...(waiver.upTo === undefined ? {} : { upTo: waiver.upTo }),
            reason: waiver.reason,
            at: { path: waiver.at.path, line: waiver.at.line, column: waiver.at.column },
          },
        }),
  };
}
