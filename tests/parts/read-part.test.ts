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

describe('capacitances over drain voltage', () => {
  const given = part(
    'mosfets',
    'outputCapacitance: {source: class, note: n, at: {frequency: 1 MHz}, 50 V: 200 pF, 0 V: {value: 2 nF, source: data sheet}, 20 V: 400 pF}',
  );

  test('points are sorted by voltage and share source, conditions and note', () => {
    expect(given.overVoltage?.outputCapacitance?.points).toMatchObject([
      { voltage: 0, rating: { value: 2e-9, source: 'data sheet', note: 'n', at: { frequency: 1e6 } } },
      { voltage: 20, rating: { value: 4e-10, source: 'class', note: 'n', at: { frequency: 1e6 } } },
      { voltage: 50, rating: { value: 2e-10, source: 'class', note: 'n', at: { frequency: 1e6 } } },
    ]);
  });

  test('the rest of the program has the point at or nearest 25 V, the lower of two as near', () => {
    expect(given.ratings.outputCapacitance).toMatchObject({ value: 4e-10, source: 'class', at: { frequency: 1e6, drainVoltage: 20 } });
    const at25 = part('mosfets', 'reverseTransferCapacitance: {0 V: 1 nF, 25 V: 90 pF, 26 V: 89 pF}');
    expect(at25.ratings.reverseTransferCapacitance?.value).toBeCloseTo(90e-12, 20);
    const tied = part('mosfets', 'reverseTransferCapacitance: {30 V: 80 pF, 20 V: 100 pF}');
    expect(tied.ratings.reverseTransferCapacitance?.value).toBeCloseTo(100e-12, 20);
  });

  test('one value is no point', () => {
    expect(part('mosfets', 'outputCapacitance: {value: 300 pF, at: {drainVoltage: 25 V}}').overVoltage).toBeUndefined();
    expect(part('mosfets', 'outputCapacitance: 300 pF').ratings.outputCapacitance?.value).toBeCloseTo(3e-10, 20);
  });

  test('a rise of what reading a curve is off by is none, Crss may reach Coss, and may be given where Coss is not', () => {
    expect(part('mosfets', 'outputCapacitance: {50 V: 200 pF, 60 V: 209 pF}').overVoltage?.outputCapacitance?.points).toHaveLength(2);
    const equal = 'outputCapacitance: {20 V: 100 pF}\nreverseTransferCapacitance: {10 V: 400 pF, 20 V: 100 pF}';
    expect(part('mosfets', equal).overVoltage?.reverseTransferCapacitance?.points).toHaveLength(2);
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
    ['a repeated voltage', 'mosfets', headed('mosfets', 'outputCapacitance: {1 V: 2 nF, 1000 mV: 1 nF}'), ['repeated-voltage 3:32']],
    ['a value beside voltages', 'mosfets', headed('mosfets', 'outputCapacitance: {value: 1 nF, 1 V: 1 nF}'), ['contradiction 3:21']],
    ['capacitances without a point', 'mosfets', headed('mosfets', 'outputCapacitance: {source: class}'), ['missing-key 3:20']],
    ['capacitances over frequency', 'mosfets', headed('mosfets', 'outputCapacitance: {1 MHz: 1 nF}'), ['wrong-unit 3:21']],
    ['a drain voltage below zero', 'mosfets', headed('mosfets', 'outputCapacitance: {-1 V: 1 nF}'), ['out-of-range 3:21']],
    ['a point of another dimension', 'mosfets', headed('mosfets', 'outputCapacitance: {1 V: 1 nC}'), ['wrong-unit 3:26']],
    ['a point without unit', 'mosfets', headed('mosfets', 'outputCapacitance: {1 V: 300}'), ['bare-number 3:26']],
    ['a capacitance that rises', 'mosfets', headed('mosfets', 'outputCapacitance: {1 V: 1 nF, 9 V: 1.06 nF}'), ['contradiction 3:37']],
    [
      'a capacitance that creeps up',
      'mosfets',
      headed('mosfets', 'outputCapacitance: {1 V: 100 pF, 2 V: 104 pF, 3 V: 108 pF}'),
      ['contradiction 3:52'],
    ],
    [
      'a part of the output capacitance above the whole',
      'mosfets',
      headed('mosfets', 'outputCapacitance: {1 V: 300 pF, 9 V: 90 pF}\nreverseTransferCapacitance: {1 V: 300 pF, 25 V: 91 pF}'),
      ['contradiction 4:49'],
    ],
    ['a loss tangent of one', 'capacitors', headed('capacitors', 'lossTangent: 1'), ['out-of-range 3:14']],
    ['an unknown cooling', 'capacitors', headed('capacitors', 'thermalResistance: {water: 1 K/W}'), ['unknown-key 3:21']],
    ['a tolerance of 100 %', 'zeners', headed('zeners', 'tolerance: 100 %'), ['over-hundred-percent 3:12']],
    ['a tolerance of 51 %', 'capacitors', headed('capacitors', 'tolerance: 51 %'), ['out-of-range 3:12']],
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
