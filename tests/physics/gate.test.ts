import { describe, expect, test } from 'vitest';
import { clampPower, diodeDrop, gateHighVoltage, gateRiseTime, pullUpDiode, pullUpPower } from '../../src/physics/gate.ts';
import { touchVoltageLimit } from '../../src/physics/touch-voltage.ts';
import { expected, input, row } from './check-values.ts';
import { near } from './near.ts';

test('A-pullup-loss, Ohm’s law', () => {
  const id = 'A-pullup-loss';
  near(pullUpPower({ feed: input(id, 'Vs'), diodeDrop: 0, gateHigh: input(id, 'Vs'), pullUp: input(id, 'R') }), expected(id, 'P_avg'));
});

test('A-pullup-delay, first-order RC response', () => {
  const id = 'A-pullup-delay';
  const time = gateRiseTime({
    feed: input(id, 'Vs'),
    pullUp: input(id, 'R'),
    pullDown: Infinity,
    capacitance: input(id, 'Ciss'),
    target: input(id, 'Vth'),
  });
  near(time!, expected(id, 't'));
});

test('A-gate-diode-vr: a cross diode blocks the drain peak less the gate', () => {
  const id = 'A-gate-diode-vr';
  near(expected(id, 'Vds_pk') - input(id, 'Vg_on'), expected(id, 'Vr_diode'));
});

describe('the gate network', () => {
  const network = { feed: 24, pullUp: 470, pullDown: 10e3 };
  test('without a clamp it divides, with one it stops there', () => {
    near(gateHighVoltage({ ...network, clamp: Infinity }), (24 * 10e3) / 10470);
    expect(gateHighVoltage({ ...network, clamp: 12 })).toBe(12);
  });
  test('currents balance: what the pull-up brings, clamp and pull-down take', () => {
    const zener = 2 * clampPower({ ...network, clamp: 12 });
    near(zener / 12, (24 - 12) / 470 - 12 / 10e3);
    expect(clampPower({ ...network, clamp: 30 })).toBe(0);
  });
  test('figures of the trade for a 470 Ω pull-up: 0.72 W at 24 V and 3.7 W at 48 V, common practice, no source', () => {
    near(pullUpPower({ feed: 24, diodeDrop: 0.9, gateHigh: 12, pullUp: 470 }), 0.72, 0.02);
    near(pullUpPower({ feed: 48, diodeDrop: 0.9, gateHigh: 12, pullUp: 470 }), 3.7, 0.02);
  });
  test('a gate that is divided below its target never gets there', () => {
    expect(gateRiseTime({ feed: 5, pullUp: 1000, pullDown: 1000, capacitance: 1e-9, target: 2.5 })).toBeUndefined();
  });
});

describe('drop of the cross diode at the pull-up’s current', () => {
  test('46 mV per factor e below its stated current', () => {
    near(diodeDrop({ statedDrop: 1, statedCurrent: 1, current: Math.exp(-1) }), 0.954);
  });
  test('drop and current agree with each other', () => {
    const { drop, current } = pullUpDiode({ feed: 24, pullUp: 470, statedDrop: 1, statedCurrent: 1 });
    near(current, (24 - drop) / 470);
    near(drop, diodeDrop({ statedDrop: 1, statedCurrent: 1, current }), 1e-9);
    expect(drop).toBeGreaterThan(0.8);
    expect(drop).toBeLessThan(0.9);
  });
});

describe('touch voltage, IEC 62368-1:2014/2018 Table 4', () => {
  test.each(['H-62368-0.5k', 'H-62368-10k', 'H-62368-100k', 'H-62368-200k'])('%s', (id) => {
    const frequency = input(id, 'f');
    near(touchVoltageLimit({ energyClass: 'ES1', frequency }), expected(id, 'ES1_rms'), 1e-3);
    near(touchVoltageLimit({ energyClass: 'ES2', frequency }), expected(id, 'ES2_rms'), 1e-3);
    near(Math.SQRT2 * touchVoltageLimit({ energyClass: 'ES2', frequency }), expected(id, 'ES2_pk'), 1e-3);
  });
  test('H-60950: extra-low voltage of IEC 60950-1 is the ES1 peak at mains frequency', () => {
    expect(row('H-60950').known).toBe('read');
    near(Math.SQRT2 * touchVoltageLimit({ energyClass: 'ES1', frequency: 50 }), expected('H-60950', 'Vpk'), 1e-3);
  });
});
