import { expect, test } from 'vitest';
import { channelsOf } from '../../src/physics/square-law-channel.ts';

const values = { constant: 8, series: 0.05, threshold: 3 };
/** One channel, asked for at a gate and a drain voltage. */
function channelOf(of: typeof values): { at: (gate: number, drain: number) => void; current: number; byGate: number; byDrain: number } {
  const channels = channelsOf([of]);
  const one = {
    current: 0,
    byGate: 0,
    byDrain: 0,
    at: (gate: number, drain: number): void => {
      channels.gates[0] = gate;
      channels.drains[0] = drain;
      channels.update();
      [one.current, one.byGate, one.byDrain] = [channels.currents[0]!, channels.byGate[0]!, channels.byDrain[0]!];
    },
  };
  return one;
}

const channel = channelOf(values);
const currentAt = (gate: number, drain: number): number => {
  channel.at(gate, drain);
  return channel.current;
};

// the textbook's square law has no end of its own that is the source: i = ½·K·((Vgs − Vth)⁺² − (Vgd − Vth)⁺²)
test('without its resistance it is the same seen from either end', () => {
  const bare = channelOf({ ...values, series: 0 });
  for (const gate of [0, 2, 2.9, 3, 3.1, 4, 8]) {
    for (const drain of [-6, -1, -0.1, 0, 0.05, 0.5, 2, 30]) {
      bare.at(gate, drain);
      const wanted = 4 * (Math.max(0, gate - 3) ** 2 - Math.max(0, gate - drain - 3) ** 2);
      expect(Math.abs(bare.current - wanted)).toBeLessThan(1e-9 * (1 + Math.abs(wanted)));
    }
  }
});

test('the resistance drops its share on either side of zero', () => {
  const bare = channelOf({ ...values, series: 0 });
  for (const gate of [2.5, 3.5, 8]) {
    for (const drain of [-2, -0.6, 0.3, 5]) {
      const current = currentAt(gate, drain);
      bare.at(gate, drain - 0.05 * current);
      expect(bare.current).toBeCloseTo(current, 9);
    }
  }
});

test('it does not jump where a gate passes the threshold, whatever the drain', () => {
  for (const drain of [-1, -0.7, -0.1, 0, 0.1, 30]) {
    expect(Math.abs(currentAt(3 + 1e-9, drain) - currentAt(3 - 1e-9, drain)), `drain at ${drain} V`).toBeLessThan(1e-6);
  }
});

test('its derivatives are those of its current', () => {
  for (let gate = 0.03; gate < 9; gate += 0.41) {
    for (let drain = -4.01; drain < 12; drain += 0.37) {
      const h = 1e-6;
      const [byGate, byDrain] = [
        (currentAt(gate + h, drain) - currentAt(gate - h, drain)) / (2 * h),
        (currentAt(gate, drain + h) - currentAt(gate, drain - h)) / (2 * h),
      ];
      channel.at(gate, drain);
      expect(channel.byGate).toBeCloseTo(byGate, 4);
      expect(channel.byDrain).toBeCloseTo(byDrain, 4);
    }
  }
});
