import { describe, expect, test } from 'vitest';
import { crestsOf } from '../../src/driver/time-domain/crest.ts';
import { runOf, type Peaks } from '../../src/driver/time-domain/run.ts';
import { initialOf, periodOf, referenceDesign, type ReferenceDesign } from './reference-circuits.ts';

function peaksOf(design: ReferenceDesign, { steps, tolerance }: { steps: number; tolerance: number }): Peaks {
  const { circuit, until } = design;
  const accuracy = { tolerance, longestStep: periodOf(circuit) / steps };
  return runOf({ circuit, initial: initialOf(design), until, accuracy, mostSteps: 1e7, watch: () => false }).peaks;
}
const usual = { steps: 70, tolerance: 1e-3 };
const fine = { steps: 500, tolerance: 1e-5 };

describe('a crest between steps', () => {
  const seen = (time: (i: number) => number, value: (t: number) => number): { highest: number; points: number; at: number } => {
    const crests = crestsOf(1);
    let points = 0;
    for (let i = 0; i < 140; i++) {
      const v = value(time(i));
      points = Math.max(points, v);
      crests.see(time(i), Float64Array.of(v));
    }
    return { highest: crests.highest[0]!, points, at: crests.at[0]! };
  };

  test('of a sine seen 70 times a period is found wherever the steps fall', () => {
    let lowestPoint = 1;
    for (let shift = 0; shift < 1; shift += 0.05) {
      const { highest, points, at } = seen((i) => (i + shift) / 70, (t) => Math.sin(2 * Math.PI * t)); // prettier-ignore
      lowestPoint = Math.min(lowestPoint, points);
      expect(Math.abs(highest - 1)).toBeLessThan(2e-5);
      expect(highest).toBeGreaterThanOrEqual(points);
      expect(Math.abs(((at + 0.25) % 1) - 0.5)).toBeLessThan(1e-3);
    }
    // what the points alone miss
    expect(1 - lowestPoint).toBeGreaterThan(8e-4);
  });

  test('of a parabola is exact at uneven steps', () => {
    const { highest, at } = seen((i) => i * (1 + 0.1 * Math.sin(i)), (t) => 100 - (t - 50.3) ** 2); // prettier-ignore
    expect(highest).toBeCloseTo(100, 9);
    expect(at).toBeCloseTo(50.3, 9);
  });

  test('with a corner is not put above it by more than an eighth of the last rise', () => {
    const { highest } = seen((i) => i, (t) => Math.min(t, 50.5)); // prettier-ignore
    expect(highest).toBeGreaterThanOrEqual(50.5);
    expect(highest).toBeLessThanOrEqual(50.5 + 0.5 / 8 + 1e-12);
  });

  test('is not made up at the first two times', () => {
    const crests = crestsOf(1);
    crests.see(1, Float64Array.of(5));
    crests.see(2, Float64Array.of(4));
    crests.see(3, Float64Array.of(1));
    expect(crests.highest[0]).toBe(5);
  });
});

test.each([
  ['live rail, own gate rail', 100],
  ['live rail, gates on it', 85],
  ['load removed', 100],
  ['one choke, own rail, ramp', 75],
])('%s, drains that break down at %s V: the energy is that of finer steps', (name, breakdown) => {
  const base = referenceDesign(name);
  const design = { ...base, circuit: { ...base.circuit, breakdown } };
  const wanted = peaksOf(design, fine).breakdownEnergy;
  expect(wanted).toBeGreaterThan(1e-3);
  expect(Math.abs(peaksOf(design, usual).breakdownEnergy / wanted - 1)).toBeLessThan(0.02);
});
