import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analysed, edited, example, measuredPad, quantity, reviewed } from '../checks/reviewed.ts';
import { near } from '../physics/near.ts';

/** 24 V, 2 µH, 0.66 µF, 25 Ω, two 100 µH chokes, every resistance at or below 0.1 mΩ: nearly the ideal stage. */
const ideal = `tankproof: 1
supply: {voltage: 24 V, tolerance: 0 %, riseTime: 0 s, resistance: 0.1 mohm}
chokes: {arrangement: two, inductance: 100 uH, resistance: 0.1 mohm, saturationCurrent: 20 A}
tank:
  coil: {inductance: 2 uH, resistance: 0.001 mohm}
  bank: {part: {capacitance: 0.66 uF, voltageDc: 630 V, lossTangent: 0, tolerance: 0 %}}
loads: [{name: load, parallelResistance: 25 ohm}]
switches:
  part: {drainVoltage: 200 V, onResistance: 0.1 mohm, onResistanceAt: {gateVoltage: 10 V, drainCurrent: 18 A}, thresholdMin: 2 V, thresholdMax: 4 V, gateVoltage: 20 V, junctionTemperature: 175 degC, junctionToCase: 0.7 K/W, caseToSink: 0.2 K/W, transconductance: 17 S, inputCapacitance: 2 nF, gateCharge: 100 nC}
  heatsink: 5 K/W
gates: {pullUp: {resistance: 470 ohm, power: 2 W, from: supply}, clamp: 1N4742A, crossDiode: UF4004}
`;
const of = (text: string, id: string): number => {
  const value = quantity(text, id);
  if (value === null) throw new Error(`${id} is not known`);
  return value;
};

describe('the ideal stage, check-values A-tank-24V-2uH-0.66uF and A-power', () => {
  test.each([
    ['tank.resonance', 138.5e3, 50],
    ['tank.frequency', 139.3e3, 50],
    ['drain.peak', 75.4, 0.05],
    ['tank.currentPeak', 43.3, 0.05],
    ['supply.current', 4.74, 0.005],
    ['supply.power', 113.7, 0.1],
    ['choke.ripple', 0.95, 0.005],
  ])('%s is %d', (id, wanted, within) => {
    expect(Math.abs(of(ideal, id) - wanted)).toBeLessThanOrEqual(within);
  });
});

