import { expect, test } from 'vitest';
import { leastSquares } from '../../src/physics/least-squares.ts';

test('a mean of equal weights is the arithmetic one, its variance σ²/n', () => {
  const fit = leastSquares({ model: ([x = 0]) => [x, x, x, x], measured: [1, 2, 3, 6], sigmas: [2, 2, 2, 2], priors: [1e6] })!;
  expect(fit.parameters[0]).toBeCloseTo(3, 6);
  expect(fit.covariance[0]![0]).toBeCloseTo(1, 6);
});

test('a straight line through points without noise is found, with the covariance of the normal equations', () => {
  const at = [0, 1, 2, 3];
  const fit = leastSquares({
    model: ([a = 0, b = 0]) => at.map((t) => a + b * t),
    measured: at.map((t) => 0.3 - 0.2 * t),
    sigmas: at.map(() => 1),
    priors: [1e6, 1e6],
  })!;
  expect(fit.parameters[0]).toBeCloseTo(0.3, 6);
  expect(fit.parameters[1]).toBeCloseTo(-0.2, 6);
  // Σ1 = 4, Σt = 6, Σt² = 14: inverse of [[4, 6], [6, 14]]
  expect(fit.covariance[0]![0]).toBeCloseTo(14 / 20, 6);
  expect(fit.covariance[0]![1]).toBeCloseTo(-6 / 20, 6);
});

test('a product alone leaves the two factors as far apart as their priors do', () => {
  const fit = leastSquares({ model: ([a = 0, b = 0]) => [a + b], measured: [0.3], sigmas: [1e-3], priors: [0.1, 0.2] })!;
  // the deviation is shared as the squares of the priors
  expect(fit.parameters[0]).toBeCloseTo(0.3 * (0.01 / 0.05), 4);
  expect(fit.parameters[1]).toBeCloseTo(0.3 * (0.04 / 0.05), 4);
  const [[a, ab], [, b]] = fit.covariance as [[number, number], [number, number]];
  expect(Math.sqrt(a + b + 2 * ab)).toBeCloseTo(1e-3, 5);
});

test('steps are halved until the cost falls: a model that is far from straight', () => {
  const fit = leastSquares({ model: ([x = 0]) => [Math.atan(8 * x)], measured: [Math.atan(8)], sigmas: [1e-4], priors: [1e3] })!;
  expect(fit.parameters[0]).toBeCloseTo(1, 3);
});

test('a model without a value at the start gives no fit', () => {
  expect(leastSquares({ model: () => undefined, measured: [1], sigmas: [1], priors: [1] })).toBeUndefined();
  expect(leastSquares({ model: () => [Number.NaN], measured: [1], sigmas: [1], priors: [1] })).toBeUndefined();
});
