import { expect, test } from 'vitest';
import { rampStallTime, stepStallRatio } from '../../src/physics/start-stall.ts';
import { near } from './near.ts';

const base = {
  voltage: 24,
  tankInductance: 2e-6,
  chokeInductance: 100e-6,
  seenInductance: 50e-6,
  quality: 10,
  period: 12.6e-6,
  channelConstant: 8,
};

test('a stall comes nearer with a larger coil, a lower Q and a stronger switch, and goes with larger chokes', () => {
  const at = (changes: Partial<typeof base>): number => stepStallRatio({ ...base, ...changes });
  near(at({ tankInductance: 4e-6 }), 2 * at({}));
  expect(at({ quality: 3 })).toBeGreaterThan(at({}));
  near(at({ channelConstant: 32 }), 2 * at({}));
  expect(at({ chokeInductance: 200e-6, seenInductance: 100e-6 })).toBeLessThan(at({}));
});

test('the design that stalled in a time-domain model at 236 V instead of 143 V is foreseen, those that ran cleanly are not', () => {
  // columns: V, L, Lc/L, Q, C; own time-domain runs, K = 8 A/V²
  const ratio = ([V, L, C, Q]: readonly [number, number, number, number]): number =>
    stepStallRatio({
      voltage: V,
      tankInductance: L,
      chokeInductance: 100e-6,
      seenInductance: 50e-6,
      quality: Q,
      period: 2 * Math.PI * Math.sqrt(L * C),
      channelConstant: 8,
    });
  expect(ratio([36, 10e-6, 0.33e-6, 5])).toBeGreaterThan(0.8);
  for (const clean of [
    [18, 1.8e-6, 2.4e-6, 15],
    [24, 2e-6, 2e-6, 10],
    [24, 5e-6, 0.33e-6, 30],
    [36, 2e-6, 4e-6, 40],
    [30, 3e-6, 1e-6, 8],
  ] as const) {
    expect(ratio(clean)).toBeLessThan(0.65);
  }
});

test('the rise time that avoids a stall grows with the square of L/Lc', () => {
  near(rampStallTime({ ...base, tankInductance: 4e-6 }), 4 * rampStallTime(base));
});
