import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { preferredValue, preferredValuesE24 } from '../../src/physics/preferred-values.ts';
import { tankPeakVoltage } from '../../src/physics/push-pull.ts';
import { partNames, partOf } from '../parts-db/part-files.ts';
import { measuredPad, quantity } from '../checks/reviewed.ts';
import { checkValues, expected, row, siList } from './check-values.ts';
import { near } from './near.ts';

const values = (id: string, name: string): unknown => row(id).expected[name];
const mosfets = partNames('mosfets').map((name) => partOf('mosfets', name));

describe('parts-db stands where published figures put it', () => {
  test('D-tand-film, D-tand-guide: a polypropylene capacitor loses more than its film, and at most about the guide value of its size', () => {
    const [film] = siList(row('D-tand-film').expected['PP']!).slice(-1);
    const [guide] = siList(row('D-tand-guide').expected['PP']!).slice(-1);
    for (const name of partNames('capacitors')) {
      const part = partOf('capacitors', name);
      if (part.dielectric !== 'polypropylene') continue;
      const at100kHz = part.lossTangent!.points.at(-1)!.rating.value;
      expect(at100kHz).toBeGreaterThan(film!);
      expect(at100kHz).toBeLessThan(3 * guide!);
    }
  });
  test('D-ac-frequency: no part carries its dc voltage as ac', () => {
    expect(row('D-ac-frequency').known).toBe('read');
    for (const name of partNames('capacitors')) {
      const { voltageAc, voltageDc } = partOf('capacitors', name).ratings;
      expect(voltageAc!.value).toBeLessThan(voltageDc!.value);
    }
  });
  test('E-rth-to220, E-rth-sot78: TO-220 in free air 60 to 62.5 K/W and more, greased 0.5 K/W', () => {
    expect(row('E-rth-to220').known).toBe('read');
    for (const { package: outline, ratings } of mosfets) {
      if (!outline?.startsWith('TO-220')) continue;
      expect(ratings.junctionToAmbient!.value).toBeGreaterThanOrEqual(expected('E-rth-sot78', 'RthJA'));
      expect(ratings.caseToSink!.value).toBe(expected('E-rth-to220', 'RthCS_greased'));
    }
  });
  test('E-rth-to247: TO-247 greased 0.24 K/W', () => {
    for (const { package: outline, ratings } of mosfets)
      if (outline?.startsWith('TO-247')) expect(ratings.caseToSink!.value).toBe(expected('E-rth-to247', 'RthCS_greased'));
  });
  test('E-bodydiode: no body diode drops less than a silicon junction', () => {
    for (const { ratings } of mosfets) expect(ratings.bodyDiodeVoltage!.value).toBeGreaterThan(0.7);
  });
  test('E-trr-classes, E-trr-def: rectifiers recover in the time of their class', () => {
    const recovery = (name: string): number => partOf('diodes', name).ratings.recoveryTime!.value;
    expect(recovery('1N4007')).toBeGreaterThan(500e-9);
    expect(recovery('1N4937')).toBeGreaterThanOrEqual(150e-9);
    expect(recovery('1N4937')).toBeLessThanOrEqual(500e-9);
    for (const name of ['UF4004', 'UF4007', 'MUR160', 'HER108']) {
      expect(recovery(name)).toBeGreaterThanOrEqual(25e-9);
      expect(recovery(name)).toBeLessThanOrEqual(100e-9);
    }
    expect(recovery('1N5822')).toBe(0);
    expect(values('E-trr-def', 'alternatives')).toBe(3);
  });
});

test('D-iec-17-scope: the bank of the charging pad lies in the scope of IEC 60384-17', () => {
  const pad = measuredPad;
  const current = quantity(pad, 'bank.currentPerCapacitor')!;
  const peak = quantity(pad, 'tank.voltagePeak')!;
  expect((current * peak) / Math.SQRT2).toBeLessThan(expected('D-iec-17-scope', 'var_max'));
  expect(peak).toBeLessThan(expected('D-iec-17-scope', 'Vpk_max'));
});

test('D-e24: preferred values of IEC 60063:2015, not rounded powers', () => {
  const published = siList(row('D-e24').expected['E24']!);
  expect([...preferredValuesE24]).toEqual(published);
  const rounded = published.map((_, i) => Math.round(10 * 10 ** (i / 24)));
  expect(published.filter((value, i) => value !== rounded[i])).toEqual([27, 30, 33, 36, 39, 43, 47, 82]);
  for (const value of published) {
    near(preferredValue({ value: value * 10, side: 'below' }), value * 10);
    near(preferredValue({ value: value * 1e-3, side: 'above' }), value * 1e-3);
  }
  near(preferredValue({ value: 99, side: 'above' }), 100);
});

test('A-halfsine-harmonics: π is the ratio of a half-sine’s peak to its mean', () => {
  const steps = 100_000;
  let mean = 0;
  for (let i = 0; i < steps; i++) mean += Math.max(0, Math.sin((2 * Math.PI * (i + 0.5)) / steps)) / steps;
  near(mean, expected('A-halfsine-harmonics', 'mean'), 1e-8);
  near(tankPeakVoltage({ voltage: mean, current: 0, dropResistance: 0, peakFactor: 1 }), 1, 1e-8);
});

/** Rows that state no number that the tool computes yet. */
const notComputed: Readonly<Record<string, string>> = {
  'A-zvs-why': 'names the waveforms of the circuit',
  'D-iec-titles': 'titles of standards',
  'D-e96': 'no remedy names a value finer than E24',
  'E-insulator': 'the insulator is an input',
  'E-qrr': 'recovery charge is not used',
};

test('every row of topics A, D, E, F and the touch-voltage rows is named in a test, or says why not', () => {
  const texts = readdirSync(import.meta.dirname)
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => readFileSync(join(import.meta.dirname, name), 'utf8'))
    .join('\n');
  const rows = checkValues.map(({ id }) => id).filter((id) => /^[ADEF]-|^H-62368|^H-60950/.test(id));
  expect(rows.length).toBeGreaterThan(60);
  const unnamed = rows.filter(
    (id) => !texts.includes(id) || (id in notComputed && !texts.replace(new RegExp(`'${id}': `), '').includes(id)),
  );
  expect(unnamed.toSorted()).toEqual(Object.keys(notComputed).toSorted());
});
