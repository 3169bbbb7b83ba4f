import { expect, test } from 'vitest';
import {
  characteristicImpedance,
  dampedFrequencyRatio,
  dampingRatio,
  decayTime,
  parallelFromSeries,
  parallelQuality,
  resonantFrequency,
} from '../../src/physics/resonance.ts';
import { expected, input } from './check-values.ts';
import { near } from './near.ts';

/** Logarithmic decrement from a damping ratio: 2πζ/√(1 − ζ²), any circuits text. */
function decrement(zeta: number): number {
  return (2 * Math.PI * zeta) / Math.sqrt(1 - zeta * zeta);
}

test.each(['F-series', 'F-parallel'])('%s: quality, damping, decay and damped frequency', (id) => {
  const [inductance, capacitance, R] = [input(id, 'L'), input(id, 'C'), input(id, 'R')];
  const impedance = characteristicImpedance({ inductance, capacitance });
  const across = id === 'F-series' ? parallelFromSeries({ seriesResistance: R, characteristicImpedance: impedance }) : R;
  const quality = parallelQuality({ parallelResistance: across, characteristicImpedance: impedance });
  const frequency = resonantFrequency({ inductance, capacitance });
  const zeta = dampingRatio({ quality });
  near(frequency, expected(id, 'f0'));
  near(quality, expected(id, 'Q'));
  near(zeta, expected(id, 'zeta'));
  near(decayTime({ quality, frequency }), expected(id, 'tau'));
  near(frequency * dampedFrequencyRatio({ quality }), expected(id, 'fd'));
  near(decrement(zeta), expected(id, 'log_dec'));
  near(Math.exp(-10 * decrement(zeta)), expected(id, 'amp_after_10_cycles'));
  near(Math.LN2 / decrement(zeta), expected(id, 'cycles_to_half'));
});

test('F-Q-from-decay: the quality that a decay shows has the damping of that decay', () => {
  const id = 'F-Q-from-decay';
  near(Math.log(input(id, 'x0') / input(id, 'xn')) / input(id, 'n'), decrement(dampingRatio({ quality: expected(id, 'Q') })));
  near(dampingRatio({ quality: expected(id, 'Q') }), expected(id, 'zeta'));
});

test('F-rules: after Q cycles of high Q 4.3 % are left', () => {
  const quality = 1e6;
  const perCycle = 1 / (decayTime({ quality, frequency: 1 }) / 1);
  near(Math.exp(-quality * perCycle), expected('F-rules', 'amp_after_Q_cycles'));
  near(Math.LN2 / perCycle / quality, expected('F-rules', 'cycles_to_half_per_Q'));
  near(1 / perCycle / quality, expected('F-rules', 'cycles_to_1e_per_Q'));
});

test('F-coil-r: a coil’s series resistance as a resistance across the tank, Terman', () => {
  const id = 'F-coil-r';
  const impedance = characteristicImpedance({ inductance: input(id, 'L'), capacitance: input(id, 'C') });
  const across = parallelFromSeries({ seriesResistance: input(id, 'r'), characteristicImpedance: impedance });
  near(across, expected(id, 'Rdyn'));
  near(parallelQuality({ parallelResistance: across, characteristicImpedance: impedance }), expected(id, 'Q_at_w0'));
});

test('F-bandwidth: half-power bandwidth is f0/Q', () => {
  const id = 'F-bandwidth';
  const [inductance, capacitance] = [input(id, 'L'), input(id, 'C')];
  const quality = parallelQuality({
    parallelResistance: input(id, 'R'),
    characteristicImpedance: characteristicImpedance({ inductance, capacitance }),
  });
  near(resonantFrequency({ inductance, capacitance }) / quality, expected(id, 'BW'));
  const detuned = 1 / Math.sqrt(1 + quality ** 2 * (1.05 - 1 / 1.05) ** 2);
  near(detuned, expected(id, 'Z_rel_at_1.05f0'));
  expect(detuned).toBeLessThan(1);
});
