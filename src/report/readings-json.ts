import { readingKinds } from '../studies/readings/observed.ts';
import type { ReadingsStudy } from '../studies/readings/study.ts';
import { unitOf } from '../units/dimensions-table.ts';
import { jsonResult } from './json.ts';
import { gravestVerdict } from './review-report.ts';

/** Readings against predictions as JSON data; its schema is shared/readings.schema.json. SI units. */
export function readingsJson({
  file,
  title,
  study,
  version,
}: {
  file: string;
  title: string;
  study: ReadingsStudy;
  version: string;
}): object {
  const { comparisons, estimates, restsOn, causes, builds, asBuilt, load, voltage } = study;
  return {
    tankproof: { version, readingsVersion: 1 },
    file,
    title,
    agrees: comparisons.every(({ verdict }) => verdict !== 'disagrees'),
    load,
    voltage,
    readings: comparisons.map(({ key, value, uncertainty, stated, predicted, combined, verdict, note }) => ({
      key,
      value,
      uncertainty,
      stated,
      predicted,
      combined,
      unit: unitOf(readingKinds[key].dimension),
      verdict,
      note: note ?? null,
    })),
    restsOn,
    estimates: estimates.map(({ id, name, dimension, project, value, low, high, isTold, why }) => ({
      id,
      name,
      project,
      value,
      low,
      high,
      unit: dimension === 'product' ? 'H*F' : unitOf(dimension),
      told: isTold,
      why: why ?? null,
    })),
    causes: causes.map(({ id, words, explainsAll, gain, evidence }) => ({ id, words, explainsAll, gain, evidence })),
    asBuilt: { builds, verdict: gravestVerdict(asBuilt), results: asBuilt.map(jsonResult) },
  };
}
