import { describe, expect, test } from 'vitest';
import { statedValues, type StatedValue } from '../../src/project/stated-values.ts';
import { assumptionsOf } from '../../src/driver/assumptions.ts';
import { quantitiesOf } from '../../src/driver/quantities.ts';
import type { Result } from '../../src/checks/result.ts';
import { checkChanges, isWorseBy, roomOf } from '../../src/studies/compare/checks.ts';
import { comparison, isSame, type ReviewedProject } from '../../src/studies/compare/comparison.ts';
import { inputChanges } from '../../src/studies/compare/inputs.ts';
import { loadPairs } from '../../src/studies/compare/load-pairs.ts';
import { quantityChanges } from '../../src/studies/compare/quantities.ts';
import { differ } from '../../src/studies/compare/resolution.ts';
import { analysed, edited, example, measuredPad, reviewed } from '../checks/reviewed.ts';

function stated(text: string): readonly StatedValue[] {
  const values = statedValues({ text, path: 'pad.yaml' });
  if (!values.ok) throw new Error('the text is no YAML');
  return values.value;
}

function projectOf(text: string): ReviewedProject {
  const analysis = analysed(text);
  const results = [...reviewed(text).values()];
  const { design } = analysis;
  return {
    path: 'pad.yaml',
    design,
    stated: stated(text),
    quantities: quantitiesOf(analysis),
    results,
    assumptions: assumptionsOf(analysis),
  };
}

const sample: Result = {
  id: 'switch-peak-voltage',
  part: 'switches',
  title: 'drain peak',
  subject: 'switch',
  case: 'idle',
  verdict: 'pass',
  value: 50,
  limit: 100,
  warnAt: 80,
  dimension: 'voltage',
  sense: 'at-most',
  margin: 0.5,
  at: { path: 'pad.yaml', line: 1, column: 1, offset: 0, length: 1 },
  basis: [],
};

describe('room between value and limit', () => {
  test.each([
    ['half of a voltage', { value: 50, limit: 100, sense: 'at-most', dimension: 'voltage' }, 0.5],
    ['past a voltage', { value: 120, limit: 100, sense: 'at-most', dimension: 'voltage' }, -0.2],
    ['twice a minimum', { value: 4, limit: 2, sense: 'at-least', dimension: 'count' }, 0.5],
    ['a hundred times a minimum', { value: 200, limit: 2, sense: 'at-least', dimension: 'count' }, 0.99],
    ['half of a minimum', { value: 1, limit: 2, sense: 'at-least', dimension: 'count' }, -0.5],
    ['nothing of a minimum', { value: 0, limit: 2, sense: 'at-least', dimension: 'count' }, -1],
    ['15 K below a temperature', { value: 363.15, limit: 378.15, sense: 'at-most', dimension: 'temperature' }, 0.15],
    ['a minimum of zero', { value: 3e-3, limit: 0, sense: 'at-least', dimension: 'time' }, 1],
  ] as const)('%s', (_fact, of, room) => expect(roomOf(of)).toBeCloseTo(room, 12));

  test.each([[{ value: null, limit: 100 }], [{ value: 50, limit: null }], [{ value: 1, limit: 0 }]])('there is none of %j', (of) =>
    expect(roomOf({ ...of, sense: 'at-most', dimension: 'voltage' })).toBeNull(),
  );
});