describe('switch-on', () => {
  test('onto a live rail reaches well above π·V, and the report says so', () => {
    const peak = of(ideal, 'drain.peakAtSwitchOn');
    near(peak / (Math.PI * 24), 1 + Math.exp((-Math.PI * 0.271) / Math.sqrt(1 - 0.271 ** 2)), 0.01);
    const surge = reviewed(ideal).get('switch-surge-voltage')!;
    expect(surge.basis.join(' ')).toMatch(/1\.\d+ times π·V/);
  });

  test('with the gates on their own rail and a rise of 5 ms stays within 3 % of π·V', () => {
    const slow = edited(ideal, ['from: supply', 'from: 12 V'], ['riseTime: 0 s', 'riseTime: 5 ms']);
    near(of(slow, 'drain.peakAtSwitchOn'), Math.PI * 24, 0.03);
  });

  test('with the gates on a supply that rises is not known, and never a low number', () => {
    const unknown = edited(ideal, ['riseTime: 0 s', 'riseTime: 5 ms']);
    expect(quantity(unknown, 'drain.peakAtSwitchOn')).toBeNull();
    const surge = reviewed(unknown).get('switch-surge-voltage')!;
    expect(surge).toMatchObject({ verdict: 'not assessed', value: null });
  });

  test('with the gates held until the rail is up is the step again, however slowly it rises', () => {
    const held = edited(ideal, ['from: supply', 'from: supply, hold: true'], ['riseTime: 0 s', 'riseTime: 5 ms']);
    near(of(held, 'drain.peakAtSwitchOn'), of(ideal, 'drain.peakAtSwitchOn'));
  });

  test('a rise time between two nulls of the overshoot does not hide it from the verdict', () => {
    const period = (2 * Math.PI) / (1 / (Math.PI * Math.sqrt(50e-6 * 0.66e-6)));
    const atNull = edited(
      ideal,
      ['from: supply', 'from: 12 V'],
      ['riseTime: 0 s', `riseTime: ${(period * 1e6).toFixed(3)} us`],
      ['parallelResistance: 25 ohm', 'parallelResistance: 2 kohm'],
    );
    const judged = reviewed(atNull).get('switch-surge-voltage')!.value!;
    expect(of(atNull, 'drain.peakAtSwitchOn') / (Math.PI * 24)).toBeLessThan(1.03);
    expect(judged / (Math.PI * 24)).toBeGreaterThan(1.2);
  });

  test('a rail that rings far more slowly than the envelope lifts the peak as far as itself, one that rings faster hardly does', () => {
    const fed = (bulk: string, lead: string): string =>
      edited(
        ideal,
        ['resistance: 0.1 mohm}\nchokes', `resistance: 0.1 mohm, bulkCapacitance: ${bulk}, leadInductance: ${lead}}\nchokes`],
        ['from: supply', 'from: 12 V'],
      );
    const peak = (text: string): number => {
      const { switchOn } = analysed(text).nominal[0]!;
      return switchOn !== undefined && !('unknown' in switchOn) ? switchOn.tankPeak / (Math.PI * 24) : NaN;
    };
    near(peak(fed('20 mF', '200 uH')), 2, 0.02);
    near(peak(fed('100 uF', '1 nH')), peak(ideal), 0.03);
    // near resonance of the two the peak goes past what a step of the overshot rail would give
    expect(peak(fed('100 uF', '3.2 uH'))).toBeGreaterThan(2.1);
  });

  test.each([
    ['300 us', 1.4],
    ['1 ms', 1.1],
  ])('a supply that rises in %s does not hide the ringing of 10 uH and 4700 uF', (riseTime, least) => {
    const text = edited(
      ideal,
      ['resistance: 0.1 mohm}\nchokes', 'resistance: 5 mohm, bulkCapacitance: 4700 uF, leadInductance: 10 uH}\nchokes'],
      ['from: supply', 'from: 12 V'],
      ['riseTime: 0 s', `riseTime: ${riseTime}`],
    );
    const surge = reviewed(text).get('switch-surge-voltage')!.value ?? Infinity;
    const { switchOn } = analysed(text).corners[0]!;
    expect(switchOn !== undefined && 'drainPeak' in switchOn && switchOn.drainPeak / (Math.PI * 24)).toBeGreaterThan(least);
    expect(surge / (Math.PI * 24)).toBeGreaterThan(least);
  });

  test('gates fed from a live rail behind leads and a bulk capacitor see it rise: not assessed', () => {
    const text = edited(ideal, [
      'resistance: 0.1 mohm}\nchokes',
      'resistance: 5 mohm, bulkCapacitance: 4700 uF, leadInductance: 1 uH}\nchokes',
    ]);
    expect(reviewed(text).get('switch-surge-voltage')).toMatchObject({ verdict: 'not assessed', value: null });
  });

  test('a foreseen one-sided start passes nothing, and a fail by the envelope alone stays one', () => {
    const stalled = edited(
      ideal,
      ['inductance: 2 uH', 'inductance: 4.8 uH'],
      ['transconductance: 17 S', 'transconductance: 60 S'],
      ['parallelResistance: 25 ohm', 'parallelResistance: 14 ohm'],
    );
    const switchOn = analysed(stalled).corners[0]!.switchOn!;
    expect('doubt' in switchOn && switchOn.doubt).toContain('one-sided start');
    expect(reviewed(stalled).get('switch-surge-voltage')!.verdict).toBe('not assessed');
    expect(reviewed(edited(stalled, ['drainVoltage: 200 V', 'drainVoltage: 90 V'])).get('switch-surge-voltage')!.verdict).toBe('fail');
  });
});

describe('load removal', () => {
  test('lies between the running peak and the lossless bound π·V + I·√(Le/C)', () => {
    const peak = of(ideal, 'drain.peakAtLoadRemoval');
    expect(peak).toBeGreaterThan(of(ideal, 'drain.peak') * 1.2);
    expect(peak).toBeLessThanOrEqual(Math.PI * 24 + of(ideal, 'supply.current') * Math.sqrt(50e-6 / 0.66e-6) + 0.1);
  });
  test('of nothing is nothing', () => {
    const empty = edited(ideal, ['loads: [{name: load, parallelResistance: 25 ohm}]', 'loads: [{name: empty}]']);
    near(of(empty, 'drain.peakAtLoadRemoval'), of(empty, 'drain.peak'), 1e-3);
  });
});

describe('load forms', () => {
  const pad = measuredPad;
  const load = (form: string): string => edited(ideal, ['parallelResistance: 25 ohm', form]);
  test('a power is that power at the nominal voltage: R = (π·V)²/(2P)', () => {
    near(of(load('power: 113.7 W'), 'tank.resistance'), (Math.PI * 24) ** 2 / (2 * 113.7), 1e-3);
  });
  test('a loaded Q includes everything', () => {
    near(of(load('loadedQ: 12'), 'tank.quality'), 12, 1e-9);
  });
  test('a frequency shift moves the resonance by its share', () => {
    near(of(load('parallelResistance: 25 ohm, frequencyShift: -2 %'), 'tank.resonance'), 0.98 * of(ideal, 'tank.resonance'), 1e-9);
  });
  test('a power of zero adds nothing', () => {
    near(of(edited(pad, ['power: 25 W', 'power: 0 W'], ['frequencyShift: -2 %', '# no shift']), 'tank.quality'), of(pad, 'tank.quality'));
  });
});

