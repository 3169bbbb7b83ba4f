import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { isDay } from '../../src/checks/day.ts';
import { projectPolicies } from '../../src/checks/read-policies.ts';
import { readTeamLimits } from '../../src/checks/read-team-limits.ts';
import type { Result } from '../../src/checks/result.ts';
import { beyondWaiver, isFailing, isWaived, waivedResults, type Waiver } from '../../src/checks/waiver.ts';
import { waiverWords } from '../../src/report/waiver-words.ts';
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
    ...[
      ['verdict: wran', 'unknown-word 3:86'],
      ['verdict: pass', 'unknown-word 3:86'],
      ['verdict:', 'no-value 3:77'],
      ['upTo: 90', 'bare-number 3:83'],
      ['upTo: 5 V', 'wrong-unit 3:83'],
      ['upTo: .inf', 'odd-number 3:83'],
      ['upTo: ""', 'empty-text 3:83'],
      ['upTo: " "', 'not-a-quantity 3:83'],
      ['upTo:', 'no-value 3:77'],
      ['upTo: [1]', 'wrong-type 3:83'],
      ['upto: 90 degC', 'unknown-key 3:77'],
    ].map(([key, place]): [string, string[]] => [`waivers:\n${waiver.replace('}', `, ${key!}}`)}`, [place!]]),
    ['loaded-q: {warn: 1 V}\nloaded-w: {}', ['wrong-unit 2:18', 'unknown-check 3:1']],
    ['loaded-q: {warm: 1, fail: 2 V}\nchoke-ratio: {warn: 5 A}', ['unknown-key 2:12', 'wrong-unit 2:27', 'wrong-unit 3:21']],
    ['loaded-q: {warn: 1, fail: 2 V}', ['wrong-unit 2:27']],
    ['loaded-q: {warn: true}\nloaded-w: 4', ['wrong-type 2:18', 'unknown-check 3:1']],
    ['hot-surface: {warn: 0.9 of rating}', ['share-of-temperature 2:21']],
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

  test('reads what it covers, in the dimension of its check', () => {
    const outcome = read(
      `tankproofLimits: 1\nwaivers:\n${waiver.replace('}', ', verdict: not assessed, upTo: 80 degC}')}${waiver.replace('hot-surface', 'loaded-q').replace('}', ', upTo: 4}')}${waiver}`,
    );
    if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join());
    const [surface, quality, plain] = outcome.value.waivers;
    // 80 °C in kelvin
    expect(surface).toMatchObject({ verdict: 'not assessed', upTo: 353.15 });
    expect(quality).toMatchObject({ upTo: 4 });
    expect(quality).not.toHaveProperty('verdict');
    expect(Object.keys(plain!).toSorted()).toEqual(['at', 'expires', 'file', 'id', 'reason']);
  });

  // rank of the verdicts: warn, not assessed, fail
  test.each<[Waiver['verdict'], readonly string[]]>([
    ['warn', ['warn']],
    ['not assessed', ['warn', 'not assessed']],
    ['fail', ['warn', 'not assessed', 'fail']],
    [undefined, ['warn', 'not assessed', 'fail']],
  ])('written for %s covers %j alone, and what it does not cover fails as if it were not there', (verdict, covered) => {
    for (const found of ['warn', 'not assessed', 'fail'] as const) {
      const given = { ...results[0]!, verdict: found };
      const waivers = [{ ...waived('2027-12-31'), id: given.id, ...(verdict && { verdict }) }];
      const [result] = waivedResults({ results: [given], waivers, today });
      expect(isWaived(result!)).toBe(covered.includes(found));
      for (const failing of [['fail'], ['fail', 'warn'], ['fail', 'not assessed']] as const)
        expect(isFailing({ result: result!, failing })).toBe(!covered.includes(found) && failing.some((one) => one === found));
    }
  });

  test.each([
    ['at-most', 80, 80, undefined],
    ['at-most', 80.001, 80, 'value'],
    ['at-most', 3, 80, undefined],
    ['at-least', 4, 4, undefined],
    ['at-least', 3.999, 4, 'value'],
    ['at-least', 5, 4, undefined],
    ['at-most', null, 80, 'value'],
    ['at-least', null, 4, 'value'],
    ['at-most', NaN, 80, 'value'],
  ] as const)('%s, value %s, up to %s: %s', (sense, value, upTo, beyond) => {
    expect(beyondWaiver({ result: { verdict: 'fail', sense, value }, waiver: { upTo } })).toBe(beyond);
  });

  test('says why it does not hold, with digits that tell the values apart', () => {
    const words = (result: Partial<Result>, own: Partial<Waiver>): string => {
      const given: Result = { ...results[0]!, verdict: 'fail', dimension: 'voltage', sense: 'at-most', value: 182, ...result };
      const [one] = waivedResults({ results: [given], waivers: [{ ...waived('2027-12-31'), id: given.id, ...own }], today });
      return waiverWords(one!).join();
    };
    expect(words({}, {})).toBe('waived until 2027-12-31: known (team.yaml:3:5)');
    expect(words({}, { verdict: 'warn' })).toBe('its waiver covers a warning, not a fail: known (team.yaml:3:5)');
    expect(words({ verdict: 'not assessed' }, { verdict: 'warn' })).toContain('covers a warning, not what is not assessed');
    expect(words({}, { upTo: 170 })).toContain('its waiver covers up to 170 V, not 182 V: known');
    expect(words({ value: 170.02 }, { upTo: 170 })).toContain('covers up to 170 V, not 170.02 V');
    expect(words({ sense: 'at-least', value: 4, dimension: 'count' }, { upTo: 5 })).toContain('covers down to 5, not 4:');
    expect(words({ value: null }, { upTo: 170 })).toContain('covers up to 170 V, and there is no value to hold against it');
    expect(words({ dimension: 'temperature', value: 353.151 }, { upTo: 353.15 })).toContain('up to 80 °C, which the value is just past');
    expect(words({}, { verdict: 'warn', expires: '2027-03-30' })).toContain(
      'its waiver expired on 2027-03-30 and covers a warning, not a fail: known',
    );
  });

  test('of several for one result one that covers it counts, though another expires later', () => {
    const given = { ...results[0]!, verdict: 'fail' as const };
    const own = (expires: string, verdict: Waiver['verdict']): Waiver => ({
      ...waived(expires),
      id: given.id,
      ...(verdict && { verdict }),
    });
    const of = (...waivers: readonly Waiver[]): Result => waivedResults({ results: [given], waivers, today })[0]!;
    expect(of(own('2028-01-01', 'warn'), own('2027-04-01', undefined)).waiver).toMatchObject({ expires: '2027-04-01', beyond: undefined });
    expect(isFailing({ result: of(own('2028-01-01', 'warn'), own('2027-03-01', 'fail')), failing: ['fail'] })).toBe(true);
    expect(of(own('2027-05-01', 'warn'), own('2028-01-01', 'warn')).waiver).toMatchObject({ expires: '2028-01-01', beyond: 'verdict' });
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
