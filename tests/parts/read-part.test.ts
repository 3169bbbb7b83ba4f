import { describe, expect, test } from 'vitest';
import type { PartByKind, PartKind } from '../../src/parts/part.ts';
import { readPart } from '../../src/parts/read-part.ts';

function part<K extends PartKind>(kind: K, body: string): PartByKind[K] {
  const outcome = readPart({ text: `tankproofPart: 1\nkind: ${kind}\n${body}`, path: 'p.yaml', kind, name: 'p' });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

function refusals(kind: PartKind, text: string): readonly string[] {
  const outcome = readPart({ text, path: 'p.yaml', kind, name: 'P1' });
  return outcome.ok ? [] : outcome.problems.map(({ id, at }) => `${id} ${at?.line}:${at?.column}`);
}

const headed = (kind: PartKind, line: string): string => `tankproofPart: 1\nkind: ${kind}\n${line}\n`;

describe('ratings', () => {
  test('a rating keeps value, source, note, conditions and place', () => {
    const { ratings } = part('mosfets', 'gateCharge: {value: 123 nC, source: data sheet, at: {gateVoltage: 10 V}, note: largest}');
    expect(ratings.gateCharge).toEqual({
      value: expect.closeTo(123e-9, 15) as number,
      source: 'data sheet',
      note: 'largest',
      at: { gateVoltage: 10 },
      where: { path: 'p.yaml', line: 3, column: 21, offset: 51, length: 6 },
    });
  });

  test('a rating without a source has the source project', () => {
    expect(part('mosfets', 'drainVoltage: 200 V').ratings.drainVoltage).toMatchObject({ value: 200, source: 'project' });
  });

  test('temperatures are absolute, rises are not', () => {
    const { ratings } = part('capacitors', 'maxTemperature: 105 degC\nmaxRise: 15 K');
    expect(ratings.maxTemperature?.value).toBeCloseTo(378.15, 9);
    expect(ratings.maxRise?.value).toBe(15);
  });

  test('the on-resistance carries the point it was measured at, whatever the order of keys', () => {
    const { ratings } = part(
      'mosfets',
      'onResistanceAt: {gateVoltage: 10 V, drainCurrent: 18 A}\nonResistance: {value: 75 mohm, at: {temperature: 25 degC}}',
    );
    expect(ratings.onResistance?.at).toEqual({ gateVoltage: 10, drainCurrent: 18, temperature: 298.15 });
    expect(Object.keys(ratings)).toEqual(['onResistance']);
  });

  test.each([['at: 10 mA'], ['at: {current: 10 mA}'], ['at: {forwardCurrent: 10 mA}']])(
    'a forward drop with %s is given at 10 mA',
    (at) => {
      const { ratings } = part('diodes', `forwardVoltage: {value: 1 V, ${at}}`);
      expect(ratings.forwardVoltage?.at?.['forwardCurrent']).toBeCloseTo(0.01, 12);
      expect(ratings.forwardVoltage?.at).not.toHaveProperty('current');
    },
  );

  test('ratios may be plain numbers, text or percentages', () => {
    for (const text of ['0.002', '"0.002"', '0.2 %', '{value: 0.002}', '{value: 0.2 %}'])
      expect(part('capacitors', `lossTangent: ${text}`).lossTangent?.points[0]?.rating.value, text).toBeCloseTo(0.002, 12);
  });

  test('the case of a MOSFET and the size of a capacitor are kept as text', () => {
    expect(part('mosfets', 'package: TO-247AC\ntitle: t\nnote: n')).toMatchObject({ package: 'TO-247AC', title: 't', note: 'n' });
    expect(part('capacitors', 'dielectric: mica\nsize: 18 x 8 mm')).toMatchObject({ dielectric: 'mica', size: '18 x 8 mm' });
  });

  test('a part without a note has no property for it', () => expect(part('zeners', 'power: 1 W')).not.toHaveProperty('note'));
});

describe('loss tangent', () => {
  test('one value is one point at frequency zero', () => {
    expect(part('capacitors', 'lossTangent: 0.001').lossTangent?.points.map(({ frequency }) => frequency)).toEqual([0]);
    expect(part('capacitors', 'lossTangent: 0.001').ratings).toEqual({});
  });

  test('points are sorted by frequency and share source and note', () => {
    const { lossTangent } = part(
      'capacitors',
      'lossTangent: {source: class, note: n, 100 kHz: 0.002, 1 kHz: {value: 0.0005, source: data sheet}}',
    );
    expect(lossTangent?.points).toMatchObject([
      { frequency: 1e3, rating: { value: 0.0005, source: 'data sheet', note: 'n' } },
      { frequency: 1e5, rating: { value: 0.002, source: 'class', note: 'n' } },
    ]);
  });
});

test('equal limits are no contradiction', () => {
  expect(part('mosfets', 'thresholdMin: 3 V\nthresholdTypical: 3 V\nthresholdMax: 3 V').ratings.thresholdMax?.value).toBe(3);
  expect(part('capacitors', 'voltageAc: 400 V\nvoltageDc: 400 V').ratings.voltageAc?.value).toBe(400);
});

test('thermal resistances of a capacitor are told apart by cooling', () => {
  const { thermalResistance } = part('capacitors', 'thermalResistance: {still air: 40 K/W, fan: {value: 20 K/W, source: class}}');
  expect(thermalResistance).toMatchObject({ stillAir: { value: 40, source: 'project' }, fan: { value: 20, source: 'class' } });
});

describe('refusals', () => {
  test.each<[string, PartKind, string, readonly string[]]>([
    ['a file of another kind', 'mosfets', headed('diodes', 'reverseVoltage: 400 V'), ['wrong-kind 2:7']],
    ['an unknown kind', 'mosfets', 'tankproofPart: 1\nkind: mosfet\n', ['unknown-word 2:7']],
    ['no kind', 'mosfets', 'tankproofPart: 1\ndrainVoltage: 200 V\n', ['missing-key 1:1']],
    ['no version', 'mosfets', 'kind: mosfets\n', ['missing-key 1:1']],
    ['another version', 'mosfets', 'tankproofPart: 2\nkind: mosfets\n', ['unsupported-version 1:16']],
    ['a text instead of a mapping', 'mosfets', 'IRFP250N\n', ['wrong-type 1:1']],
    ['a list', 'mosfets', '- a\n', ['wrong-type 1:1']],
    ['an unknown key', 'mosfets', headed('mosfets', 'drainVolts: 200 V'), ['unknown-key 3:1']],
    ['a bare number', 'mosfets', headed('mosfets', 'drainVoltage: 200'), ['bare-number 3:15']],
    ['a bare number in a mapping', 'mosfets', headed('mosfets', 'drainVoltage: {value: 200}'), ['bare-number 3:23']],
    ['the wrong unit', 'mosfets', headed('mosfets', 'drainVoltage: 200 A'), ['wrong-unit 3:15']],
    ['an unknown source', 'mosfets', headed('mosfets', 'drainVoltage: {value: 200 V, source: datasheet}'), ['unknown-word 3:38']],
    ['a rating without value', 'mosfets', headed('mosfets', 'drainVoltage: {source: class}'), ['missing-key 3:1']],
    ['an unknown condition', 'mosfets', headed('mosfets', 'gateCharge: {value: 1 nC, at: {gateVolts: 1 V}}'), ['unknown-key 3:32']],
    ['nothing after the key', 'mosfets', headed('mosfets', 'drainVoltage:'), ['no-value 3:1']],
    ['zero where it cannot be', 'mosfets', headed('mosfets', 'onResistance: 0 ohm'), ['out-of-range 3:15']],
    ['zero in a mapping', 'mosfets', headed('mosfets', 'onResistance: {value: 0 ohm}'), ['out-of-range 3:23']],
    ['thresholds mixed up', 'mosfets', headed('mosfets', 'thresholdMin: 4 V\nthresholdMax: 2 V'), ['contradiction 3:15']],
    ['a typical threshold outside', 'mosfets', headed('mosfets', 'thresholdTypical: 5 V\nthresholdMax: 4 V'), ['contradiction 3:19']],
    ['an ac rating above the dc rating', 'capacitors', headed('capacitors', 'voltageDc: 100 V\nvoltageAc: 250 V'), ['contradiction 4:12']],
    ['a repeated frequency', 'capacitors', headed('capacitors', 'lossTangent: {1 kHz: 0.1, 1000 Hz: 0.2}'), ['repeated-frequency 3:27']],
    ['a value beside frequencies', 'capacitors', headed('capacitors', 'lossTangent: {value: 0.1, 1 kHz: 0.2}'), ['contradiction 3:15']],
    ['a curve without a point', 'capacitors', headed('capacitors', 'lossTangent: {source: class}'), ['missing-key 3:14']],
    ['a curve with a voltage as frequency', 'capacitors', headed('capacitors', 'lossTangent: {1 V: 0.1}'), ['wrong-unit 3:15']],
    ['a loss tangent of one', 'capacitors', headed('capacitors', 'lossTangent: 1'), ['out-of-range 3:14']],
    ['an unknown cooling', 'capacitors', headed('capacitors', 'thermalResistance: {water: 1 K/W}'), ['unknown-key 3:21']],
    ['a tolerance of 100 %', 'zeners', headed('zeners', 'tolerance: 100 %'), ['over-hundred-percent 3:12']],
    ['two mistakes, in file order', 'zeners', headed('zeners', 'tolerance: 5 V\npower: 1'), ['wrong-unit 3:12', 'bare-number 4:8']],
  ])('%s', (_fact, kind, text, expected) => expect(refusals(kind, text)).toEqual(expected));

  test('a key of another kind of part is unknown, and the message is about a part file', () => {
    const outcome = readPart({ text: headed('zeners', 'drainVoltage: 1 V'), path: 'p.yaml', kind: 'zeners', name: 'p' });
    expect(outcome).toMatchObject({ ok: false, problems: [{ message: '`drainVoltage` is not a key of a part file' }] });
  });

  test('the message of a wrong kind names both kinds', () => {
    const outcome = readPart({ text: headed('diodes', 'note: n'), path: 'p.yaml', kind: 'mosfets', name: 'UF4004' });
    expect(outcome).toMatchObject({ ok: false, problems: [{ message: '`UF4004` is a diode, not a MOSFET' }] });
  });
});