describe('laws that hold whatever the numbers', () => {
  const scaled = (changes: readonly (readonly [string, string])[]): string => edited(ideal, ...changes);
  test('four times the inductance halves the frequency and doubles the impedance', () => {
    const four = scaled([['inductance: 2 uH', 'inductance: 8 uH']]);
    near(of(four, 'tank.resonance'), of(ideal, 'tank.resonance') / 2);
    near(of(four, 'tank.impedance'), of(ideal, 'tank.impedance') * 2);
  });
  test('voltages and currents of the ideal stage grow with the supply, power with its square', () => {
    fc.assert(
      fc.property(fc.integer({ min: 12, max: 60 }), (volts) => {
        const other = scaled([['voltage: 24 V', `voltage: ${volts} V`]]);
        near(of(other, 'drain.peak'), (of(ideal, 'drain.peak') * volts) / 24, 1e-3);
        near(of(other, 'supply.power'), of(ideal, 'supply.power') * (volts / 24) ** 2, 1e-3);
        near(of(other, 'drain.peakAtSwitchOn'), (of(ideal, 'drain.peakAtSwitchOn') * volts) / 24, 1e-3);
      }),
      { seed: 2, numRuns: 20 },
    );
  });
  test('energy is kept: supply power is tank power plus the losses on the way', () => {
    const lossy = edited(example('bolt-heater'), ['tolerance: 5 %', 'tolerance: 0 %']);
    const current = of(lossy, 'supply.current');
    const drops = current ** 2 * (0.03 + 0.004 + of(lossy, 'switch.resistance'));
    const tank = of(lossy, 'tank.voltagePeak') ** 2 / (2 * of(lossy, 'tank.resistance'));
    near(of(lossy, 'supply.power'), tank + drops, 2e-3);
  });
  test('capacitors side by side share the current, in series the voltage', () => {
    const two = edited(ideal, ['bank: {part: {capacitance: 0.66 uF', 'bank: {parallel: 4, series: 2, part: {capacitance: 0.33 uF']);
    near(of(two, 'tank.capacitance'), 0.66e-6);
    near(of(two, 'bank.currentPerCapacitor'), of(ideal, 'bank.currentPerCapacitor') / 4, 1e-9);
    near(reviewed(two).get('capacitor-peak-voltage')!.value!, reviewed(ideal).get('capacitor-peak-voltage')!.value! / 2, 1e-9);
  });
});

describe('outside the range of the closed forms', () => {
  test('a value near the range gets an allowance, and transients are not relied upon', () => {
    const wide = reviewed(
      edited(ideal, ['parallelResistance: 25 ohm', 'parallelResistance: 6 ohm'], ['drainVoltage: 200 V', 'drainVoltage: 400 V']),
    );
    expect(wide.get('switch-peak-voltage')!.basis.join(' ')).toContain('outside the confirmed range');
    expect(wide.get('switch-surge-voltage')).toMatchObject({ verdict: 'not assessed' });
  });
  test('far outside nothing that rests on them passes, while a fail stays one', () => {
    const far = edited(ideal, ['inductance: 100 uH', 'inductance: 12 uH']);
    expect(reviewed(far).get('switch-peak-voltage')).toMatchObject({ verdict: 'not assessed' });
    expect(reviewed(edited(far, ['drainVoltage: 200 V', 'drainVoltage: 60 V'])).get('switch-peak-voltage')).toMatchObject({
      verdict: 'fail',
    });
    expect(reviewed(far).get('choke-ratio')).toMatchObject({ verdict: 'fail' });
  });
  test('a tank that cannot ring fails loaded-q and latch-up, and nothing else claims a value', () => {
    const dead = reviewed(edited(ideal, ['parallelResistance: 25 ohm', 'parallelResistance: 0.8 ohm']));
    expect(dead.get('loaded-q')).toMatchObject({ verdict: 'fail' });
    expect(dead.get('latch-up')).toMatchObject({ verdict: 'fail' });
    expect(dead.get('switch-peak-voltage')).toMatchObject({ verdict: 'not assessed', value: null });
  });
});

describe('the junction', () => {
  test('without a steady temperature is a thermal runaway and fails', () => {
    const hot = edited(
      ideal,
      ['onResistance: 0.1 mohm', 'onResistance: 200 mohm'],
      ['transconductance: 17 S', 'thresholdDrift: -0.1 mV/K, transconductance: 17 S'],
      ['heatsink: 5 K/W', 'heatsink: 60 K/W'],
      ['thresholdMin: 2 V, thresholdMax: 4 V', 'thresholdMin: 9 V, thresholdMax: 11 V'],
      ['clamp: 1N4742A', 'clamp: 1N4744A'],
    );
    expect(reviewed(hot).get('switch-temperature')).toMatchObject({ verdict: 'fail', value: null });
    expect(reviewed(hot).get('switch-temperature')!.reason).toContain('runaway');
  });
  test('two devices side by side carry half each and stay cooler', () => {
    const heater = example('bolt-heater');
    const pair = edited(heater, ['part: IRFP4668', 'part: IRFP4668\n  parallel: 2']);
    expect(of(pair, 'switch.resistance')).toBeLessThan(0.51 * of(heater, 'switch.resistance') + 1e-3);
  });
});
