import { expect, test } from 'vitest';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { nominal, type RandomDesign } from './random-design.ts';

/** A rail of eight envelope periods; the pair swings from the middle of it on. */
const design: RandomDesign = {
  ...{ L: 2.71e-5, C: 1.19e-6, V: 25.3, coilResistance: 0.633, load: 15.4, arrangement: 'two', riseTime: 4.4e-3 },
  ...{ sourceResistance: 0.0791, choke: 1.3e-3, chokeResistance: 0.0207, onResistance: 0.13, constant: 6.25, threshold: 3.98 },
  ...{ ciss: 7.14e-10, crss: 9.97e-12, coss: 7.97e-11, mismatch: 0.0243, pullUp: 1610, pullDown: 10e3, clamp: 12 },
  ...{ clampResistance: 5.41, rail: 12, hold: false, forwardVoltage: 1.08, limit: 51.1, bulk: null, lead: null },
};

test('a start has no outcome before its rail is up: peaks of the whole rail, by SciPy 1.17.1 LSODA at rtol 1e-7', () => {
  const end = timedStart({ ...nominal(design), pair: { mismatch: design.mismatch, strength: 1, junction: 298.15 } });
  if ('unknown' in end) throw new Error(end.unknown);
  expect(end.outcome).toBe('runs');
  expect(end.at).toBeGreaterThan(design.riseTime);
  expect(end.peaks.drain / 74.502).toBeCloseTo(1, 2);
  expect(end.peaks.supply / 10.878).toBeCloseTo(1, 2);
});
