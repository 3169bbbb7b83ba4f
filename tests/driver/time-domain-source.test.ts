import { expect, test } from 'vitest';
import { place, type Circuit } from '../../src/driver/time-domain/circuit.ts';
import { equationsOf } from '../../src/driver/time-domain/circuit-equations.ts';
import { referenceCircuit } from './reference-circuits.ts';

/** Gates that hang on the rail of a source with a limit, through pull-ups that draw as much as the driver. */
const base = referenceCircuit('live rail, gates on it');
const limit = { current: 6, resistance: 40 };
const limited: Circuit = {
  ...base,
  supply: { ...base.supply, resistance: 0.3, riseTime: 1e-3, limit },
  gates: { ...base.gates, pullUp: 10 },
};
const stateWith = (chokes: number): Float64Array => Float64Array.from([20, 0.1, 3, chokes / 2, chokes / 2, 4, 11]);
const chokeCurrents = Array.from({ length: 3001 }, (_, i) => 12 * (i / 3000));

test('the rail is where the line of the source and that of its load cross, with the limit and without', () => {
  const equations = equationsOf(limited);
  const { watched } = equations;
  let acting = 0;
  for (const chokes of chokeCurrents) {
    equations.evaluate(1, stateWith(chokes), new Float64Array(7));
    const { rail, supply } = watched;
    // Kirchhoff: both chokes, and each pull-up from the rail to its gate
    expect(supply).toBeCloseTo(chokes + (rail - 4) / 10 + (rail - 11) / 10, 9);
    expect(rail).toBeCloseTo(24 - 0.3 * supply - limit.resistance * Math.max(0, supply - limit.current), 9);
    if (supply > limit.current) acting++;
  }
  expect(acting).toBeGreaterThan(500);
  expect(acting).toBeLessThan(2900);
});

test('the rail has no step where the limit begins to act', () => {
  const equations = equationsOf(limited);
  const { watched } = equations;
  const steepest = 0.3 + limit.resistance;
  let before: number | undefined;
  for (const chokes of chokeCurrents) {
    equations.evaluate(1, stateWith(chokes), new Float64Array(7));
    if (before !== undefined) {
      expect(watched.rail).toBeLessThanOrEqual(before);
      expect(before - watched.rail).toBeLessThan(steepest * (12 / 3000));
    }
    before = watched.rail;
  }
});

test('∂f/∂t is that of f while the source rises, with the limit and without, fed gates and own ones, one choke and two', () => {
  const variants: readonly Circuit[] = [
    limited,
    { ...limited, arrangement: 'centre-tap' },
    { ...limited, gates: { ...limited.gates, rail: 12 } },
    { ...limited, supply: { ...limited.supply, buffer: { inductance: 1e-6, capacitance: 1e-4 } } },
  ];
  for (const circuit of variants) {
    const equations = equationsOf(circuit);
    const { count } = equations;
    for (const chokes of [0.1, 11]) {
      const y = new Float64Array(count);
      y.set(stateWith(chokes));
      if (circuit.arrangement === 'centre-tap') [y[place.chokeA], y[place.chokeB]] = [chokes, 0];
      if (count > 7) [y[place.rail], y[place.lead]] = [12, chokes];
      const [up, down, slope] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
      const [t, h] = [0.5e-3, 1e-8];
      equations.evaluate(t + h, y, up);
      equations.evaluate(t - h, y, down);
      equations.byTime(t, y, slope);
      for (let i = 0; i < count; i++) {
        const numeric = (up[i]! - down[i]!) / (2 * h);
        expect(Math.abs(slope[i]! - numeric), `row ${i} at ${chokes} A`).toBeLessThan(1e-4 * (10 + Math.abs(numeric)));
      }
    }
  }
});
