import { expect, test } from 'vitest';
import { place } from '../../src/driver/time-domain/circuit.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { nominal, type RandomDesign } from './random-design.ts';

/** 1 Ω switches that carry 2 A of supply and a quarter of an ampere of the other gate's pull-up. */
const design: RandomDesign = {
  ...{ L: 2e-6, C: 1e-6, V: 24, coilResistance: 0.01, load: 80, arrangement: 'two', riseTime: 3e-3, sourceResistance: 0.05 },
  ...{ choke: 1e-4, chokeResistance: 0.02, onResistance: 0.9, constant: 1, threshold: 3.6, ciss: 3e-10, crss: 1e-11, coss: 5e-11 },
  ...{ mismatch: 0.01, pullUp: 39, pullDown: null, clamp: 12, clampResistance: 10, rail: 12, hold: false, forwardVoltage: 0.8 },
  ...{ limit: null, bulk: null, lead: null },
};

test('the off gate stands at (I + Ig)·Ron + Vf: the on switch carries the pull-up current of the other gate too', () => {
  const { design: project, point } = nominal(design);
  const gates: number[] = [];
  const end = timedStart({
    design: project,
    point,
    pair: { mismatch: design.mismatch, strength: 1, junction: 298.15 },
    see: ({ time, state }) => {
      // near the crest, at full rail
      const isCrest = Math.abs(state[place.drainA]! - state[place.drainB]!) > 0.98 * point.running!.tankPeak;
      if (time > 0 && isCrest) gates.push(Math.min(state[place.gateA]!, state[place.gateB]!));
    },
  });
  if ('unknown' in end || 'unknown' in point.running!.holdOff) throw new Error('not known');
  expect(end.outcome).toBe('runs');
  const holdOff = point.running!.holdOff.value;
  const mean = gates.reduce((sum, value) => sum + value, 0) / gates.length;
  const { constant, threshold, onResistance, pullUp } = design;
  const { supplyCurrent } = point.running!;
  // on-resistance at the gate voltage that it has, 12 V instead of the stated 10 V; the pull-up stands between the rail and this gate
  const on = onResistance - 1 / (constant * (10 - threshold)) + 1 / (constant * (12 - threshold));
  const drop = 0.8 + 0.046 * Math.log((12 - mean) / pullUp);
  expect(Math.abs(((supplyCurrent + (12 - mean) / pullUp) * on + drop) / mean - 1)).toBeLessThan(0.02);
  expect((supplyCurrent * on + drop) / mean).toBeLessThan(0.93);
  // the closed form takes the stated on-resistance and the whole rail across the pull-up: a little more
  expect(holdOff / mean).toBeGreaterThan(1);
  expect(holdOff / mean).toBeLessThan(1.08);
});
