import { describe, expect, test } from 'vitest';
import type { Equations } from '../../src/driver/time-domain/equations.ts';
import { follow } from '../../src/driver/time-domain/solver.ts';
import { junctionChargeOf } from '../../src/physics/junction-charge.ts';
import { storageOf } from './stored-charge.ts';

// a coil across a junction that is charged to 60 V: a smooth oscillation, its charge and its voltage tied by an algebraic equation
const points = [
  { voltage: 0, capacitance: 2e-9 },
  { voltage: 100, capacitance: 2e-9 * (100.7 / 0.7) ** -0.5 },
];
const inductance = 1e-6;
const junction = junctionChargeOf(points);
const scale = 1e9;

/** States v, i, u = q·scale, and one that falls by itself; u′/scale = −i, L·i′ = v, 0 = Q(v)·scale − u. */
const equations: Equations = {
  count: 4,
  mass: Float64Array.of(0, 0, 1 / scale, 0, 0, inductance, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1e-9),
  couples: Array.from({ length: 16 }, () => true),
  order: [3, 2, 1, 0],
  evaluate: (_time, y, f, J) => {
    junction.at(y[0]!);
    f[0] = -y[1]!;
    f[1] = y[0]!;
    f[2] = junction.charge * scale - y[2]!;
    f[3] = -y[3]!;
    J?.set([0, -1, 0, 0, 1, 0, 0, 0, junction.capacitance * scale, 0, -1, 0, 0, 0, 0, -1]);
  },
  byTime: (_time, _y, out) => out.fill(0),
  isAtRest: () => false,
  watched: { supply: 0, rail: 0 },
};

function after(time: number, steps: number): Float64Array {
  junction.at(60);
  const state = Float64Array.of(60, 0, junction.charge * scale, 1);
  const { complete } = follow({
    equations,
    state,
    until: time,
    breaks: [],
    accuracy: { tolerance: 1e9, longestStep: time / steps },
    watch: () => false,
  });
  expect(complete).toBe(true);
  return state;
}

describe('a charge followed beside its voltage', () => {
  test('is of order 3 in the step: half the step, an eighth of the error', () => {
    const exact = after(40e-9, 6400);
    for (const index of [0, 1, 2]) {
      const [coarse, fine] = [100, 200].map((steps) => Math.abs(after(40e-9, steps)[index]! - exact[index]!));
      expect(coarse! / fine!).toBeGreaterThan(6);
      expect(coarse! / fine!).toBeLessThan(11);
    }
  });

  test('keeps the energy of coil and junction, ∫ V dQ', () => {
    const energyOf = (v: number, i: number): number => storageOf(points)(v).energy + (inductance * i * i) / 2;
    const [v, i] = after(200e-9, 4000);
    expect(Math.abs(energyOf(v!, i!) / energyOf(60, 0) - 1)).toBeLessThan(1e-5);
    expect(Math.abs(i!)).toBeGreaterThan(0.1);
  });
});
