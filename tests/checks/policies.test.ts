import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { projectPolicies, readPolicies } from '../../src/checks/read-policies.ts';
import { checks, explained } from '../../src/checks/registry.ts';
import { defaults, designOf, edited, measuredPad, reviewed, root } from './reviewed.ts';

const pad = measuredPad;
const withLimits = (limits: string): string => `${pad}limits: ${limits}\n`;

describe('the policy file', () => {
  test('has a line with reason and source for every check whose limits do not come from the circuit', () => {
    const fromCircuit = ['gate-drive-voltage', 'rise-time', 'hold-off-running', 'hold-off-at-switch-on'];
    expect([...defaults.keys()].toSorted()).toEqual(
      checks
        .map(({ id }) => id)
        .filter((id) => !fromCircuit.includes(id))
        .toSorted(),
    );
    for (const { reason, source } of defaults.values()) {
      expect(reason.length).toBeGreaterThan(10);
      expect(source.length).toBeGreaterThan(5);
    }
  });

  test('holds the levels of the design: eight tenths of a rating, 10 K and 15 K, 110 °C and the limit less 25 K', () => {
    expect(defaults.get('switch-peak-voltage')).toMatchObject({ warn: { share: 0.8 }, fail: { share: 1 } });
    expect(defaults.get('capacitor-self-heating')).toMatchObject({ warn: { quantity: 10 }, fail: { quantity: 15 } });
    expect(defaults.get('switch-temperature')).toMatchObject({ warn: { quantity: 383.15 }, fail: { less: 25 } });
    expect(defaults.get('gate-rise-time')).toMatchObject({ warn: { quantity: 0.05 }, fail: { quantity: 0.2 } });
    expect(defaults.get('cross-diode-recovery')).toMatchObject({ warn: { quantity: 0.01 }, fail: { quantity: 0.05 } });
    expect(defaults.get('loaded-q')).toMatchObject({ warn: { quantity: 5 }, fail: { quantity: 2 } });
    expect(defaults.get('choke-ratio')).toMatchObject({ warn: { quantity: 20 }, fail: { quantity: 10 } });
    expect(defaults.get('pull-up-power')).toMatchObject({ warn: { share: 0.5 }, fail: { share: 1 } });
  });

  test('with a wrong level says where', () => {
    const path = join(root, 'shared', 'limits.yaml');
    const outcome = readPolicies({ text: readFileSync(path, 'utf8').replace('warn: 10 K', 'warn: 10 V'), path });
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.problems[0]).toMatchObject({ id: 'wrong-unit', at: { path } });
  });
});

describe('limits of a project', () => {
  test.each([
    ['{switch-peak-voltage: {warn: 0.2}}', 'switch-peak-voltage', 'warn'],
    ['{switch-peak-voltage: {warn: 20 %, fail: 25 %}}', 'switch-peak-voltage', 'fail'],
    ['{switch-peak-voltage: {warn: 0.2 of rating, fail: 0.25 of rating}}', 'switch-peak-voltage', 'fail'],
    ['{switch-peak-voltage: {warn: 40 V, fail: 50 V}}', 'switch-peak-voltage', 'fail'],
    ['{switch-temperature: {warn: 30 degC, fail: rating - 140 K}}', 'switch-temperature', 'fail'],
    ['{capacitor-self-heating: {warn: 1 K}}', 'capacitor-self-heating', 'warn'],
    ['{gate-rise-time: {warn: 1 %, fail: 2 %}}', 'gate-rise-time', 'fail'],
    ['{loaded-q: {warn: 30}}', 'loaded-q', 'warn'],
    ['{choke-ratio: {warn: 30, fail: 25}}', 'choke-ratio', 'fail'],
  ])('%s makes %s %s, and the report says whose levels they are', (limits, id, verdict) => {
    const result = reviewed(withLimits(limits)).get(id)!;
    expect(result.verdict).toBe(verdict);
    expect(result.basis.join(' ')).toContain('not the default policy');
  });

  test.each([
    ['{switch-peak-voltage: {warn: 0.9, fail: 0.8}}', 'limit-order'],
    ['{loaded-q: {warn: 1, fail: 2}}', 'limit-order'],
    ['{hold-off-running: {warn: 2 V}}', 'fixed-limit'],
    ['{latch-up: {warn: 1}}', 'fixed-limit'],
    ['{switch-peak-voltage: {warn: 3 A}}', 'wrong-unit'],
    ['{loaded-q: {warn: much}}', 'unknown-unit'],
    ['{switch-peak-voltage: {warn: 0.7 of ratin}}', 'not-a-level'],
    ['{switch-peak-voltage: {warn: -0.2}}', 'out-of-range'],
    ['{switch-peak-voltage: {warn: 0 of rating}}', 'out-of-range'],
    ['{switch-peak-voltage: {fail: 1e400 V}}', 'not-finite'],
  ])('%s is %s', (limits, id) => {
    const design = designOf(withLimits(limits));
    const outcome = projectPolicies({ policies: defaults, design });
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) {
      expect(outcome.problems[0]?.id).toBe(id);
      expect(outcome.problems[0]?.at?.line).toBe(pad.split('\n').length);
    }
  });
});

test.each([
  ['0.7 of ratin', 'did you mean "0.7 of rating"? Otherwise write "0.7 of rating" or a voltage such as'],
  ['0.7 off rating', 'write "0.7 of rating" or a voltage such as'],
  ['70% of the rating', 'did you mean "70% of rating"?'],
  ['0.7 rating', 'did you mean "0.7 of rating"?'],
  ['ratng - 20 V', 'did you mean "rating - 20 V"?'],
])('a level of a rating in other words, %s, is refused with what may be written', (text, help) => {
  const outcome = projectPolicies({ policies: defaults, design: designOf(withLimits(`{switch-peak-voltage: {warn: "${text}"}}`)) });
  expect(outcome.ok ? [] : outcome.problems).toMatchObject([
    { message: `\`limits.switch-peak-voltage.warn\`: "${text}" is no level`, help: expect.stringContaining(help) as string },
  ]);
});

test('a polypropylene part that allows less than 10 K is judged more strictly, another dielectric by its own maxRise', () => {
  const limitOf = (part: string): number | null =>
    reviewed(edited(pad, ['part: pp-foil-100n-1000v', `part: ${part}`])).get('capacitor-self-heating')!.limit;
  expect(limitOf('pp-foil-100n-1000v')).toBeCloseTo(15, 9);
  expect(limitOf('x2-330n-275v')).toBeCloseTo(12, 9);
  expect(limitOf('c0g-1812-10n-1000v')).toBeCloseTo(20, 9);
});

describe.each(explained)('$id', ({ id, docs, title, since }) => {
  test('is explained: what, why, formula, source, remedy', () => {
    for (const text of [docs.what, docs.why, docs.formula, docs.source, docs.remedy, title]) expect(text.length).toBeGreaterThan(3);
    expect(since).toMatch(/^\d+\.\d+\.\d+$/);
  });
  test('lives in a file of its name', () => {
    expect(readFileSync(join(root, 'src', 'checks', `${id}.ts`), 'utf8')).toContain(`id: '${id}'`);
  });
  test('never promises', () => {
    expect(Object.values(docs).join(' ')).not.toMatch(/\bsafe\b/i);
  });
});