describe('what became of a check', () => {
  const was = (more: Partial<Result>): Result => ({ ...sample, ...more });
  const none = { value: null, limit: null, margin: null };
  test.each([
    ['nothing', {}, {}, 'same', false, 0],
    ['a difference in the last digit', {}, { value: 50.00002 }, 'same', false, undefined],
    ['less room', {}, { value: 60 }, 'worse', false, 0.1],
    ['more room', {}, { value: 40 }, 'better', false, -0.1],
    ['hardly less room', {}, { value: 50.04 }, 'moved', false, 0.0004],
    ['a lower limit', {}, { limit: 80 }, 'worse', false, 0.125],
    ['a fail', { verdict: 'warn', value: 99 }, { verdict: 'fail', value: 101 }, 'worse', true, 0.02],
    ['a warning at the same value, by another level', {}, { verdict: 'warn' }, 'worse', true, 0],
    ['a pass that is not assessed any more', {}, { verdict: 'not assessed', ...none, reason: 'no rating' }, 'worse', true, null],
    ['a fail that is not assessed any more', { verdict: 'fail', value: 101 }, { verdict: 'not assessed', ...none }, 'worse', true, null],
    ['a pass of what was not assessed', { verdict: 'not assessed', ...none }, {}, 'better', false, null],
    ['a fail of what was not assessed', { verdict: 'not assessed', ...none }, { verdict: 'fail', value: 101 }, 'worse', true, null],
    ['another reason', { verdict: 'fail', ...none, reason: 'a' }, { verdict: 'fail', ...none, reason: 'b' }, 'moved', false, null],
    ['a fail that has no number any more', { verdict: 'fail', value: 101 }, { verdict: 'fail', ...none }, 'worse', false, null],
  ] as const)('%s', (_fact, before, after, fate, isGraver, lost) => {
    const [change] = checkChanges({ before: [was(before)], after: [was(after)] });
    expect(change).toMatchObject({ fate, isGraver });
    if (typeof lost === 'number') expect(change!.lost).toBeCloseTo(lost, 9);
    else if (lost === null) expect(change!.lost).toBeNull();
  });

  test('a check of a part that is new counts as worse unless it passes; one that is gone does not', () => {
    const isWorse = (before: readonly Result[], after: readonly Result[]): boolean => isWorseBy(checkChanges({ before, after })[0]!, 1);
    expect(isWorse([], [was({ verdict: 'warn' })])).toBe(true);
    expect(isWorse([], [was({ verdict: 'not assessed' })])).toBe(true);
    expect(isWorse([], [sample])).toBe(false);
    expect(isWorse([was({ verdict: 'fail' })], [])).toBe(false);
  });

  test.each([
    [54.9, false],
    [55, false],
    [55.1, true],
    [40, false],
  ])('5 %% may be lost: of 50 V to %d V of 100 V is worse: %s', (value, isWorse) => {
    const [change] = checkChanges({ before: [sample], after: [was({ value })] });
    expect(isWorseBy(change!, 0.05)).toBe(isWorse);
  });

  test('of nothing that may be lost any loss is worse, one that rounding makes is not', () => {
    const by = (value: number): boolean => isWorseBy(checkChanges({ before: [sample], after: [was({ value })] })[0]!, 0);
    expect([by(50), by(50.00001), by(50.01)]).toEqual([false, false, true]);
  });

  test('graver verdicts come first, the gravest of them first, then the greatest loss; a lost assessment counts as most', () => {
    const of = (id: string, more: Partial<Result>): Result => ({ ...sample, id, ...more });
    const ids = ['same', 'gained', 'lost', 'lost more', 'warns', 'open', 'fails'];
    const after = [
      of('same', {}),
      of('gained', { value: 20 }),
      of('lost', { value: 55 }),
      of('lost more', { value: 75 }),
      of('warns', { verdict: 'warn', value: 90 }),
      of('open', { verdict: 'not assessed', ...none }),
      of('fails', { verdict: 'fail', value: 100.1 }),
    ];
    const changes = checkChanges({ before: ids.map((id) => of(id, {})), after });
    expect(changes.map(({ id }) => id)).toEqual(['fails', 'open', 'warns', 'lost more', 'lost', 'gained', 'same']);
  });
});

describe('what two files state differently', () => {
  const base = 'supply:\n  voltage: 18 V\nloads:\n  - name: idle\n  - name: lamp\n    power: 25 W\n';
  const changes = (
    from: string,
    to: string,
    loads = new Map([
      [0, 0],
      [1, 1],
    ]),
  ): ReturnType<typeof inputChanges> => inputChanges({ before: stated(from), after: stated(to), loads });

  test('a value, with its line on both sides', () => {
    const { changes: found } = changes(base, `# a remark\n${base.replace('25 W', '30 W')}`);
    expect(found.map(({ name, before, after }) => [name, before?.text, before?.at.line, after?.text, after?.at.line])).toEqual([
      ['loads.lamp.power', '25 W', 6, '30 W', 7],
    ]);
  });

  test('another unit, other remarks and another order change nothing', () => {
    const other = '# lamp\nloads:\n  - {name: idle}\n  - {power: 25000 mW, name: lamp}\nsupply: {voltage: 2 * 9 V}\n';
    expect(changes(base, other)).toEqual({ changes: [], rewritten: ['loads.lamp.power', 'supply.voltage'] });
  });

  test('a load by its name wherever it stands; a renamed one by its place', () => {
    expect(loadPairs({ before: ['a', 'b', 'c'], after: ['c', 'x', 'a'] })).toEqual(
      new Map([
        [0, 2],
        [1, 1],
        [2, 0],
      ]),
    );
    const swapped = 'supply:\n  voltage: 18 V\nloads:\n  - name: lamp\n    power: 25 W\n  - name: idle\n';
    expect(
      changes(
        base,
        swapped,
        new Map([
          [0, 1],
          [1, 0],
        ]),
      ).changes,
    ).toEqual([]);
    const renamed = changes(base, base.replace('name: idle', 'name: nothing near'));
    expect(renamed.changes.map(({ name, before, after }) => [name, before?.text, after?.text])).toEqual([
      ['loads.nothing near.name', 'idle', 'nothing near'],
    ]);
  });

  test('what is new and what is gone', () => {
    const { changes: found } = changes(
      base,
      base.replace('  voltage: 18 V', '  voltage: 18 V\n  tolerance: 5 %').replace('    power: 25 W\n', ''),
    );
    expect(found.map(({ name, before, after }) => [name, before?.text, after?.text])).toEqual([
      ['supply.tolerance', undefined, '5 %'],
      ['loads.lamp.power', '25 W', undefined],
    ]);
  });
});

