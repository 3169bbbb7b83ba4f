import type { Result } from '../checks/result.ts';
import type { CheckChange } from '../studies/compare/checks.ts';
import type { Comparison } from '../studies/compare/comparison.ts';
import type { InputChange } from '../studies/compare/inputs.ts';
import type { QuantityChange } from '../studies/compare/quantities.ts';
import type { RatingChange } from '../studies/compare/ratings.ts';
import { unitOf } from '../units/dimensions-table.ts';
import type { CompareFailure } from './compare-failures.ts';
import { overallChange, type ComparedFile, type ComparedFiles, type ComparedVersion } from './compared-files.ts';
import { gravestVerdict, verdictCounts } from './review-report.ts';

/** A comparison as a JSON document; its schema is shared/compare.schema.json. SI units, numbers not strings. */
export function compareJson({
  files,
  failed,
  version,
}: {
  files: ComparedFiles;
  failed: readonly CompareFailure[];
  version: string;
}): object {
  return {
    tankproof: { version, compareVersion: 1 },
    before: files.before,
    after: files.after,
    method: files.timed ? 'time domain' : 'closed form',
    change: overallChange(files),
    failed,
    files: files.files.map(fileJson),
    partsOfToday: files.foreign,
  };
}

function fileJson(file: ComparedFile): object {
  if (file.kind === 'removed') return { name: file.name, kind: file.kind };
  if (file.kind === 'added') return { name: file.name, kind: file.kind, after: versionJson(file.after) };
  const { comparison } = file;
  return {
    name: file.name,
    kind: file.kind,
    before: versionJson(file.before),
    after: versionJson(file.after),
    ...comparisonJson(comparison),
  };
}

function versionJson({ path, title, results }: ComparedVersion): object {
  const counts = verdictCounts(results);
  return {
    file: path,
    title,
    verdict: gravestVerdict(results),
    counts: { pass: counts.pass, warn: counts.warn, fail: counts.fail, notAssessed: counts['not assessed'] },
  };
}

function comparisonJson({ change, inputs, ratings, checks, quantities, assumptions }: Comparison): object {
  return {
    change,
    inputs: inputs.changes.map(inputJson),
    rewritten: inputs.rewritten,
    ratings: ratings.map(ratingJson),
    results: checks.map(checkJson),
    quantities: quantities.map(quantityJson),
    assumptions,
  };
}

function inputJson({ name, before, after }: InputChange): object {
  const side = (value: InputChange['before']): object | null =>
    value === undefined ? null : { text: value.text, value: value.number ?? null, line: value.at.line, column: value.at.column };
  return { key: name, before: side(before), after: side(after) };
}

function ratingJson({ place, part, key, of, dimension, before, after }: RatingChange): object {
  const side = (rating: RatingChange['before']): object | null =>
    rating === undefined ? null : { value: rating.value, source: rating.source };
  return {
    key: place,
    part: { before: part.before ?? null, after: part.after ?? null },
    rating: key,
    ...(of ?? {}),
    unit: unitOf(dimension),
    before: side(before),
    after: side(after),
  };
}

function checkJson({ id, before, after, fate, isGraver, lost }: CheckChange): object {
  const { dimension, sense } = (after ?? before)!;
  return {
    id,
    fate,
    graver: isGraver,
    lost,
    unit: unitOf(dimension),
    sense,
    before: before === undefined ? null : resultJson(before),
    after: after === undefined ? null : resultJson(after),
  };
}

function resultJson({ subject, case: where, verdict, value, limit, margin, reason }: Result): object {
  return { subject, case: where, verdict, value, limit, margin, ...(reason === undefined ? {} : { reason }) };
}

function quantityJson({ id, case: load, dimension, before, after, by }: QuantityChange): object {
  return { id, case: load, unit: unitOf(dimension), before: before?.value ?? null, after: after?.value ?? null, by };
}
