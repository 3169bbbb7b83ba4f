import { describe, expect, test } from 'vitest';
import { bankChecks } from '../../src/checks/bank-checks.ts';
import type { Result } from '../../src/checks/result.ts';
import { edited, example, measuredPad, reviewed, reviewedInTime } from './reviewed.ts';

const ids = bankChecks.map(({ id }) => id);

function bankResults(results: ReadonlyMap<string, Result>): readonly Result[] {
  return ids.flatMap((id) => results.get(id) ?? []);
}

/** The bank that a remedy names, as it is written. */
function namedBank(remedy: string | undefined): { series: number; parallel: number } | undefined {
  const found = /tank\.bank: series: (\d+), parallel: (\d+)/.exec(remedy ?? '');
  return found === null ? undefined : { series: Number(found[1]), parallel: Number(found[2]) };
}

function withBank(text: string, { series, parallel }: { series: number; parallel: number }): string {
  const [bank = ''] = /^ {2}bank:\n(?: {4,}.*\n| *\n)+/m.exec(text) ?? [];
  const changed = bank.replace(/^ {4}series:.*\n/m, '').replace(/^ {4}parallel:.*$/m, `    parallel: ${parallel}\n    series: ${series}`);
  return edited(text, [bank, changed]);
}

describe.each(['bolt-heater', 'barn-charger', 'spark-igniter'])('the remedies of the bank of %s', (name) => {
  const text = example(name);
  const wanting = bankResults(reviewedInTime(text)).filter(({ verdict }) => verdict !== 'pass');
  const named = wanting.map(({ remedy }) => namedBank(remedy));

  test('name one bank', () => {
    expect(wanting.length).toBeGreaterThan(1);
    expect(named[0]).toBeDefined();
    expect(new Set(named.map((bank) => JSON.stringify(bank))).size).toBe(1);
  });
  test('which, written into the file, passes every check of the bank and keeps the capacitance within 10 %', () => {
    const results = bankResults(reviewedInTime(withBank(text, named[0]!)));
    expect(results).toHaveLength(ids.length);
    expect(results.filter(({ verdict }) => verdict !== 'pass').map(({ id }) => id)).toEqual([]);
    const parallel = Number(/^ {4}parallel: (\d+)/m.exec(text)?.[1]);
    expect(Math.abs(named[0]!.parallel / named[0]!.series / parallel - 1)).toBeLessThanOrEqual(0.1 + 1e-9);
  });
});

test('a part that cannot do it is sent to another part, in the same words by every check', () => {
  const remedies = bankResults(reviewed(example('scrap-box-smelter'))).flatMap(({ remedy }) => remedy ?? []);
  expect(remedies.length).toBeGreaterThan(2);
  for (const remedy of remedies) {
    expect(remedy).toContain('no bank of up to 500 of this part holds 2 µF and passes: tankproof bank ');
    expect(remedy).not.toMatch(/fan|moving air/);
  }
});

test('moving air is named only where the part has a figure for it and it is enough', () => {
  const remedyWith = (thermal: string): string => {
    const part = `{capacitance: 100 nF, tolerance: 5 %, voltageDc: 1000 V, voltageAc: 400 V, currentRms: 20 A, lossTangent: {100 kHz: 0.001}, dielectric: polypropylene, maxTemperature: 100 degC, voltageSlope: 5000 V/us, thermalResistance: ${thermal}}`;
    const text = measuredPad.replace(/part: pp-[a-z0-9-]+/, `part: ${part}`);
    return reviewed(text).get('capacitor-self-heating')!.remedy ?? '';
  };
  expect(remedyWith('{still air: 200 K/W}')).not.toContain('moving air');
  expect(remedyWith('{still air: 200 K/W, fan: 190 K/W}')).not.toContain('moving air');
  expect(remedyWith('{still air: 200 K/W, fan: 5 K/W}')).toContain('moving air as it is (tank.bank.cooling: fan)');
});
