import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { junctionChargeOf, type CapacitancePoint } from '../../src/physics/junction-charge.ts';

const chargeAt = (points: readonly CapacitancePoint[], voltage: number): { charge: number; capacitance: number } => {
  const junction = junctionChargeOf(points);
  junction.at(voltage);
  return junction;
};

/** C by its law, written anew; `points` ascending. */
function capacitanceBetween(points: readonly CapacitancePoint[], v: number): number {
  const [first, last] = [points[0]!, points.at(-1)!];
  if (v <= first.voltage) return first.capacitance;
  if (v >= last.voltage) return last.capacitance;
  const upper = points.findIndex(({ voltage }) => voltage > v);
  const [a, b] = [points[upper - 1]!, points[upper]!];
  const share = Math.log((v + 0.7) / (a.voltage + 0.7)) / Math.log((b.voltage + 0.7) / (a.voltage + 0.7));
  return Math.exp(Math.log(a.capacitance) * (1 - share) + Math.log(b.capacitance) * share);
}

/** ∫ C dV from 0 to v by Simpson's rule in pieces that no point lies inside. */
function integral(points: readonly CapacitancePoint[], v: number): number {
  const knots = [0, ...points.map(({ voltage }) => voltage).filter((voltage) => voltage > 0 && voltage < v), v];
  const pieces = 2000;
  return knots.slice(1).reduce((sum, to, index) => {
    const from = knots[index]!;
    const h = (to - from) / pieces;
    const at = (i: number): number => capacitanceBetween(points, from + i * h);
    const inner = Array.from({ length: pieces - 1 }, (_, i) => ((i + 1) % 2 === 1 ? 4 : 2) * at(i + 1)).reduce((a, b) => a + b, 0);
    return sum + (h / 3) * (at(0) + inner + at(pieces));
  }, 0);
}

const points = fc
  .array(fc.tuple(fc.double({ min: 0.5, max: 60, noNaN: true }), fc.double({ min: 0.2, max: 1, noNaN: true })), {
    minLength: 1,
    maxLength: 6,
  })
  .map((steps) => {
    let [voltage, capacitance] = [-0.5, 3e-9];
    return steps.map(([up, down]) => ({ voltage: (voltage += up), capacitance: (capacitance *= down) }));
  });

describe('charge of a junction', () => {
  test('is the integral of its capacitance', () => {
    fc.assert(
      fc.property(points, fc.double({ min: -20, max: 250, noNaN: true }), (chosen, v) => {
        const { charge, capacitance } = chargeAt(chosen, v);
        const expected = v < 0 ? chosen[0]!.capacitance * v : integral(chosen, v);
        expect(Math.abs(charge - expected)).toBeLessThan(1e-7 * Math.abs(expected) + 1e-20);
        expect(Math.abs(capacitance / capacitanceBetween(chosen, v) - 1)).toBeLessThan(1e-10);
      }),
      { numRuns: 60 },
    );
  });

  test('follows a junction of one exponent through any of its points, the logarithm at 1 too', () => {
    for (const m of [0.3, 0.5, 1, 1 + 1e-10, 2.5]) {
      const law = (v: number): number => 2e-9 * ((v + 0.7) / 0.7) ** -m;
      const chosen = [0, 0.4, 3, 25, 90].map((voltage) => ({ voltage, capacitance: law(voltage) }));
      for (const v of [0.1, 1.7, 14, 60]) {
        const exact = m === 1 ? 2e-9 * 0.7 * Math.log((v + 0.7) / 0.7) : ((2e-9 * 0.7) / (1 - m)) * (((v + 0.7) / 0.7) ** (1 - m) - 1);
        const { charge, capacitance } = chargeAt(chosen, v);
        // near 1 the closed form above loses what its difference cancels
        expect(Math.abs(charge / exact - 1)).toBeLessThan(Math.abs(m - 1) < 1e-9 && m !== 1 ? 1e-5 : 1e-12);
        expect(Math.abs(capacitance / law(v) - 1)).toBeLessThan(1e-12);
      }
    }
  });

  test('meets itself at every point, and finds its place from any other', () => {
    const chosen = [0, 1, 5, 25, 100].map((voltage, i) => ({ voltage, capacitance: 4e-9 / 3 ** i }));
    const junction = junctionChargeOf(chosen);
    for (const { voltage, capacitance } of chosen) {
      junction.at(voltage * (1 - 1e-12));
      const below = { charge: junction.charge, capacitance: junction.capacitance };
      junction.at(voltage);
      expect(junction.charge).toBeCloseTo(below.charge, 18);
      expect(Math.abs(junction.capacitance / capacitance - 1)).toBeLessThan(1e-12);
      expect(Math.abs(below.capacitance / capacitance - 1)).toBeLessThan(1e-10);
    }
    for (const v of [99, 0.5, 30, 4, 120, 2, -1, 50, 0.01]) {
      junction.at(v);
      const { charge, capacitance } = junction;
      expect({ charge, capacitance }).toEqual({ charge: chargeAt(chosen, v).charge, capacitance: chargeAt(chosen, v).capacitance });
    }
  });

  test('of equal points is that of a constant', () => {
    const { charge, capacitance } = chargeAt(
      [0, 3, 50].map((voltage) => ({ voltage, capacitance: 3e-10 })),
      42,
    );
    expect(capacitance).toBeCloseTo(3e-10, 22);
    expect(Math.abs(charge / (3e-10 * 42) - 1)).toBeLessThan(1e-13);
  });

  test.each([
    ['no point', []],
    ['a voltage below zero', [{ voltage: -1, capacitance: 1e-9 }]],
    ['a capacitance of zero', [{ voltage: 1, capacitance: 0 }]],
    ['a capacitance that is none', [{ voltage: 1, capacitance: Number.NaN }]],
    ['an infinite voltage', [{ voltage: Infinity, capacitance: 1e-9 }]],
    [
      'voltages that do not ascend',
      [
        { voltage: 2, capacitance: 1e-9 },
        { voltage: 2, capacitance: 1e-9 },
      ],
    ],
  ])('refuses %s', (_, chosen) => expect(() => junctionChargeOf(chosen)).toThrow(RangeError));
});
