import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/checks/check.ts';
import { judge } from '../../src/checks/judge.ts';
import type { Policy } from '../../src/checks/policy.ts';

const policy: Policy = { warn: { share: 0.8 }, fail: { share: 1 }, isRated: true, reason: 'test', source: 'test' };
const absolute: Policy = { warn: { quantity: 5 }, fail: { quantity: 2 }, isRated: false, reason: 'test', source: 'test' };
const measured = (value: number, rating?: number): Finding => ({
  kind: 'measured',
  value,
  path: '',
  ...(rating === undefined ? {} : { rating }),
});

describe('at most a rating of 400', () => {
  test.each([
    ['exactly at the warn line', 320, 'pass'],
    ['just past the warn line', 320.0001, 'warn'],
    ['exactly at the rating', 400, 'warn'],
    ['just past the rating', 400.0001, 'fail'],
    ['zero', 0, 'pass'],
    ['negative', -5, 'pass'],
    ['absurd', 1e300, 'fail'],
  ] as const)('%s, %d, is %s', (_words, value, verdict) => {
    expect(judge({ finding: measured(value, 400), policy, sense: 'at-most' }).verdict).toBe(verdict);
  });
});

describe('at least 5 to pass and 2 not to fail', () => {
  test.each([
    [5, 'pass'],
    [4.9999, 'warn'],
    [2, 'warn'],
    [1.9999, 'fail'],
  ] as const)('%d is %s', (value, verdict) => {
    expect(judge({ finding: measured(value), policy: absolute, sense: 'at-least' }).verdict).toBe(verdict);
  });
});

test('the margin is what is left of the limit, and null against a limit of zero', () => {
  expect(judge({ finding: measured(300, 400), policy, sense: 'at-most' }).margin).toBeCloseTo(0.25, 12);
  expect(judge({ finding: measured(500, 400), policy, sense: 'at-most' }).margin).toBeCloseTo(-0.25, 12);
  expect(judge({ finding: measured(3), policy: absolute, sense: 'at-least' }).margin).toBeCloseTo(0.5, 12);
  expect(judge({ finding: measured(3, 0), policy, sense: 'at-most' }).margin).toBeNull();
});

test('a limit may be so much less than the rating', () => {
  const less: Policy = { warn: { quantity: 383.15 }, fail: { less: 25 }, isRated: true, reason: '', source: '' };
  expect(judge({ finding: measured(400, 448.15), policy: less, sense: 'at-most' })).toMatchObject({ verdict: 'warn', limit: 423.15 });
  expect(judge({ finding: measured(424, 448.15), policy: less, sense: 'at-most' }).verdict).toBe('fail');
});

test.each([Number.NaN, Infinity, -Infinity])('%d is never judged', (value) => {
  expect(() => judge({ finding: measured(value, 400), policy, sense: 'at-most' })).toThrow(RangeError);
  expect(() => judge({ finding: measured(300, value), policy, sense: 'at-most' })).toThrow(RangeError);
});

test('a level stated against a rating needs one', () => {
  expect(() => judge({ finding: measured(300), policy, sense: 'at-most' })).toThrow(RangeError);
});

test('missing data is not assessed, a hopeless state fails, neither with a number', () => {
  const shared = { path: '' };
  expect(judge({ finding: { kind: 'unassessed', reason: 'no rating', ...shared }, policy, sense: 'at-most' })).toMatchObject({
    verdict: 'not assessed',
    value: null,
    margin: null,
    reason: 'no rating',
  });
  expect(judge({ finding: { kind: 'hopeless', reason: 'runaway', ...shared }, policy, sense: 'at-most' })).toMatchObject({
    verdict: 'fail',
    value: null,
  });
});

test('limits from the circuit: past the warn line and the limit it warns, past the line to fail it fails', () => {
  const levels = { warnAt: 1.7, limit: 2.7, failAt: 3.1 };
  const verdict = (value: number): string =>
    judge({ finding: { ...measured(value), levels } as Finding, policy, sense: 'at-most' }).verdict;
  expect([1.7, 1.8, 2.8, 3.1, 3.2].map(verdict)).toEqual(['pass', 'warn', 'warn', 'warn', 'fail']);
});
