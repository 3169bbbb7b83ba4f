import { describe, expect, test } from 'vitest';
import { shareInterval } from '../../src/physics/confidence-interval.ts';
import { drawn, randomNumbers } from '../../src/physics/random-numbers.ts';
import { rankCorrelation, ranks } from '../../src/physics/rank-correlation.ts';

describe('random numbers', () => {
  test('are those of the PCG32 demonstration program, seed 42, stream 54 (pcg32-demo, round 1)', () => {
    const next = randomNumbers({ seed: 42, stream: 54 });
    expect(Array.from({ length: 6 }, next)).toEqual([0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e]);
  });

  test('are the same for the same seed, others for another', () => {
    const first = (seed: number): readonly number[] => Array.from({ length: 4 }, randomNumbers({ seed, stream: 1 }));
    expect(first(7)).toEqual(first(7));
    expect(first(7)).not.toEqual(first(8));
    for (const seed of [-1, 0.5, NaN, 2 ** 60]) expect(() => first(seed)).toThrow(RangeError);
  });

  // standard deviation of a uniform one 1/√3, of either end 1, of a normal one cut at 3 standard deviations 0.98658/3 (variance
  // 1 − 2·3·φ(3)/(2Φ(3) − 1) = 0.97334)
  test.each([
    ['uniform', 1 / Math.sqrt(3)],
    ['limit', 1],
    ['normal', Math.sqrt(0.97334) / 3],
  ] as const)('drawn as %s lie within the limits, with mean 0 and standard deviation %d', (as, deviation) => {
    const next = randomNumbers({ seed: 1, stream: 1 });
    const values = Array.from({ length: 40_000 }, () => drawn({ as, next }));
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);
    expect(Math.abs(mean)).toBeLessThan((4 * deviation) / 200);
    expect(Math.abs(spread / deviation - 1)).toBeLessThan(0.02);
    expect(values.every((value) => Math.abs(value) <= 1)).toBe(true);
  });
});

// Newcombe 1998, Statistics in Medicine 17, 857–872, table I, method 3 (score without continuity correction), from memory
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('%d of %d has the score interval %d to %d', (count, of, lower, upper) => {
  const interval = shareInterval({ count, of });
  expect(interval.lower).toBeCloseTo(lower, 4);
  expect(interval.upper).toBeCloseTo(upper, 4);
});

test('at none and at all of a sample the interval has one end there and the other within', () => {
  for (const of of [1, 10, 10_000]) {
    const [none, all] = [shareInterval({ count: 0, of }), shareInterval({ count: of, of })];
    expect([none.lower, all.upper]).toEqual([0, 1]);
    expect(none.upper).toBeGreaterThan(0);
    expect(none.upper).toBeLessThan(1);
    expect(all.lower).toBeCloseTo(1 - none.upper, 12);
  }
  expect(() => shareInterval({ count: 2, of: 1 })).toThrow(RangeError);
});

describe('rank correlation', () => {
  const correlation = (first: readonly number[], second: readonly number[]): number =>
    rankCorrelation({ first: ranks({ values: first }), second: ranks({ values: second }) });

  test('is one for any rising curve, minus one for a falling one, none for a constant', () => {
    const x = [0.1, 0.5, 2, 3, 8, 9];
    expect(correlation(x, x.map(Math.exp))).toBeCloseTo(1, 12);
    expect(
      correlation(
        x,
        x.map((value) => 1 / value),
      ),
    ).toBeCloseTo(-1, 12);
    expect(
      correlation(
        x,
        x.map(() => 4),
      ),
    ).toBe(0);
  });

  test('without ties is 1 − 6·Σd²/(n·(n² − 1))', () => {
    const [a, b] = [
      [1, 2, 3, 4, 5, 6, 7],
      [2, 1, 4, 7, 3, 5, 6],
    ] as const;
    const squares = a.reduce((sum, rank, i) => sum + (rank - b[i]!) ** 2, 0);
    expect(correlation(a, b)).toBeCloseTo(1 - (6 * squares) / (7 * 48), 12);
  });

  test('ties share their mean rank, a failure without number comes first', () => {
    expect([...ranks({ values: [3, -Infinity, 3, 1] })]).toEqual([3.5, 1, 3.5, 2]);
  });
});
