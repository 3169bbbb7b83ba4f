import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plainValue } from '../../src/source/source-tree.ts';
import { parseYaml } from '../../src/source/yaml-source.ts';
import type { YamlSource } from '../../src/source/yaml-source.ts';

function parsed(text: string): YamlSource {
  const outcome = parseYaml({ text, path: 'a.yaml' });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

function refusals(text: string): readonly string[] {
  const outcome = parseYaml({ text, path: 'a.yaml' });
  return outcome.ok ? [] : outcome.problems.map(({ id, at }) => `${id} ${at?.line}:${at?.column}`);
}

describe('the plain subset', () => {
  test('maps, lists and scalars of both styles', () => {
    const { root } = parsed('a: 1\nb: {c: 1.8 uH, d: true}\ne:\n  - x\n  - "y: z"\nf: "1"\n');
    expect(JSON.parse(JSON.stringify(plainValue(root)))).toEqual({ a: 1, b: { c: '1.8 uH', d: true }, e: ['x', 'y: z'], f: '1' });
  });

  test('a number keeps the text it was written as', () => {
    expect(parsed('a: 1.50').nodeAt('a')).toMatchObject({ kind: 'scalar', value: 1.5, text: '1.50' });
  });

  test('a missing value is seen as missing, at its key', () => {
    expect(parsed('b: 1\na:\n').nodeAt('a')).toMatchObject({ kind: 'nothing', at: { line: 2, column: 1, length: 1 } });
  });

  test('a key that every object has is only a key', () => {
    expect(Object.keys(plainValue(parsed('__proto__: {polluted: true}').root) as object)).toEqual(['__proto__']);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });

  test('one document may be marked as such', () => expect(refusals('---\na: 1\n...\n')).toEqual([]));
  test('a byte order mark does not move the first key', () =>
    expect(parsed('\uFEFFa: 1').locate('a')).toMatchObject({ line: 1, column: 4 }));
  test('windows line ends do not move positions', () =>
    expect(parsed('a: 1\r\nb: 2\r\n').locate('b')).toMatchObject({ line: 2, column: 4, length: 1 }));
});

describe('positions', () => {
  const source = parsed('supply:\n  voltage: 18 V\nloads:\n  - name: a\n  - {name: b, power: 25 W}\nloss: {1.5 kHz: 0.1}\n');
  test.each([
    ['supply.voltage', 2, 12, 4],
    ['supply.tolerance', 1, 1, 6],
    ['supply', 2, 3, 13],
    ['loads.1.power', 5, 22, 4],
    ['loads.0.power', 4, 5, 7],
    ['loads.7.power', 3, 1, 5],
    ['loss.1.5 kHz', 6, 17, 3],
    ['gates.pullUp', 1, 1, 7],
    ['', 1, 1, 7],
  ])('of %s', (path, line, column, length) => expect(source.locate(path)).toMatchObject({ path: 'a.yaml', line, column, length }));
});

describe('what reads differently to different people is refused', () => {
  test.each([
    ['anchor', 'a: &5 V', ['anchor 1:4']],
    ['anchor on a key', '&a k: 1', ['anchor 1:1']],
    ['anchor without a value', 'a: &5', ['anchor 1:4']],
    ['alias', 'a: *x', ['alias 1:4']],
    ['alias and its anchor', 'a: &x 1\nb: *x', ['anchor 1:4', 'alias 2:4']],
    ['tag', 'a: !!str 5', ['tag 1:4']],
    ['tag of ones own', 'b: 1\na: !foo 5', ['tag 2:4']],
    ['merge key', '<<: {a: 1}', ['merge-key 1:1']],
    ['version directive', '%YAML 1.1\n---\na: yes', ['directive 1:1']],
    ['tag directive', '%TAG ! x\n---\na: 1', ['directive 1:1']],
    ['second document', 'a: 1\n---\nb: 2', ['several-documents 2:1']],
    ['repeated key', 'a: 1\nb: 2\na: 3', ['duplicate-key 3:1']],
    ['repeated key in braces', 'a: {x: 1, x: 2}', ['duplicate-key 1:11']],
    ['decimal comma in braces', '{b: 1,5}', ['decimal-comma 1:6']],
    ['decimal comma before a unit', 'a: {b: 1,5 V, c: 2}', ['decimal-comma 1:9']],
    ['leading zero', 'a: 010', ['odd-number 1:4']],
    ['hexadecimal', 'a: 0x10', ['odd-number 1:4']],
    ['octal', 'a: 0o7', ['odd-number 1:4']],
    ['infinity', 'a: .inf', ['odd-number 1:4']],
    ['not a number', 'a: .nan', ['odd-number 1:4']],
    ['beyond double precision', 'a: 1e999', ['odd-number 1:4']],
    ['escaped control character', 'a: "\\e[31m"', ['not-text 1:4']],
    ['escaped control character in a key', '"\\0": 1', ['not-text 1:1']],
    ['tab as indentation', 'a:\n\tb: 1', ['tab-indent 2:1']],
    ['tab after a space', 'a:\n  b: 1\n \tc: 2', ['tab-indent 3:2']],
    ['empty key', ': 5', ['yaml-syntax 1:1']],
    ['mapping as key', '? [a]\n: 1', ['yaml-syntax 1:3']],
    ['NUL', 'a: \u0000', ['not-text 1:4']],
  ])('%s', (_name, text, expected) => expect(refusals(text)).toEqual(expected));
});

describe('a syntax error is told once', () => {
  test.each([
    ['open double quote', 'a: 1\nb: "x\nc: 2\nd: 3\n', '2:4'],
    ['open single quote', "a: 'it", '1:4'],
    ['open bracket', 'a: [1', '1:4'],
    ['open brace', 'a: {b: 1\nc: 2', '1:4'],
    ['two colons on a line', 'a: b: c', '1:1'],
    ['list and mapping mixed', '- a\nb: 1\nc: 2\nd: 3', '2:1'],
    ['reserved character', 'a: @x', '1:4'],
    ['unknown escape', 'a: "\\q"', '1:5'],
    ['keys in different columns', 'a:\n  b: 1\n   c: 2', '3:4'],
    ['text after a quote', 'a: "x" y', '1:8'],
  ])('%s', (_name, text, place) => expect(refusals(text)).toEqual([`yaml-syntax ${place}`]));
});

describe('hostile texts end soon', () => {
  const deep = (open: string, count: number): string => open.repeat(count);
  test('nesting beyond the bound is refused, at the bound it is read', () => {
    const nested = (levels: number): string => `${'['.repeat(levels)}1${']'.repeat(levels)}`;
    expect(refusals(nested(32))).toEqual([]);
    expect(refusals(nested(33))).toEqual(['too-deep 1:33']);
  });

  test.each([
    ['brackets', deep('[', 19_000)],
    ['closing brackets', `a: ${deep(']', 19_000)}`],
    ['question marks', deep('? ', 19_000)],
    ['dashes', deep('- ', 19_000)],
    ['braces', deep('{a: ', 9_000)],
    ['a million brackets', deep('[', 999_999)],
    ['quotes', deep('"', 19_000)],
    ['quotes within deep keys', `${deep('? ', 9_000)}"`],
    ['directives', deep('%a\n', 300_000)],
  ])('%s', (_name, text) => {
    const start = performance.now();
    expect(refusals(text).length).toBeGreaterThan(0);
    expect(performance.now() - start).toBeLessThan(5000);
  });

  test('any text is a tree or a refusal', () => {
    const piece = fc.constantFrom(
      'a',
      ': ',
      '\n',
      '  ',
      '- ',
      '{',
      '}',
      '[',
      ']',
      ',',
      '"',
      "'",
      '&x ',
      '*x',
      '!!',
      '#',
      '|',
      '>',
      '%',
      '\t',
      '?',
      '<<',
      '0x1',
      '\r',
      '---\n',
      '~',
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(piece, fc.string({ maxLength: 3 })), { maxLength: 40 }), (pieces) => {
        const text = pieces.join('');
        const outcome = parseYaml({ text, path: 'a.yaml' });
        if (outcome.ok) return;
        expect(outcome.problems.length).toBeGreaterThan(0);
        for (const { at } of outcome.problems)
          if (at) {
            expect(at.line).toBeGreaterThanOrEqual(1);
            expect(at.column).toBeGreaterThanOrEqual(1);
            expect(at.offset + at.length).toBeLessThanOrEqual(text.length);
          }
      }),
      { seed: 20, numRuns: 3000 },
    );
  });
});
