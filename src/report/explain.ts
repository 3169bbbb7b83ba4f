import type { Check } from '../checks/check.ts';
import { symbolWords } from './symbols.ts';
import { hanging } from './wrap.ts';

type Explained = Pick<Check, 'id' | 'part' | 'title' | 'since' | 'docs'>;

/** What `explain ID` prints: what, why, formula, source, remedy, and the levels of the policy. */
export function explanationText({ check, levels, width }: { check: Explained; levels: string | undefined; width: number }): string {
  const { docs } = check;
  const rows: readonly (readonly [string, string])[] = [
    ['what', docs.what],
    ['why', docs.why],
    ['formula', docs.formula],
    ['symbols', symbolWords({ id: check.id, formula: docs.formula })],
    ['source', docs.source],
    ['levels', levels ?? 'set by the circuit itself, as the formula says'],
    ['remedy', docs.remedy],
  ];
  const rowsFile = 'check-values: rows of shared/references/check-values.yaml, which the tests compute';
  return [
    `${check.id}  (${check.part}, since ${check.since})`,
    ...hanging({ text: check.title, first: '  ', width }),
    '',
    ...rows.filter(([, text]) => text !== '').flatMap(([name, text]) => hanging({ text, first: `  ${name.padEnd(9)}`, width })),
    ...(docs.source.includes('check-values') ? ['', ...hanging({ text: rowsFile, first: '  ', width })] : []),
  ].join('\n');
}

/** What `explain` alone prints: every id by part. */
export function explanationList({ checks, width }: { checks: readonly Explained[]; width: number }): string {
  const longest = Math.max(...checks.map(({ id }) => id.length));
  const parts = [...new Set(checks.map(({ part }) => part))];
  return parts
    .flatMap((part) => [
      part,
      ...checks
        .filter((check) => check.part === part)
        .flatMap(({ id, title }) => hanging({ text: title, first: `  ${id.padEnd(longest)}  `, width })),
    ])
    .join('\n');
}
