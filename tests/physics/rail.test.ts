import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { envelopePeaks } from '../../src/physics/envelope-peaks.ts';
import { fedEnvelopePeaks } from '../../src/physics/fed-envelope.ts';
import { matrixExponential } from '../../src/physics/matrix-exponential.ts';
import { railMode, railOvershootRatio } from '../../src/physics/rail-ringing.ts';
import { near } from './near.ts';

const circuit = { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0.05 };
const rest = { current: 0, voltage: 0, rail: 0, leadCurrent: 0 };

/** Highest tank voltage by the classical Runge-Kutta method on the four differential equations, independent of the matrix form. */
function byRungeKutta({ Ls, Cb, rs, V, Tr, until }: { Ls: number; Cb: number; rs: number; V: number; Tr: number; until: number }): number {
  const { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r } = circuit;
  const slope = (t: number, [s, v, i, u]: readonly number[]): number[] => [
    ((t < Tr ? (V * t) / Tr : V) - rs * s! - v!) / Ls,
    (s! - i!) / Cb,
    (v! - u! / Math.PI - i! * r) / Le,
    (i! / Math.PI - u! / (2 * R)) / C,
  ];
  const h = until / 40000;
  let [x, highest] = [[0, 0, 0, 0], 0];
  const at = (y: readonly number[], k: readonly number[], w: number): number[] => y.map((value, j) => value + w * k[j]!);
  for (let n = 0; n < 40000; n++) {
    const t = n * h;
    const a = slope(t, x);
    const b = slope(t + h / 2, at(x, a, h / 2));
    const c = slope(t + h / 2, at(x, b, h / 2));
    const d = slope(t + h, at(x, c, h));
    x = x.map((value, j) => value + (h / 6) * (a[j]! + 2 * b[j]! + 2 * c[j]! + d[j]!));
    highest = Math.max(highest, x[3]!);
  }
  return highest;
}

describe('envelope behind leads and a bulk capacitor', () => {
  test.each([
    [1e-6, 100e-6, 5e-3, 0],
    [5e-6, 100e-6, 5e-3, 0],
    [10e-6, 1000e-6, 20e-3, 0],
    [10e-6, 100e-6, 50e-3, 300e-6],
    [10e-6, 100e-6, 5e-3, 600e-6],
  ])('agrees with Runge-Kutta: %d H, %d F, %d ohm, rise in %d s', (Ls, Cb, rs, Tr) => {
    const feed = { leadInductance: Ls, bulkCapacitance: Cb, resistance: rs };
    const { voltage } = fedEnvelopePeaks({ circuit, feed, initial: rest, source: { from: 0, to: 12, time: Tr } });
    const slow = (2 * Math.PI) / Math.min(railMode(feed).angularFrequency, 1 / (Math.PI * Math.sqrt(50e-12)));
    near(voltage, byRungeKutta({ Ls, Cb, rs, V: 12, Tr, until: Tr + 12 * slow }), 1e-3);
  });

  test('with a bulk capacitor without end that is up it is the envelope on a stiff rail', () => {
    const feed = { leadInductance: 1e-6, bulkCapacitance: 1, resistance: 0.01 };
    const wide = { ...circuit, chokeInductance: 5e-3 };
    const fed = fedEnvelopePeaks({ circuit: wide, feed, initial: { ...rest, rail: 12 }, source: { from: 12, to: 12, time: 0 } });
    near(fed.voltage, envelopePeaks({ circuit: wide, initial: rest, rail: { from: 0, to: 12, time: 0 } }).voltage, 1e-3);
  });

  test('is linear in the supply', () => {
    const feed = { leadInductance: 2e-6, bulkCapacitance: 100e-6, resistance: 0.01 };
    const peak = (to: number): number => fedEnvelopePeaks({ circuit, feed, initial: rest, source: { from: 0, to, time: 1e-4 } }).voltage;
    near(peak(36), 3 * peak(12), 1e-9);
  });
});

describe('ringing of the rail', () => {
  test('is never missed: the envelope of a ramp lies above the exact response at every rise time', () => {
    const feed = { leadInductance: 2e-6, bulkCapacitance: 1000e-6, resistance: 5e-3 };
    const { angularFrequency: w, dampingRatio: z } = railMode(feed);
    const wd = w * Math.sqrt(1 - z * z);
    const step = (t: number): number => (t < 0 ? 0 : 1 - Math.exp(-z * w * t) * (Math.cos(wd * t) + ((z * w) / wd) * Math.sin(wd * t)));
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 40, noNaN: true }), (periods) => {
        const Tr = (periods * 2 * Math.PI) / w;
        const n = 4000;
        const dt = (Tr + (4 * Math.PI) / w) / n;
        let [integral, highest] = [0, 0];
        // the response to a ramp is the running mean of the step response
        for (let i = 0; i < n; i++) {
          const t = i * dt;
          integral += ((step(t) + step(t + dt) - step(t - Tr) - step(t + dt - Tr)) * dt) / 2;
          highest = Math.max(highest, integral / Tr);
        }
        expect(highest).toBeLessThanOrEqual(railOvershootRatio({ feed, riseTime: Tr }) * 1.002);
      }),
      { numRuns: 60 },
    );
  });

  test('a lead that damps critically does not ring', () => {
    expect(railOvershootRatio({ feed: { leadInductance: 1e-6, bulkCapacitance: 4e-6, resistance: 1 }, riseTime: 0 })).toBe(1);
  });
});

describe('matrix exponential', () => {
  const value = fc.double({ min: -30, max: 30, noNaN: true });
  test('e^A times e^(-A) is one, and a diagonal gives exponentials', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1.5, max: 1.5, noNaN: true }), { minLength: 16, maxLength: 16 }), (a) => {
        const [there, back] = [matrixExponential({ matrix: a, time: 1 }), matrixExponential({ matrix: a, time: -1 })];
        for (let i = 0; i < 4; i++)
          for (let j = 0; j < 4; j++) {
            const sum = [0, 1, 2, 3].reduce((total, k) => total + there[4 * i + k]! * back[4 * k + j]!, 0);
            expect(Math.abs(sum - (i === j ? 1 : 0))).toBeLessThan(1e-9);
          }
      }),
    );
    fc.assert(
      fc.property(value, value, value, value, (a, b, c, d) => {
        const diagonal = [a, 0, 0, 0, 0, b, 0, 0, 0, 0, c, 0, 0, 0, 0, d];
        const found = matrixExponential({ matrix: diagonal, time: 1 });
        [a, b, c, d].forEach((x, i) => near(found[5 * i]!, Math.exp(x), 1e-9));
      }),
    );
  });
  test('agrees with scipy.linalg.expm 1.17.1', () => {
    const matrix = [-0.3, -1.1, 0.2, 0, 1.2, -0.1, -0.7, 0.4, 0.05, 0.6, -0.2, -0.9, -0.5, 0, 1.3, -0.05];
    // prettier-ignore
    const expected = [
      0.352664584494531, -0.655742261478926, 0.268453758035724, -0.28844451418556,
      0.642505874332428, 0.367790621189911, -0.107597091840417, 0.424075893439135,
      0.387553464927631, 0.232812214452833, 0.315316031360202, -0.54766466293532,
      -0.141200766735693, 0.446361367554433, 0.829207057494343, 0.56981394693061,
    ];
    matrixExponential({ matrix, time: 1 }).forEach((value, i) => near(value, expected[i]!, 1e-13));
  });
  test('refuses what is not finite', () => {
    expect(() => matrixExponential({ matrix: Array.from({ length: 16 }, () => NaN), time: 1 })).toThrow(RangeError);
  });
});
