import { verdicts } from '../checks/judge.ts';
import type { Spread } from '../studies/spread.ts';
import { unitOf } from '../units/dimensions-table.ts';
import { csvField, csvNumber } from './csv.ts';

/** Every build as comma-separated values: its variables, then verdict and margin of every check. */
export function spreadCsv({ variables, checks, builds }: Spread): string {
  const header = [
    'build',
    ...variables.map(({ id, dimension }) => (dimension === 'ratio' ? `${id} factor` : `${id} [${unitOf(dimension)}]`)),
    ...checks.flatMap(({ worst: { id } }) => [`${id} verdict`, `${id} margin`]),
  ];
  const rows = Array.from({ length: builds }, (_, i) => [
    String(i + 1),
    ...variables.map(({ values }) => csvNumber(values[i])),
    ...checks.flatMap((check) => [verdicts[check.verdicts[i]!] ?? '', csvNumber(check.margins[i])]),
  ]);
  return [header, ...rows].map((row) => `${row.map(csvField).join(',')}\n`).join('');
}

/** A spread as a JSON document; its schema is shared/spread.schema.json. SI units, numbers not strings. */
export function spreadJson({ file, title, spread, version }: { file: string; title: string; spread: Spread; version: string }): object {
  const { variables, checks, builds, seed, timed } = spread;
  return {
    tankproof: { version, spreadVersion: 1 },
    file,
    title,
    builds,
    seed,
    methods: { worst: timed ? 'time domain' : 'closed form', builds: 'closed form' },
    variables: variables.map(({ id, low, high, dimension, as, from }) => ({ id, low, high, unit: unitOf(dimension), as, from })),
    checks: checks.map(({ worst, counts, interval, drivers, reason }) => ({
      id: worst.id,
      worst: {
        verdict: worst.verdict,
        value: worst.value,
        limit: worst.limit,
        unit: unitOf(worst.dimension),
        margin: worst.margin,
        case: worst.case,
        ...(worst.reason === undefined ? {} : { reason: worst.reason }),
      },
      builds: { pass: counts.pass, warn: counts.warn, fail: counts.fail, notAssessed: counts['not assessed'] },
      failing: { share: counts.fail / builds, lower: interval.lower, upper: interval.upper },
      drivers,
      ...(reason === undefined ? {} : { reason }),
    })),
  };
}
