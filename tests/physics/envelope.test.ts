import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { envelopePeaks } from '../../src/physics/envelope-peaks.ts';
import {
  envelopeAt,
  envelopeMode,
  settledEnvelope,
  type EnvelopeCircuit,
  type EnvelopeState,
  type RailRamp,
} from '../../src/physics/envelope.ts';
import { expected, input } from './check-values.ts';
import { near } from './near.ts';

const rest: EnvelopeState = { current: 0, voltage: 0 };
const lossless: EnvelopeCircuit = { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: Infinity, dropResistance: 0 };

/** Step of the rail at two chokes of the row's inductance. */
function circuitOf(id: string): EnvelopeCircuit {
  return { chokeInductance: input(id, 'Lch_each') / 2, capacitance: input(id, 'C'), parallelResistance: input(id, 'R'), dropResistance: 0 };
}

describe('step of the rail, averaged envelope, method of Sanders et al. 1991', () => {
  test.each(['A-start-100u-50R', 'A-start-1000u-50R'])('%s', (id) => {
    const circuit = circuitOf(id);
    const mode = envelopeMode(circuit);
    near(mode.angularFrequency, expected(id, 'we'));
    near(mode.dampingRatio, expected(id, 'zeta'));
    const peaks = envelopePeaks({ circuit, initial: rest, rail: { from: 0, to: 12, time: 0 } });
    near(peaks.voltage / (12 * Math.PI), expected(id, 'Vpk_max_over_piVdc'));
  });

  test('without damping the peak is twice π·V, half an envelope period after the step', () => {
    const peaks = envelopePeaks({ circuit: lossless, initial: rest, rail: { from: 0, to: 12, time: 0 } });
    near(peaks.voltage, 2 * Math.PI * 12);
    near(peaks.voltageAt, Math.PI ** 2 * Math.sqrt(50e-6 * 1e-6), 1e-4);
    near(peaks.current, 12 * Math.PI * Math.sqrt(1e-6 / 50e-6));
  });
});

describe('linear rise of the rail', () => {
  test.each([0.3, 1, 2.5, Math.PI, 4.4, 7, 20])('without damping the overshoot is |sin x/x|, x = ω_e·Tr/2 = %d', (x) => {
    const time = (2 * x) / envelopeMode(lossless).angularFrequency;
    const peaks = envelopePeaks({ circuit: lossless, initial: rest, rail: { from: 0, to: 10, time } });
    near(peaks.voltage / (Math.PI * 10), 1 + Math.abs(Math.sin(x) / x), 1e-7);
  });

  test('a very long rise ends at π·V', () => {
    near(envelopePeaks({ circuit: lossless, initial: rest, rail: { from: 0, to: 10, time: 10 } }).voltage, Math.PI * 10, 1e-4);
  });
});

describe('load removal', () => {
  test('without damping the peak from the running state is π·V + I·√(Le/C) at most', () => {
    const initial = { current: 5, voltage: 12 * Math.PI };
    const { voltage } = envelopePeaks({ circuit: lossless, initial, rail: { from: 12, to: 12, time: 0 } });
    near(voltage, 12 * Math.PI + 5 * Math.sqrt(50e-6 / 1e-6));
  });
});

describe('an overdamped system', () => {
  test.each([2, 0.5, 0.001])('settles at what the resistances allow, R = %d Ω', (parallelResistance) => {
    const circuit = { ...lossless, parallelResistance, dropResistance: 0.05 };
    const peaks = envelopePeaks({ circuit, initial: rest, rail: { from: 0, to: 12, time: 0 } });
    const settled = settledEnvelope({ circuit, voltage: 12 });
    near(peaks.voltage, settled.voltage, 1e-3);
    expect(peaks.voltage).toBeGreaterThanOrEqual(settled.voltage);
    expect(peaks.current).toBeGreaterThanOrEqual(settled.current);
  });
});

/** The same equations stepped with a classic Runge–Kutta method, independent of the exact solution. */
function stepped({ circuit, initial, rail, until }: { circuit: EnvelopeCircuit; initial: EnvelopeState; rail: RailRamp; until: number }): {
  end: EnvelopeState;
  peak: number;
} {
  const { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r } = circuit;
  const v = (t: number): number => (t >= rail.time ? rail.to : rail.from + ((rail.to - rail.from) * t) / rail.time);
  const slope = (t: number, [i, u]: readonly [number, number]): [number, number] => [
    (v(t) - u / Math.PI - i * r) / Le,
    (i / Math.PI - u / (2 * R)) / C,
  ];
  const steps = 20_000;
  const h = until / steps;
  let x: [number, number] = [initial.current, initial.voltage];
  let peak = x[1];
  const plus = (a: readonly [number, number], b: readonly [number, number], k: number): [number, number] => [
    a[0] + k * b[0],
    a[1] + k * b[1],
  ];
  for (let n = 0; n < steps; n++) {
    const t = n * h;
    const k1 = slope(t, x);
    const k2 = slope(t + h / 2, plus(x, k1, h / 2));
    const k3 = slope(t + h / 2, plus(x, k2, h / 2));
    const k4 = slope(t + h, plus(x, k3, h));
    x = [x[0] + (h / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]), x[1] + (h / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1])];
    peak = Math.max(peak, x[1]);
  }
  return { end: { current: x[0], voltage: x[1] }, peak };
}

