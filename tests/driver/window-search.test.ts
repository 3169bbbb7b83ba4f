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

describe('the window of a quantity around a value', () => {
  test('has ends that hold, each within the precision of one that does not', () => {
    const random = numbers(1);
    for (let run = 0; run < 300; run++) {
      const [a, b] = [100 * random.next().value, 100 * random.next().value].toSorted((x, y) => x - y) as [number, number];
      const isWell = (x: number): boolean => x >= a && x <= b;
      const window = windowSearch({ isWell, grid, from: grid[run % grid.length]!, precision: 0.05 });
      if (window === undefined) {
        expect(grid.some(isWell)).toBe(false);
        continue;
      }
      expect(window.shortest).toBeGreaterThanOrEqual(a);
      expect(window.longest).toBeLessThanOrEqual(b);
      expect(window.badBelow).toBeLessThan(a);
      expect(window.shortest / window.badBelow!).toBeLessThanOrEqual(window.badBelow === 0 ? Infinity : 1.05);
      if (b < 99) expect(window.badAbove! / window.longest).toBeLessThanOrEqual(1.05);
    }
  });

  test('lies on the side of a hole on which the value lies, and above a value that is in it', () => {
    const isWell = (x: number): boolean => x < 3 || x > 30;
    expect(windowSearch({ isWell, grid, from: 50, precision: 0.01 })).toMatchObject({ longest: 100 });
    expect(windowSearch({ isWell, grid, from: 50, precision: 0.01 })!.shortest).toBeCloseTo(30, -1);
    expect(windowSearch({ isWell, grid, from: 1, precision: 0.01 })).toMatchObject({ shortest: 0 });
    expect(windowSearch({ isWell, grid, from: 1, precision: 0.01 })!.longest).toBeCloseTo(3, 1);
    expect(windowSearch({ isWell, grid, from: 10, precision: 0.01 })).toMatchObject({ longest: 100 });
  });

  test('is open where the end of the grid is well, and is none where nothing is', () => {
    expect(windowSearch({ isWell: () => true, grid, from: 5, precision: 0.05 })).toEqual({ shortest: 0, longest: 100 });
    expect(windowSearch({ isWell: () => false, grid, from: 5, precision: 0.05 })).toBeUndefined();
  });

  test('is open where a higher value may not be tried or cannot be told, and says nothing of it', () => {
    const asked: number[] = [];
    const isWell = (x: number): boolean => (asked.push(x), true);
    expect(windowSearch({ isWell, grid, from: 5, precision: 0.05, mayClimb: (x) => x <= 20 })).toEqual({ shortest: 0, longest: 20 });
    expect(Math.max(...asked)).toBe(20);
    expect(windowSearch({ isWell: (x) => (x > 20 ? undefined : true), grid, from: 5, precision: 0.05 })).toEqual({
      shortest: 0,
      longest: 20,
    });
    expect(windowSearch({ isWell: (x) => (x > 20 ? undefined : x < 4), grid, from: 5, precision: 0.5 })).toMatchObject({
      shortest: 0,
      badAbove: 5,
    });
    expect(windowSearch({ isWell: () => undefined, grid, from: 5, precision: 0.05 })).toBeUndefined();
  });

  test('comes to an end where only zero is bad, and where it may not go on', () => {
    const fromZero = windowSearch({ isWell: (x) => x > 0, grid, from: 5, precision: 0.05 })!;
    expect(fromZero.badBelow).toBe(0);
    expect(fromZero.shortest).toBeLessThan(0.05);
    const held = windowSearch({ isWell: (x) => x >= 3 && x < 40, grid, from: 1, precision: 0.05, mayRefine: () => false });
    expect(held).toMatchObject({ shortest: 5, longest: 20, badBelow: 2, badAbove: 50 });
  });
});
