import { describe, expect, test } from 'vitest';
import type { Circuit } from '../../src/driver/time-domain/circuit.ts';
import { runOf } from '../../src/driver/time-domain/run.ts';
import { oracle, periodOf } from './reference-circuits.ts';

interface Complex {
  readonly re: readonly number[];
  readonly im: readonly number[];
}

/** A circuit with both switches on, linearised; see tests/oracle/growth.py. */
interface Linearised {
  readonly name: string;
  readonly circuit: Circuit;
  readonly equilibrium: readonly number[];
  readonly growth: number;
  readonly angularFrequency: number;
  /** How the circuit is nudged to show the oscillation alone, and how it is seen. */
  readonly mode: Complex;
  readonly pick: Complex;
}

const { results } = oracle('growth.json') as { results: readonly Linearised[] };

/** Growth and angular frequency that the solver gives a nudge of 1 nV, over as many periods as take it to 1 mV at most. */
function followed(
  { circuit, equilibrium, growth, angularFrequency, mode, pick }: Linearised,
  { steps, tolerance }: { steps: number; tolerance: number },
): { growth: number; angularFrequency: number } {
  const nudge = growth > 0 ? 1e-9 : 1e-6;
  const period = (2 * Math.PI) / angularFrequency;
  const until = Math.min(6 * period, Math.log(1e6) / Math.abs(growth));
  let [re, im, turned, first]: [number, number, number, { time: number; size: number } | undefined] = [0, 0, 0, undefined];
  let last = { time: 0, size: 0 };
  runOf({
    circuit,
    initial: Float64Array.from(equilibrium, (value, i) => value + nudge * mode.re[i]!),
    until,
    accuracy: { tolerance, longestStep: periodOf(circuit) / steps },
    mostSteps: 1e6,
    watch: ({ time, state }) => {
      const [reBefore, imBefore] = [re, im];
      [re, im] = [0, 0];
      state.forEach((value, i) => {
        re += pick.re[i]! * (value - equilibrium[i]!);
        im += pick.im[i]! * (value - equilibrium[i]!);
      });
      // the first steps are shorter, the nudge and its image under complex conjugation are one
      if (time < until / 4) return false;
      last = { time, size: Math.hypot(re, im) };
      if (first === undefined) first = last;
      else turned += Math.atan2(im * reBefore - re * imBefore, re * reBefore + im * imBefore);
      return false;
    },
  });
  const span = last.time - first!.time;
  return { growth: Math.log(last.size / first!.size) / span, angularFrequency: turned / span };
}

test('a dozen circuits, both arrangements, growing fast, hardly, and dying away', () => {
  expect(results.length).toBeGreaterThanOrEqual(12);
  const perPeriod = results.map(({ growth, angularFrequency }) => (growth * 2 * Math.PI) / angularFrequency);
  for (const arrangement of ['two', 'centre-tap']) {
    const shown = perPeriod.filter((_, i) => results[i]!.circuit.arrangement === arrangement);
    expect(Math.max(...shown)).toBeGreaterThan(2);
    expect(Math.min(...shown)).toBeLessThan(0);
  }
});

describe.each(results.map((one) => [one.name, one] as const))('%s', (_, one) => {
  const period = (2 * Math.PI) / one.angularFrequency;

  // an error in the growth per period is a factor on the swing after it
  test.each([
    ['as it is usually followed', { steps: 70, tolerance: 1e-3 }, 3e-4],
    ['with half the step', { steps: 140, tolerance: 1e-3 }, 4e-5],
  ])('%s, the oscillation grows as the eigenvalues say', (__, effort, within) => {
    const found = followed(one, effort);
    expect(Math.abs(found.growth - one.growth) * period).toBeLessThan(within);
    expect(Math.abs(found.angularFrequency / one.angularFrequency - 1)).toBeLessThan(within);
  });
});

test('an oscillation that hardly grows dies away where nothing bounds the step: error control alone steps over it', () => {
  const one = results.find(({ name }) => name === 'hardly grows')!;
  expect(one.growth).toBeGreaterThan(0);
  expect(followed(one, { steps: 70, tolerance: 1e-3 }).growth).toBeGreaterThan(0);
  expect(followed(one, { steps: 8, tolerance: 1e-3 }).growth).toBeLessThan(0);
});