test('the exact state and peak agree with a stepped solution for any damping, start and rise', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1, max: 2.5, noNaN: true }),
      fc.double({ min: 0, max: 0.5, noNaN: true }),
      fc.double({ min: 0, max: 3, noNaN: true }),
      fc.double({ min: 0, max: 10, noNaN: true }),
      (logR, dropResistance, periods, current) => {
        const circuit = { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 10 ** logR, dropResistance };
        const period = (2 * Math.PI) / envelopeMode(circuit).angularFrequency;
        const rail = { from: 0, to: 12, time: periods * period };
        const initial = { current, voltage: 3 };
        const until = rail.time + 3 * period;
        const reference = stepped({ circuit, initial, rail, until });
        const state = envelopeAt({ circuit, initial, rail, time: until });
        expect(Math.abs(state.voltage - reference.end.voltage)).toBeLessThan(1e-4 * 12 * Math.PI);
        const peaks = envelopePeaks({ circuit, initial, rail });
        expect(peaks.voltage).toBeGreaterThanOrEqual(reference.peak * (1 - 1e-5));
        expect(peaks.voltage).toBeLessThanOrEqual(Math.max(reference.peak, settledEnvelope({ circuit, voltage: 12 }).voltage) * (1 + 2e-3));
        expect(Number.isFinite(peaks.current)).toBe(true);
      },
    ),
    { seed: 3, numRuns: 60 },
  );
});

test('critical damping is not a hole', () => {
  const circuit = { ...lossless, parallelResistance: (Math.PI / 4) * Math.sqrt(50) };
  near(envelopeMode(circuit).dampingRatio, 1);
  const { voltage } = envelopeAt({ circuit, initial: rest, rail: { from: 0, to: 1, time: 0 }, time: 1e-4 });
  expect(Number.isFinite(voltage)).toBe(true);
  near(envelopePeaks({ circuit, initial: rest, rail: { from: 0, to: 1, time: 0 } }).voltage, Math.PI, 1e-6);
});

/** Any damping from 0 to 60, a start in motion, a rail that steps or rises for up to 40 periods. */
const transient = fc.record({
  logR: fc.oneof(fc.constant(Infinity), fc.double({ min: -1, max: 3, noNaN: true })),
  dropResistance: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1, noNaN: true })),
  periods: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 3, noNaN: true }), fc.double({ min: 3, max: 40, noNaN: true })),
  from: fc.double({ min: 0, max: 24, noNaN: true }),
  current: fc.double({ min: -5, max: 10, noNaN: true }),
  voltage: fc.double({ min: 0, max: 60, noNaN: true }),
});

test('no state of a transient lies above its peaks, which are states of it', () => {
  fc.assert(
    fc.property(transient, ({ logR, dropResistance, periods, from, current, voltage }) => {
      const circuit = { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 10 ** logR, dropResistance };
      const period = (2 * Math.PI) / envelopeMode(circuit).angularFrequency;
      const [initial, rail] = [
        { current, voltage },
        { from, to: 12, time: periods * period },
      ];
      const stateAt = (time: number): EnvelopeState => envelopeAt({ circuit, initial, rail, time });
      const peaks = envelopePeaks({ circuit, initial, rail });
      const end = rail.time + 3 * period;
      for (let i = 0; i <= 3000; i++) {
        const state = stateAt((i / 3000) * end);
        expect(state.voltage).toBeLessThanOrEqual(peaks.voltage + 1e-9 * 60);
        expect(state.current).toBeLessThanOrEqual(peaks.current + 1e-9 * 20);
      }
      const settled = settledEnvelope({ circuit, voltage: 12 });
      const reached = (quantity: keyof EnvelopeState, at: number): number => (at === Infinity ? settled : stateAt(at))[quantity];
      near(reached('voltage', peaks.voltageAt), peaks.voltage, 1e-9);
      near(reached('current', peaks.currentAt), peaks.current, 1e-9);
    }),
    { seed: 4, numRuns: 150 },
  );
});
