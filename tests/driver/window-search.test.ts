import { describe, expect, test } from 'vitest';
import { windowSearch } from '../../src/driver/window-search.ts';

/** Pseudo-random numbers in [0, 1) from a seed: a linear congruence (Numerical Recipes, "quick and dirty"). */
function* numbers(seed: number): Generator<number, never> {
  let state = seed;
  for (;;) {
    state = (1664525 * state + 1013904223) % 2 ** 32;
    yield state / 2 ** 32;
  }
}

const grid = [0, 1, 2, 5, 10, 20, 50, 100];

describe('the highest window of a quantity', () => {
  test('has ends that hold, each within the precision of one that does not', () => {
    const random = numbers(1);
    for (let run = 0; run < 200; run++) {
      const [a, b] = [100 * random.next().value, 100 * random.next().value].toSorted((x, y) => x - y) as [number, number];
      const isWell = (x: number): boolean => x >= a && x <= b;
      const window = windowSearch({ isWell, grid, precision: 0.05 });
      if (window === undefined) {
        expect(grid.some(isWell)).toBe(false);
        continue;
      }
      expect(window.shortest).toBeGreaterThanOrEqual(a);
      expect(window.longest).toBeLessThanOrEqual(b);
      expect(window.badBelow).toBeLessThan(a);
      expect(window.shortest / window.badBelow!).toBeLessThanOrEqual(window.badBelow === 0 ? Infinity : 1.05);
      if (window.badAbove !== undefined) expect(window.badAbove / window.longest).toBeLessThanOrEqual(1.05);
    }
  });

  test('ends above a hole, and says that there is more below it', () => {
    const isWell = (x: number): boolean => x < 3 || x > 30;
    expect(windowSearch({ isWell, grid, precision: 0.01 })).toMatchObject({ longest: 100, isBroken: true });
    expect(windowSearch({ isWell, grid, precision: 0.01 })!.shortest).toBeCloseTo(30, -1);
    expect(windowSearch({ isWell: (x) => x > 30, grid, precision: 0.01 })!.isBroken).toBe(false);
  });

  test('is open where the end of the grid is well, and is none where nothing is', () => {
    expect(windowSearch({ isWell: () => true, grid, precision: 0.05 })).toEqual({ shortest: 0, longest: 100, isBroken: false });
    expect(windowSearch({ isWell: () => false, grid, precision: 0.05 })).toBeUndefined();
  });

  test('comes to an end where only zero is bad, and where it may not go on', () => {
    const fromZero = windowSearch({ isWell: (x) => x > 0, grid, precision: 0.05 })!;
    expect(fromZero.badBelow).toBe(0);
    expect(fromZero.shortest).toBeLessThan(0.05);
    const held = windowSearch({ isWell: (x) => x >= 3 && x < 40, grid, precision: 0.05, mayGoOn: () => false });
    expect(held).toMatchObject({ shortest: 5, longest: 20, badBelow: 2, badAbove: 50 });
  });

  test('asks for no value twice in a row of its ends', () => {
    const asked: number[] = [];
    windowSearch({ isWell: (x) => (asked.push(x), x >= 3 && x < 40), grid, precision: 0.05 });
    expect(new Set(asked).size).toBe(asked.length);
  });
});
