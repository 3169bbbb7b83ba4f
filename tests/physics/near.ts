import { expect } from 'vitest';

/** Asserts relative agreement; against zero, absolute agreement. */
export function near(actual: number, wanted: number, tolerance = 1e-9): void {
  const scale = wanted === 0 ? 1 : Math.abs(wanted);
  expect(Math.abs(actual - wanted) / scale, `${actual} against ${wanted}`).toBeLessThanOrEqual(tolerance);
}
