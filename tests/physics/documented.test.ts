import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

/** Layers whose exported functions are formulas or pure functions: each is documented, each example runs. */
const folders = ['physics', 'units', 'source', 'driver', 'checks', 'report', 'parts', 'project', 'studies/compare'];
const root = join(import.meta.dirname, '..', '..', 'src');

interface Documented {
  readonly file: string;
  readonly name: string;
  readonly comment: string;
  readonly physics: boolean;
}

function exportedFunctions(file: string): readonly Documented[] {
  const source = ts.createSourceFile(file, readFileSync(join(root, file), 'utf8'), ts.ScriptTarget.ES2022, true);
  return source.statements.flatMap((statement) => {
    if (!ts.isFunctionDeclaration(statement) || statement.name === undefined) return [];
    if (!statement.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)) return [];
    const ranges = ts.getLeadingCommentRanges(source.text, statement.pos) ?? [];
    const last = ranges.at(-1);
    const comment = last === undefined ? '' : source.text.slice(last.pos, last.end);
    return [{ file, name: statement.name.text, comment, physics: file.startsWith('physics/') }];
  });
}

const functions = folders.flatMap((folder) =>
  readdirSync(join(root, folder))
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))
    .flatMap((name) => exportedFunctions(`${folder}/${name}`)),
);

/** `call // expected` of every example line. */
function examplesOf(comment: string): readonly { call: string; expected: string }[] {
  return [...comment.matchAll(/@example\s+(.+)$/gm)].map(([, line = '']) => {
    const at = line.lastIndexOf(' // ');
    return { call: line.slice(0, at), expected: line.slice(at + 4) };
  });
}

function close(actual: unknown, expected: unknown): void {
  if (typeof actual === 'number' && typeof expected === 'number') {
    expect(Math.abs(actual - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1e-30, Math.abs(expected)) + 0);
  } else if (typeof actual === 'object' && actual !== null && typeof expected === 'object' && expected !== null) {
    expect(Object.keys(actual).toSorted()).toEqual(Object.keys(expected).toSorted());
    for (const [key, value] of Object.entries(expected)) close((actual as Record<string, unknown>)[key], value);
  } else expect(actual).toEqual(expected);
}

test('there are formulas to look at', () => {
  expect(functions.filter(({ physics }) => physics).length).toBeGreaterThan(30);
});

describe.each(functions)('$file $name', ({ file, name, comment, physics }) => {
  test('has a docstring', () => {
    expect(comment.startsWith('/**')).toBe(true);
  });

  test('names range, source and unit, and shows an example, if it is a formula', () => {
    if (!physics) return;
    for (const needed of ['@param', '@returns', 'Valid for:', 'Source:', '@example'])
      expect(comment, `${name} lacks ${needed}`).toContain(needed);
  });

  test('its examples are true', async () => {
    const examples = examplesOf(comment);
    if (examples.length === 0) return;
    const scope = (await import(join(root, file))) as Record<string, unknown>;
    for (const { call, expected } of examples) {
      const evaluate = (code: string): unknown => runInNewContext(`(${code})`, { ...scope });
      close(evaluate(call), evaluate(expected));
    }
  });
});
