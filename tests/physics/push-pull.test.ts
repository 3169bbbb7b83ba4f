import { describe, expect, test } from 'vitest';
import { finiteQualityPeakFactor, finiteQualityPowerFactor } from '../../src/physics/half-sine.ts';
import {
  chokeFrequencyRatio,
  chokeRipple,
  supplyCurrent,
  supplyRipple,
  switchRmsCurrent,
  tankPeakVoltage,
} from '../../src/physics/push-pull.ts';
import { characteristicImpedance, dampedFrequencyRatio, parallelQuality, resonantFrequency } from '../../src/physics/resonance.ts';
import { expected, input, row } from './check-values.ts';
import { near } from './near.ts';

describe('drain peak of the ideal stage, Baxandall 1959 and Kazimierczuk & Czarkowski', () => {
  test.each(['A-vpk-5', 'A-vpk-12', 'A-vpk-24', 'A-vpk-48'])('%s', (id) => {
    near(tankPeakVoltage({ voltage: input(id, 'Vdc'), current: 0, dropResistance: 0, peakFactor: 1 }), expected(id, 'Vds_pk'));
  });

  test('A-vpk-28-published: 28 V gives 88 V in a glossary of the radio trade', () => {
    const id = 'A-vpk-28-published';
    const peak = tankPeakVoltage({ voltage: input(id, 'VDD'), current: 0, dropResistance: 0, peakFactor: 1 });
    expect(row(id).known).toBe('read');
    expect(Math.abs(peak - expected(id, 'Vpeak'))).toBeLessThanOrEqual(0.5);
  });

  test('A-von-12: a constant drop is taken off before the factor π', () => {
    const id = 'A-von-12';
    const tank = tankPeakVoltage({ voltage: input(id, 'Vdc'), current: 1, dropResistance: input(id, 'Von'), peakFactor: 1 });
    near(tank, expected(id, 'Vtank_pk'));
    near(tank + input(id, 'Von'), expected(id, 'Vdrain_pk'));
  });
});

describe('power and currents, Kazimierczuk & Czarkowski', () => {
  test.each(['A-power-12V-50R', 'A-power-24V-20R'])('%s', (id) => {
    const current = supplyCurrent({ voltage: input(id, 'Vdc'), parallelResistance: input(id, 'R'), dropResistance: 0, powerFactor: 1 });
    near(current, expected(id, 'Idc'));
    near(current * input(id, 'Vdc'), expected(id, 'Pin'));
    near(input(id, 'Vdc') / current, expected(id, 'Rin'));
    near(switchRmsCurrent({ supplyCurrent: current }), expected(id, 'Isw_rms_each'));
  });

  test('A-res-12V-50R: resistances in the way', () => {
    const id = 'A-res-12V-50R';
    const dropResistance = input(id, 'rc') / 2 + input(id, 'Ron');
    const current = supplyCurrent({ voltage: input(id, 'Vdc'), parallelResistance: input(id, 'R'), dropResistance, powerFactor: 1 });
    const tank = tankPeakVoltage({ voltage: input(id, 'Vdc'), current, dropResistance, peakFactor: 1 });
    near(current, expected(id, 'Idc'));
    near(tank, expected(id, 'Vtank_pk'));
    near(tank ** 2 / (2 * input(id, 'R')) / (input(id, 'Vdc') * current), expected(id, 'efficiency'));
  });
});

describe('the tank, textbook LC resonance', () => {
  test.each(['A-tank-12V-10uH-1uF', 'A-tank-24V-2uH-0.66uF'])('%s', (id) => {
    const [inductance, capacitance] = [input(id, 'L'), input(id, 'C')];
    const impedance = characteristicImpedance({ inductance, capacitance });
    near(resonantFrequency({ inductance, capacitance }), expected(id, 'f0'));
    near(impedance, expected(id, 'Z0'));
    near((Math.PI * input(id, 'Vdc')) / impedance, expected(id, 'Itank_pk'));
  });
});

