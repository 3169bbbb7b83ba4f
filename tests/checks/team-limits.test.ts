import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { isDay } from '../../src/checks/day.ts';
import { projectPolicies } from '../../src/checks/read-policies.ts';
import { readTeamLimits } from '../../src/checks/read-team-limits.ts';
import { isFailing, waivedResults, type Waiver } from '../../src/checks/waiver.ts';
import { defaults, designOf, edited, measuredPad, reviewed, root } from './reviewed.ts';

const read = (text: string): ReturnType<typeof readTeamLimits> => readTeamLimits({ text, path: 'team.yaml', policies: defaults });
const problemsOf = (text: string): readonly string[] => {
  const outcome = read(`tankproofLimits: 1\n${text}`);
  return outcome.ok ? [] : outcome.problems.map(({ id, at }) => `${id} ${at?.line}:${at?.column}`);
};
const waiver = '  - {id: hot-surface, file: pad.yaml, reason: guarded, expires: 2027-03-31}\n';

describe('a file of limits', () => {
  test('sets levels in place of those of the default policy, and a project has the last word', () => {
    const outcome = read('tankproofLimits: 1\nloaded-q: {warn: 30, fail: 4}\nchoke-ratio: {warn: 25}\n');
    expect(outcome.ok).toBe(true);
    if (!outcome.ok) return;
    const { policies } = outcome.value;
    expect(policies.get('loaded-q')).toMatchObject({ warn: { quantity: 30 }, fail: { quantity: 4 }, overriddenAt: 'team.yaml:2' });
    expect(policies.get('choke-ratio')).toMatchObject({ warn: { quantity: 25 }, fail: { quantity: 10 }, overriddenAt: 'team.yaml:3' });
    expect(policies.get('supply-sag')).toBe(defaults.get('supply-sag'));
    const design = designOf(edited(measuredPad, ['environment:', 'limits: {loaded-q: {warn: 12}}\nenvironment:']));
    const merged = projectPolicies({ policies, design });
    expect(merged.ok && merged.value.get('loaded-q')).toMatchObject({ warn: { quantity: 12 }, fail: { quantity: 4 } });
    expect(merged.ok && merged.value.get('loaded-q')?.overriddenAt).toMatch(/test\.yaml:38$/);
    expect(merged.ok && merged.value.get('choke-ratio')?.overriddenAt).toBe('team.yaml:3');
  });

  test('may be a copy of the default policy, which then says where it is from', () => {
    const text = readFileSync(join(root, 'shared', 'limits.yaml'), 'utf8');
    const outcome = read(text);
    expect(outcome.ok).toBe(true);
    if (!outcome.ok) return;
    for (const [id, { overriddenAt, ...policy }] of outcome.value.policies) {
      expect(overriddenAt).toMatch(/^team\.yaml:\d+$/);
      const { other = { warn: policy.warn, fail: policy.fail }, ...own } = defaults.get(id)!;
      expect(policy).toEqual({ ...own, other });
    }
  });

  test.each([
    ['loaded-w: {warn: 4}', ['unknown-check 2:1']],
    ['loaded-q: {warm: 4}', ['unknown-key 2:12']],
    ['loaded-q: 4', ['wrong-type 2:11']],
    ['loaded-q: {warn: 4 V}', ['wrong-unit 2:18']],
    ['loaded-q: {warn: 1, fail: 2}', ['limit-order 2:1']],
    ['hold-off-running: {warn: 1 V}', ['fixed-limit 2:1']],
    ['waivers: {}', ['wrong-type 2:10']],
    [`waivers:\n${waiver.replace('hot-surface', 'hot-surfase')}`, ['unknown-check 3:10']],
    [`waivers:\n${waiver.replace('03-31', '02-29')}`, ['not-a-day 3:65']],
    [`waivers:\n${waiver.replace(', expires: 2027-03-31', '')}`, ['missing-key 3:5']],
    [`waivers:\n${waiver.replace('reason: guarded', 'reason: ""')}`, ['empty-text 3:47']],
    ['loaded-q: {warn: 1 V}\nloaded-w: {}', ['wrong-unit 2:18', 'unknown-check 3:1']],
  ])('%j is refused where it is wrong', (text, places) => {
    expect(problemsOf(text)).toEqual(places);
  });

  test('is described by its schema, as the default policy is', () => {
    const schema = JSON.parse(readFileSync(join(root, 'shared', 'limits.schema.json'), 'utf8')) as object;
    const validate = new Ajv2020({ strict: true, strictTypes: false, allowUnionTypes: true }).compile(schema);
    expect(validate(parse(readFileSync(join(root, 'shared', 'limits.yaml'), 'utf8')))).toBe(true);
    expect(validate(parse(`tankproofLimits: 1\nwaivers:\n${waiver}`))).toBe(true);
    expect(validate(parse(`tankproofLimits: 1\nwaivers:\n${waiver.replace('file:', 'files:')}`))).toBe(false);
  });
});

describe('a waiver', () => {
  const at = { path: 'team.yaml', line: 3, column: 5, offset: 0, length: 1 };
  const waived = (expires: string): Waiver => ({ id: 'hold-off-running', file: '*', reason: 'known', expires, at });
  const today = '2027-03-31';
  const results = [...reviewed(edited(measuredPad, ['resistance: 220 ohm', 'resistance: 390 ohm'])).values()];
  const judged = (expires: string, id = 'gate-rise-time'): { expired: boolean | undefined; failing: boolean; verdict: string } => {
    const result = waivedResults({ results, waivers: [{ ...waived(expires), id }], today }).find((one) => one.id === id)!;
    return { expired: result.waiver?.expired, failing: isFailing({ result, failing: ['fail', 'warn'] }), verdict: result.verdict };
  };

  test('holds through its last day, keeps the verdict, and fails the run from the next day on', () => {
    expect(results.find(({ id }) => id === 'gate-rise-time')!.verdict).toBe('warn');
    expect(judged('2027-03-31')).toEqual({ expired: false, failing: false, verdict: 'warn' });
    expect(judged('2027-03-30')).toEqual({ expired: true, failing: true, verdict: 'warn' });
  });

  test('does nothing to a pass, and of two the one that expires last counts', () => {
    const passing = results.find(({ verdict }) => verdict === 'pass')!;
    expect(judged('2027-03-30', passing.id)).toEqual({ expired: undefined, failing: false, verdict: 'pass' });
    const two = ['2027-03-30', '2028-01-01', '2026-01-01'].map((expires) => ({ ...waived(expires), id: 'gate-rise-time' }));
    expect(waivedResults({ results, waivers: two, today }).find(({ id }) => id === 'gate-rise-time')!.waiver?.expires).toBe('2028-01-01');
  });

  test.each([
    ['2027-12-31', true],
    ['2028-02-29', true],
    ['2027-02-29', false],
    ['2100-02-29', false],
    ['2027-13-01', false],
    ['2027-00-10', false],
    ['2027-04-31', false],
    ['2027-4-1', false],
    ['31.12.2027', false],
  ])('%s is a day: %s', (text, is) => expect(isDay(text)).toBe(is));
});
