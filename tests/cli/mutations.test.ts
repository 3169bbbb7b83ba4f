import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cautionsOf } from '../../src/checks/cautions.ts';
import { limitProblems, projectPolicies } from '../../src/checks/read-policies.ts';
import { checkIds } from '../../src/checks/registry.ts';
import { reviewOf } from '../../src/checks/review.ts';
import { partsInFolders } from '../../src/cli/parts-folders.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { assumptionsOf, ratingsUsed } from '../../src/driver/assumptions.ts';
import { DesignError } from '../../src/driver/design-error.ts';
import { quantitiesOf } from '../../src/driver/quantities.ts';
import type { PartsLibrary } from '../../src/parts/library.ts';
import { readProject, type CheckLimits } from '../../src/project/read-project.ts';
import { diagnosticsText } from '../../src/report/diagnostics.ts';
import { jsonReport } from '../../src/report/json.ts';
import { terminalReport } from '../../src/report/terminal.ts';
import { defaults, root } from '../checks/reviewed.ts';
import { pageOf, reviewedAt } from '../report/review-pages.ts';
import { fileWith, ran } from './ran.ts';

const examples = readdirSync(join(root, 'examples'))
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => readFileSync(join(root, 'examples', name), 'utf8'));

/** One way to spoil a text. */
const mutation: fc.Arbitrary<(text: string) => string> = fc.oneof(
  fc.tuple(fc.nat(), fc.integer({ min: -9, max: 9 })).map(([n, power]) => onNumber(n, (number) => `${number}e${power}`)),
  fc.nat().map((n) => onNumber(n, (number) => `-${number}`)),
  fc.nat().map((n) => onNumber(n, () => '0')),
  fc.tuple(fc.nat(), fc.double()).map(([n, value]) => onNumber(n, () => String(value))),
  fc
    .tuple(fc.nat(), fc.constantFrom('V', 'A', 'ohm', 'uH', 'nF', '%', 'K/W', 'degC', 'W', '', 'Hz'))
    .map(([n, unit]) => onMatch(n, /(?<=\d )(V|A|mohm|ohm|uH|%|ms|s|W|K\/W|degC)/g, () => unit)),
  fc.nat().map((n) => (text: string) => dropLine(text, n)),
  fc.nat().map((n) => (text: string) => repeatLine(text, n)),
  fc.tuple(fc.nat(), fc.nat()).map(
    ([a, b]) =>
      (text: string) =>
        swapLines(text, a, b),
  ),
  fc.tuple(fc.nat(), fc.string({ maxLength: 4, unit: 'binary' })).map(
    ([n, piece]) =>
      (text: string) =>
        insert(text, n, piece),
  ),
  fc.nat().map((n) => (text: string) => text.slice(0, n % text.length)),
  fc
    .tuple(
      fc.nat(),
      fc.constantFrom(
        'IRF740',
        'IRLZ44N',
        '1N4148',
        '1N5822',
        'mica-10n-500v',
        'tank-block-660n-500vac',
        'choke-100u-3a-drum',
        'BUZ11',
        '47N60C3',
      ),
    )
    .map(([n, name]) => onMatch(n, /(?<=(part|clamp|crossDiode): )\S+/g, () => name)),
  fc
    .tuple(fc.nat(), fc.constantFrom('two', 'centre-tap', 'supply', '12 V', 'fan', 'still air', 'true'))
    .map(([n, word]) => onMatch(n, /(?<=(arrangement|from|cooling|hold): ).+/g, () => word)),
);