test('numbers that differ by rounding are one', () => {
  expect([differ(1, 1 + 1e-7), differ(1, 1 + 1e-5), differ(null, null), differ(0, null), differ(0, 0), differ(-1, 1)]).toEqual([
    false,
    true,
    false,
    true,
    false,
    true,
  ]);
});

test('quantities of a renamed load are compared with those of its former name', () => {
  const quantity = (load: string, value: number | null) => ({ id: 'drain.peak', case: load, dimension: 'voltage' as const, value });
  const loads = new Map([['lamp', 'lantern']]);
  const found = quantityChanges({ before: [quantity('lantern', 50)], after: [quantity('lamp', 60), quantity('extra', 70)], loads });
  expect(found.map(({ case: load, before, after, by }) => [load, before?.value, after?.value, by])).toEqual([
    ['lamp', 50, 60, expect.closeTo(0.2, 12)],
    ['extra', undefined, 70, null],
  ]);
});

describe('a project against itself with one change', () => {
  const pad = projectOf(measuredPad);

  test('nothing where nothing changed, however it is written', () => {
    expect(isSame(comparison({ before: pad, after: pad }))).toBe(true);
    const written = projectOf(`# remark\n${measuredPad}`);
    expect(isSame(comparison({ before: pad, after: written }))).toBe(true);
    const found = comparison({ before: projectOf(example('bolt-heater')), after: projectOf(example('bolt-heater')) });
    expect([found.change, isSame(found)]).toEqual(['none', true]);
  });

  test('every margin that moved is told with both numbers, and the change is named', () => {
    const [, voltage] = /voltage: (\S+) V/.exec(measuredPad)!;
    const after = projectOf(edited(measuredPad, [`voltage: ${voltage!} V`, 'voltage: 40 V']));
    const { inputs, checks, change } = comparison({ before: pad, after });
    expect(inputs.changes.map(({ name, before, after: now }) => [name, before?.text, now?.text])).toEqual([
      ['supply.voltage', `${voltage!} V`, '40 V'],
    ]);
    expect(change).toBe('worse');
    expect(checks.map(({ id }) => id).toSorted()).toEqual(pad.results.map(({ id }) => id).toSorted());
    for (const { id, before, after: now, fate } of checks) {
      expect(before).toEqual(pad.results.find((result) => result.id === id));
      expect(now).toEqual(after.results.find((result) => result.id === id));
      if (before!.value === now!.value && before!.verdict === now!.verdict && before!.limit === now!.limit)
        expect(['same', 'moved']).toContain(fate);
      else expect(fate).not.toBe('same');
    }
  });

  test('back again is the reverse', () => {
    const other = projectOf(edited(measuredPad, ['parallel: 8', 'parallel: 7']));
    const [there, back] = [comparison({ before: pad, after: other }), comparison({ before: other, after: pad })];
    const lost = ({ checks }: typeof there): ReadonlyMap<string, number | null> => new Map(checks.map((check) => [check.id, check.lost]));
    for (const [id, room] of lost(there)) {
      const other = lost(back).get(id)!;
      if (room === null) expect(other).toBeNull();
      else expect(other).toBeCloseTo(-room, 9);
    }
  });
});
