import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { limitProblems, projectPolicies, readPolicies } from '../../src/checks/read-policies.ts';
import { readTeamLimits } from '../../src/checks/read-team-limits.ts';
import { checkIds, checks, explained } from '../../src/checks/registry.ts';
import { partsInFolders } from '../../src/cli/parts-folders.ts';
import { readProject } from '../../src/project/read-project.ts';
import { analysed, defaults, designOf, edited, example, measuredPad, reviewed, root } from './reviewed.ts';

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
    ['{hot-surface: {warn: 0.7 of rating}}', 'share-of-temperature'],
    ['{hot-surface: {fail: 0.9}}', 'share-of-temperature'],
    ['{switch-temperature: {fail: 90 % of rating}}', 'share-of-temperature'],
    ['{loaded-q: {warn: 0.7 of rating}}', 'no-rating'],
    ['{coil-temperature: {warn: rating - 25 K}}', 'no-rating'],
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

describe('a level of a rating', () => {
  const rated = new Map<string, Set<boolean>>();
  for (const text of [pad, ...['charging-pad', 'bolt-heater', 'barn-charger', 'scrap-box-smelter', 'live-rail-lamp'].map(example)]) {
    const analysis = analysed(text);
    for (const check of checks)
      for (const finding of analysis.corners.flatMap((instance) => check.run({ analysis, instance })))
        if (finding.kind === 'measured') rated.set(check.id, (rated.get(check.id) ?? new Set()).add(finding.rating !== undefined));
  }

  test.each([...defaults.keys()])('of %s is refused where its findings have no rating', (id) => {
    const [has, ...others] = rated.get(id) ?? [];
    expect(has).toBeDefined();
    expect(others).toEqual([]);
    const isTemperature = checks.find((check) => check.id === id)!.dimension === 'temperature';
    const problemsOf = (level: string): readonly (string | undefined)[] => {
      const outcome = projectPolicies({ policies: defaults, design: designOf(withLimits(`{${id}: {warn: ${level}}}`)) });
      return outcome.ok ? [] : outcome.problems.map((problem) => `${problem.id} ${problem.at?.column}`);
    };
    const column = `{${id}: {warn: `.length + 'limits: '.length + 1;
    expect(problemsOf('1.0 of rating')).toEqual(has ? [] : [`no-rating ${column}`]);
    if (!has || isTemperature) expect(problemsOf('0.7 of rating')).toEqual([`${has ? 'share-of-temperature' : 'no-rating'} ${column}`]);
  });

  test('stays one where the levels that it overrides are quantities', () => {
    const team = readTeamLimits({
      text: 'tankproofLimits: 1\nhot-surface: {warn: 40 degC, fail: 50 degC}\n',
      path: 'team.yaml',
      policies: defaults,
    });
    if (!team.ok) throw new Error('team');
    const outcome = projectPolicies({ policies: team.value.policies, design: designOf(withLimits('{hot-surface: {fail: rating - 2 K}}')) });
    expect(outcome.ok && outcome.value.get('hot-surface')).toMatchObject({ warn: { quantity: 313.15 }, fail: { less: 2 } });
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

describe('everything that is wrong with the limits of a project is told at once, a cause once', () => {
  const problemsOf = (limits: string, text = pad): readonly string[] => {
    const path = join(root, 'examples', 'test.yaml');
    const outcome = readProject({
      text: `${text}limits: ${limits}\n`,
      path,
      openLibrary: (folders) => partsInFolders({ root, projectPath: path, folders }),
      checks: { ids: checkIds, problemsOf: (project) => limitProblems({ policies: defaults, ...project }) },
    });
    const line = text.split('\n').length;
    return outcome.ok ? [] : outcome.problems.map(({ id, at }) => `${id} ${at?.line === line ? '' : `${at?.line}:`}${at?.column}`);
  };

  test.each([
    ['{loaded-w: {warn: 4}, loaded-q: {warn: 1 V}}', ['unknown-check 10', 'wrong-unit 48']],
    ['{loaded-w: 4, loaded-q: {warm: 1 V}, choke-ratio: {fail: 2 V}}', ['unknown-check 10', 'unknown-key 34', 'wrong-unit 66']],
    ['{loaded-q: {warn: 2 V, fail: 3 A}, latch-up: {warn: 1}}', ['wrong-unit 27', 'wrong-unit 38', 'fixed-limit 54']],
    ['{loaded-q: {warn: 1, fail: 2 V}}', ['wrong-unit 36']],
    ['{loaded-q: {warn: }, choke-ratio: {warn: true}}', ['no-value 21', 'wrong-type 50']],
    ['{loaded-w: {warn: 1 V}}', ['unknown-check 10']],
    ['{loaded-q: {warn: 6}}', []],
  ])('%s', (limits, problems) => {
    expect(problemsOf(limits)).toEqual(problems);
  });

  test('beside what else is wrong with the file', () => {
    expect(problemsOf('{loaded-q: {warn: 1 V}}', edited(pad, ['voltage: 18 V', 'voltage: 18 A']))).toEqual([
      'wrong-unit 5:12',
      'wrong-unit 27',
    ]);
  });
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