function onMatch(n: number, pattern: RegExp, replace: (found: string) => string): (text: string) => string {
  return (text) => {
    const all = [...text.matchAll(pattern)];
    const found = all[n % Math.max(1, all.length)];
    return found === undefined ? text : text.slice(0, found.index) + replace(found[0]) + text.slice(found.index + found[0].length);
  };
}
function onNumber(n: number, replace: (found: string) => string): (text: string) => string {
  return onMatch(n, /(?<=[:,[] ?)\d+(\.\d+)?(?= )/g, replace);
}
function dropLine(text: string, n: number): string {
  return text
    .split('\n')
    .filter((_, i, lines) => i !== n % lines.length)
    .join('\n');
}
function repeatLine(text: string, n: number): string {
  return text
    .split('\n')
    .flatMap((line, i, lines) => (i === n % lines.length ? [line, line] : [line]))
    .join('\n');
}
function swapLines(text: string, a: number, b: number): string {
  const lines = text.split('\n');
  const [i, j] = [a % lines.length, b % lines.length];
  [lines[i], lines[j]] = [lines[j]!, lines[i]!];
  return lines.join('\n');
}
function insert(text: string, n: number, piece: string): string {
  const at = n % text.length;
  return text.slice(0, at) + piece + text.slice(at);
}

const mutant = fc
  .tuple(fc.constantFrom(...examples), fc.array(mutation, { minLength: 1, maxLength: 3 }))
  .map(([text, mutations]) => mutations.reduce((current, mutate) => mutate(current), text));

/** All that `check` prints for a text, both ways, without a process. */
function printed(text: string): string {
  const path = join(root, 'examples', 'mutant.yaml');
  const openLibrary = (folders: readonly string[]): PartsLibrary => partsInFolders({ root, projectPath: path, folders });
  const problemsOf: CheckLimits['problemsOf'] = (project) => limitProblems({ policies: defaults, ...project });
  const outcome = readProject({ text, path, openLibrary, checks: { ids: checkIds, problemsOf } });
  if (!outcome.ok) return diagnosticsText({ problems: outcome.problems, textOf: () => text, width: 80 });
  const policies = projectPolicies({ policies: defaults, design: outcome.value });
  if (!policies.ok) return diagnosticsText({ problems: policies.problems, textOf: () => text, width: 80 });
  try {
    const analysis = analysisOf(outcome.value);
    const report = {
      file: 'mutant.yaml',
      title: 'mutant',
      quantities: quantitiesOf(analysis),
      results: reviewOf({ analysis, policies: policies.value }),
      cautions: cautionsOf(analysis),
      assumptions: assumptionsOf(analysis),
      ratings: ratingsUsed(outcome.value),
    };
    return (
      terminalReport({ report, style: { width: 80, colourLevel: 0, all: true } }) +
      JSON.stringify(jsonReport({ report, version: 'test' }), finiteOnly)
    );
  } catch (error) {
    if (error instanceof DesignError) return error.message;
    throw error;
  }
}

function finiteOnly(_key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${_key} is ${value}`);
  return value;
}

describe('spoilt examples', () => {
  test('2,000 of them are reported or refused, without NaN, undefined or an exception', () => {
    fc.assert(
      fc.property(mutant, (text) => {
        const start = performance.now();
        const output = printed(text);
        expect(performance.now() - start).toBeLessThan(5000);
        expect(output.replaceAll(/ \| .*/g, '').replaceAll(/"[^"]*" is not/g, '')).not.toMatch(
          /\bNaN\b|\bInfinity\b|\bundefined\b|\[object/,
        );
      }),
      { seed: 20, numRuns: 2000 },
    );
  }, 180_000);

  test('60 of them make a page, or say in it why not', () => {
    fc.assert(
      fc.property(mutant, (text) => {
        const page = pageOf([reviewedAt(fileWith(text))]);
        expect(page.endsWith('</html>\n')).toBe(true);
        // what a file says of itself is its own affair
        if (!/NaN|Infinity/.test(text)) expect(page).not.toMatch(/\bNaN\b|\bInfinity\b|\bundefined\b|\[object/);
        expect(page).not.toMatch(/="-?Infinity|,null,null,null/);
      }),
      { seed: 22, numRuns: 60 },
    );
  }, 120_000);

  test('through the tool itself they end with 0, 1 or 2', async () => {
    const texts = fc.sample(mutant, { seed: 21, numRuns: 40 });
    const statuses: (number | null)[] = [];
    for (const text of texts) statuses.push((await ran(['check', fileWith(text), '--json'])).status);
    expect(statuses.filter((status) => status !== 0 && status !== 1 && status !== 2)).toEqual([]);
  }, 120_000);
});
