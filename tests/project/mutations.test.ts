import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exampleText, partTexts, read, memoryLibrary } from './example.ts';

/** Every number inside a value, however deep. */
function numbersIn(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

const lines = exampleText.split('\n');
const value = fc.constantFrom(
  '0',
  '-1',
  '1e400 V',
  'NaN',
  '.nan',
  '.inf',
  '1e308 kV',
  '18 V',
  '5 %',
  '-5 %',
  '~',
  '',
  '[]',
  '{}',
  '[1]',
  '{a: b}',
  'true',
  'two',
  '1 uH',
  '0 ohm',
  '2 * 3 V',
  '1/0 V',
  '0/0 V',
  '"x"',
  'IRFP250N',
  '{capacitance: 1 nF}',
);

const edits: fc.Arbitrary<(text: string) => string> = fc.oneof(
  fc.tuple(fc.nat(lines.length - 1), value).map(
    ([line, written]) =>
      (text: string): string =>
        text
          .split('\n')
          .map((each, index) => (index === line ? each.replace(/:.*/, `: ${written}`) : each))
          .join('\n'),
  ),
  fc.nat(lines.length - 1).map(
    (line) =>
      (text: string): string =>
        text
          .split('\n')
          .filter((_each, index) => index !== line)
          .join('\n'),
  ),
  fc.nat(lines.length - 1).map(
    (line) =>
      (text: string): string =>
        text
          .split('\n')
          .flatMap((each, index) => (index === line ? [each, each] : [each]))
          .join('\n'),
  ),
  fc.tuple(fc.nat(exampleText.length), fc.nat(12)).map(
    ([at, count]) =>
      (text: string): string =>
        text.slice(0, at) + text.slice(at + count),
  ),
  fc.tuple(fc.nat(exampleText.length), fc.string({ maxLength: 4 })).map(
    ([at, piece]) =>
      (text: string): string =>
        text.slice(0, at) + piece + text.slice(at),
  ),
);

/** Thousands of files are read, on whatever machine. */
const patience = { timeout: 60_000 };

describe('a project file changed at random', patience, () => {
  test('is a design of finite numbers or a list of problems', () => {
    let [read_, refused] = [0, 0];
    fc.assert(
      fc.property(fc.array(edits, { minLength: 1, maxLength: 3 }), (changes) => {
        const outcome = read(changes.reduce((text, change) => change(text), exampleText));
        if (outcome.ok) {
          read_++;
          const numbers = numbersIn(outcome.value);
          expect(numbers.length).toBeGreaterThan(20);
          expect(numbers.every(Number.isFinite)).toBe(true);
          expect(outcome.value.loads.length).toBeGreaterThan(0);
        } else {
          refused++;
          expect(outcome.problems.length).toBeGreaterThan(0);
          for (const { id, message } of outcome.problems) {
            expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
            expect(message).not.toMatch(/undefined|\[object|NaN\b.*NaN/);
          }
        }
      }),
      { seed: 1, numRuns: 1000 },
    );
    // both ends of the property were reached
    expect(Math.min(read_, refused)).toBeGreaterThan(40);
  });

  test('text of any kind is answered', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200, unit: 'binary' }), (text) => {
        expect(read(text).ok).toBe(false);
      }),
      { seed: 2, numRuns: 600 },
    );
  });
});

test('a part file changed at random is a part of finite numbers or a list of problems', patience, () => {
  const text = partTexts.capacitors['pp-box-100n-630v']!;
  const change = fc.tuple(fc.nat(text.length), fc.nat(8), fc.oneof(value, fc.string({ maxLength: 4 })));
  fc.assert(
    fc.property(change, ([at, count, piece]) => {
      const changed = text.slice(0, at) + piece + text.slice(at + count);
      const outcome = read(exampleText, memoryLibrary({ ...partTexts, capacitors: { 'pp-box-100n-630v': changed } }));
      if (outcome.ok) expect(numbersIn(outcome.value).every(Number.isFinite)).toBe(true);
      else expect(outcome.problems.length).toBeGreaterThan(0);
    }),
    { seed: 3, numRuns: 600 },
  );
});