describe('finite quality, exact for an infinite choke', () => {
  test.each(['A-finiteQ-1', 'A-finiteQ-3', 'A-finiteQ-10', 'A-finiteQ-20'])('%s', (id) => {
    const quality = input(id, 'Q_parallel = R sqrt(C/L)');
    near(finiteQualityPeakFactor({ quality }), expected(id, 'Vpk_over_piVdc'));
    near(dampedFrequencyRatio({ quality }), expected(id, 'f_over_f0'));
  });

  test('the power factor is the mean square of the damped half-sine, integrated', () => {
    for (const quality of [0.6, 1, 3, 10]) {
      const q = 1 / Math.sqrt(4 * quality ** 2 - 1);
      const amplitude = (2 * (1 + q * q)) / (1 + Math.exp(-Math.PI * q));
      const steps = 20000;
      let sum = 0;
      for (let i = 0; i < steps; i++) sum += (Math.exp((-q * (i + 0.5) * Math.PI) / steps) * Math.sin(((i + 0.5) * Math.PI) / steps)) ** 2;
      near(finiteQualityPowerFactor({ quality }), (2 * amplitude ** 2 * sum) / steps, 1e-7);
    }
  });

  test.each([dampedFrequencyRatio, finiteQualityPeakFactor, finiteQualityPowerFactor])('%o refuses a tank that cannot ring', (formula) => {
    expect(() => formula({ quality: 0.5 })).toThrow(RangeError);
    expect(() => formula({ quality: Number.NaN })).toThrow(RangeError);
  });
});

describe('choke ripple, derived by integration', () => {
  test('A-ripple-const', () => {
    const unit = { voltage: 1, frequency: 1 / (2 * Math.PI), chokeInductance: 1 };
    near(chokeRipple({ arrangement: 'two', ...unit }), expected('A-ripple-const', 'k2'));
    near(chokeRipple({ arrangement: 'centre-tap', ...unit }), expected('A-ripple-const', 'k1'));
  });

  test.each(['A-ripple-12V-50k-100u', 'A-ripple-24V-100k-47u'])('%s', (id) => {
    const given = { voltage: input(id, 'Vdc'), frequency: input(id, 'f_tank'), chokeInductance: input(id, 'Lch') };
    near(chokeRipple({ arrangement: 'two', ...given }), expected(id, 'dIpp_two_chokes_each'));
    near(chokeRipple({ arrangement: 'centre-tap', ...given }), expected(id, 'dIpp_single_choke'));
    near(supplyRipple({ arrangement: 'two', ...given }), expected(id, 'dIpp_supply_two_chokes'));
  });

  test('A-fshift', () => {
    const tankInductance = input('A-fshift', 'L_over_Lch');
    near(chokeFrequencyRatio({ arrangement: 'two', tankInductance, chokeInductance: 1 }), expected('A-fshift', 'f_over_f0'));
  });
});

describe('closed form against the exact periodic solution of the state equations', () => {
  test.each([
    ['A-ode-12V-10uH-1uF-50R-1000uHch', 0.001],
    ['A-ode-12V-10uH-1uF-50R-100uHch', 0.008],
    ['A-ode-12V-10uH-1uF-10R-100uHch', 0.004],
  ])('%s within %d', (id, tolerance) => {
    const [inductance, capacitance, R] = [input(id, 'L'), input(id, 'C'), input(id, 'R')];
    const quality = parallelQuality({
      parallelResistance: R,
      characteristicImpedance: characteristicImpedance({ inductance, capacitance }),
    });
    const voltage = input(id, 'Vdc');
    const frequency =
      resonantFrequency({ inductance, capacitance }) *
      dampedFrequencyRatio({ quality }) *
      chokeFrequencyRatio({ arrangement: 'two', tankInductance: inductance, chokeInductance: input(id, 'Lch_each') });
    const current = supplyCurrent({
      voltage,
      parallelResistance: R,
      dropResistance: 0,
      powerFactor: finiteQualityPowerFactor({ quality }),
    });
    near(frequency, expected(id, 'f'), tolerance);
    near(
      tankPeakVoltage({ voltage, current, dropResistance: 0, peakFactor: finiteQualityPeakFactor({ quality }) }),
      expected(id, 'Vds_pk'),
      tolerance,
    );
    near(current, expected(id, 'Idc'), tolerance);
    near(chokeRipple({ arrangement: 'two', voltage, frequency, chokeInductance: input(id, 'Lch_each') }), expected(id, 'dIpp_choke'), 0.03);
  });
});
