import { describe, expect, test } from 'vitest';
import { boundsProblem } from '../../src/source/bounds.ts';
import type { QuantityParser } from '../../src/source/bounds.ts';
import { resolvedSchema, schemaUnder } from '../../src/source/json-schema.ts';
import type { JsonSchema } from '../../src/source/json-schema.ts';
import { readQuantities } from '../../src/source/quantities.ts';
import { parseYaml } from '../../src/source/yaml-source.ts';

/** Volts and percent only; `big V` is not finite. */
const parse: QuantityParser = ({ text, dimension }) => {
  if (text === 'big V') return { ok: true, value: Infinity };
  const found = /^([-\d.]+) ?(m|u|k)?(V|%)?$/.exec(text);
  if (!found || (dimension === 'voltage') !== (found[3] === 'V'))
    return { ok: false, problem: { id: 'wrong-unit', message: 'is no such thing' } };
  const scale = { m: 1e-3, u: 1e-6, k: 1e3 }[found[2] ?? ''] ?? 1;
  return { ok: true, value: (Number(found[1]) * scale) / (found[3] === '%' ? 100 : 1) };
};

function judged(text: string, schema: JsonSchema, dimension = 'voltage'): ReturnType<typeof boundsProblem> {
  const parsed = parse({ text, dimension });
  if (!parsed.ok) throw new Error(text);
  return boundsProblem({ text, value: parsed.value, dimension, schema, parse });
}

describe('bounds', () => {
  test.each<[string, JsonSchema, string, string]>([
    ['an inclusive lower bound', { 'x-atLeast': '1 V' }, '1 V', '0.999 V'],
    ['an inclusive upper bound', { 'x-atMost': '1 V' }, '1 V', '1.001 V'],
    ['an exclusive lower bound', { 'x-above': '1 V' }, '1.001 V', '1 V'],
    ['an exclusive upper bound', { 'x-below': '1 V' }, '0.999 V', '1 V'],
  ])('%s', (_fact, schema, inside, outside) => {
    expect(judged(inside, schema)).toBeUndefined();
    expect(judged(outside, schema)?.id).toBe('out-of-range');
  });

  test('the message names the range', () => {
    expect(judged('2 V', { 'x-above': '0 V', 'x-atMost': '1 V' })).toEqual({
      id: 'out-of-range',
      message: 'must be above 0 V and at most 1 V',
    });
  });

  test('another prefix is proposed only where the value is seen in practice', () => {
    const schema: JsonSchema = { 'x-atMost': '100 V', 'x-typical': ['1 mV', '50 mV'] };
    expect(judged('20 kV', schema)?.help).toBe('did you mean "20 mV"?');
    expect(judged('200 kV', schema)?.help).toBeUndefined();
  });

  test('a percentage of 100 or more is told as such, with the percent sign that may be missing', () => {
    const schema: JsonSchema = { 'x-atLeast': '0 %', 'x-atMost': '50 %', 'x-because': 'a reason', 'x-percent': true };
    expect(judged('5', schema, 'ratio')).toEqual({
      id: 'over-hundred-percent',
      message: 'must be at least 0 % and at most 50 %: a reason',
      help: 'did you mean "5 %"?',
    });
    expect(judged('100 %', schema, 'ratio')?.id).toBe('over-hundred-percent');
    expect(judged('50.1 %', schema, 'ratio')).toEqual({ id: 'out-of-range', message: 'must be at least 0 % and at most 50 %: a reason' });
    expect(judged('50 %', schema, 'ratio')).toBeUndefined();
  });

  test('a bound that is no quantity is a mistake of the schema', () =>
    expect(() => judged('1 V', { 'x-above': '0 A' })).toThrow(RangeError));
});

describe('references between schemas', () => {
  const documents = {
    'a.json': { $defs: { x: { $ref: 'b.json#/$defs/y', description: 'near' } } },
    'b.json': {
      $defs: {
        y: { $ref: '#/$defs/z', 'x-above': '1 V' },
        z: { type: 'string', description: 'far', 'x-above': '0 V', 'x-dimension': 'voltage' },
      },
    },
  };
  const at = (schema: JsonSchema): JsonSchema => resolvedSchema({ documents, base: 'a.json', schema }).schema;

  test('what stands beside a reference wins', () => {
    expect(at({ $ref: '#/$defs/x' })).toEqual({ type: 'string', description: 'near', 'x-above': '1 V', 'x-dimension': 'voltage' });
  });
  test('a reference to nothing is a mistake of the schema', () => expect(() => at({ $ref: '#/$defs/none' })).toThrow(RangeError));
  test('a key that every object has is not allowed by that', () => {
    expect(schemaUnder({ documents, base: 'a.json', schema: { properties: {} } }, 'constructor')).toBeUndefined();
  });
});

describe('quantities of a tree', () => {
  const schema: JsonSchema = {
    properties: {
      plain: { type: 'string', 'x-dimension': 'voltage' },
      either: { type: ['string', 'number'], 'x-dimension': ['ratio', 'voltage'] },
      rating: { type: ['string', 'object'], 'x-dimension': 'voltage', 'x-atMost': '9 V', properties: { value: { type: 'string' } } },
      word: { type: 'string', 'x-dimension': 'voltage', 'x-word': 'supply' },
    },
    propertyNames: { type: 'string', 'x-dimension': 'voltage' },
    additionalProperties: { type: ['string', 'number'], 'x-dimension': 'ratio' },
  };
  const reading = (text: string): readonly unknown[] => {
    const parsed = parseYaml({ text, path: 'a.yaml' });
    if (!parsed.ok) throw new Error(text);
    const { values, problems } = readQuantities({ root: parsed.value.root, place: { documents: {}, base: '', schema }, parse });
    return [...values.values(), ...problems.map(({ id, at }) => `${id} ${at?.column}`)];
  };

  test.each<[string, string, readonly unknown[]]>([
    ['a text in its dimension', 'plain: 2 V', [2]],
    ['a number where text is due is left to the structure', 'plain: 2', []],
    ['the first dimension that fits', 'either: 2 V', [2]],
    ['a plain number where one is allowed', 'either: 2', [2]],
    ['none that fits', 'either: x', ['wrong-unit 9']],
    ['the value of a rating has the bounds of the rating', 'rating: {value: 10 V}', ['out-of-range 17']],
    ['a word in place of a quantity', 'word: supply', []],
    ['another word', 'word: suply', ['unknown-word 7']],
    ['a key that is a quantity, and its value', '3 V: 0.5', [3, 0.5]],
    ['a key that is none', 'x: 0.5', [0.5, 'wrong-unit 1']],
    ['an infinite number never gets past', 'plain: big V', ['not-finite 8']],
  ])('%s', (_fact, text, expected) => expect(reading(text)).toEqual(expected));
});
