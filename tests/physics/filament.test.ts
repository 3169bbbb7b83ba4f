import { expect, test } from 'vitest';
import { filamentVoltage, hotOverColdFilament } from '../../src/physics/filament.ts';

const lamp = { ratedVoltage: 24, ratedPower: 21 };
const rated = 21 / 24;

test('a lamp at its rated current has its rated voltage', () => {
  expect(filamentVoltage({ current: rated, ...lamp })).toBeCloseTo(24, 12);
});

test('a little current sees the cold resistance, a twelfth of the hot one', () => {
  expect(filamentVoltage({ current: 1e-3, ...lamp }) / 1e-3).toBeCloseTo(24 ** 2 / 21 / hotOverColdFilament, 9);
});

test('half the current lights it at a quarter of the voltage: its resistance halves', () => {
  expect(filamentVoltage({ current: rated / 2, ...lamp })).toBeCloseTo(6, 12);
});

test('the voltage never falls with the current', () => {
  const voltages = Array.from({ length: 200 }, (_, i) => filamentVoltage({ current: (i * rated) / 100, ...lamp }));
  expect(voltages.every((value, i) => i === 0 || value > voltages[i - 1]!)).toBe(true);
});

test('a lamp without a rating is refused', () => {
  expect(() => filamentVoltage({ current: 1, ratedVoltage: 0, ratedPower: 5 })).toThrow(RangeError);
});
