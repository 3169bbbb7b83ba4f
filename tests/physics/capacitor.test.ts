import { describe, expect, test } from 'vitest';
import {
  capacitorCurrent,
  capacitorLoss,
  effectiveSeriesResistance,
  largestVoltageShare,
  lossTangentAt,
  selfHeating,
  sineSlope,
  thermalVoltageLimit,
} from '../../src/physics/capacitor.ts';
import { expected, input, row, siList } from './check-values.ts';
import { near } from './near.ts';

describe('loss of a film capacitor, IEC 60384-1 definitions', () => {
  test.each(['D-loss-330n-100k-0.0025', 'D-loss-330n-100k-0.03'])('%s', (id) => {
    const [capacitance, frequency, lossTangent] = [input(id, 'C'), input(id, 'f'), input(id, 'tan_delta')];
    const voltage = input(id, 'Vpk') / Math.SQRT2;
    const rmsCurrent = capacitorCurrent({ voltage, frequency, capacitance });
    const esr = effectiveSeriesResistance({ lossTangent, seriesResistance: 0, frequency, capacitance });
    near(voltage, expected(id, 'Vrms'));
    near(rmsCurrent, expected(id, 'Irms'));
    near(esr, expected(id, 'ESR'));
    near(capacitorLoss({ rmsCurrent, effectiveSeriesResistance: esr }), expected(id, 'P'));
    near(voltage * rmsCurrent, expected(id, 'Q_reactive'));
  });

  test('D-loss-hotspot: dielectric and series resistance add, read in a maker’s data sheet', () => {
    const id = 'D-loss-hotspot';
    const [capacitance, frequency, lossTangent, seriesResistance] = [
      input(id, 'C'),
      input(id, 'f'),
      input(id, 'tan_delta0'),
      input(id, 'Rs'),
    ];
    const rmsCurrent = capacitorCurrent({ voltage: input(id, 'V'), frequency, capacitance });
    near(rmsCurrent, expected(id, 'I'));
    const dielectric = effectiveSeriesResistance({ lossTangent, seriesResistance: 0, frequency, capacitance });
    near(capacitorLoss({ rmsCurrent, effectiveSeriesResistance: dielectric }), expected(id, 'P_dielectric'));
    const both = effectiveSeriesResistance({ lossTangent, seriesResistance, frequency, capacitance });
    near(capacitorLoss({ rmsCurrent, effectiveSeriesResistance: both }), expected(id, 'P_dielectric') + expected(id, 'P_joule'));
    expect(row(id).known).toBe('read+computed');
  });

  test('D-thermal: a power and a thermal resistance give the rise', () => {
    near(selfHeating({ loss: expected('D-thermal', 'P_for_10K'), thermalResistance: expected('D-thermal', 'Rth') }), 10);
  });
});

describe('slope and current', () => {
  test.each(['D-dvdt-330n', 'D-dvdt-1000n'])('%s: I = C·dv/dt, for a sine of that slope', (id) => {
    const slope = input(id, 'dvdt');
    near(capacitorCurrent({ voltage: slope / (2 * Math.PI * 1e5), frequency: 1e5, capacitance: input(id, 'C') }), expected(id, 'Ipk'));
  });
  test('D-sine-dvdt', () => {
    near(sineSlope({ peakVoltage: input('D-sine-dvdt', 'Vpk'), frequency: input('D-sine-dvdt', 'f') }), expected('D-sine-dvdt', 'dvdt'));
  });
  test('D-derate: in the thermal region the ac voltage falls with the root of frequency', () => {
    const id = 'D-derate';
    const wanted = siList(row(id).expected['Vrms_thermal']!);
    siList(row(id).inputs['f']!).forEach((frequency, i) => {
      near(
        thermalVoltageLimit({ power: input(id, 'Pmax'), frequency, capacitance: input(id, 'C'), lossTangent: input(id, 'tan_delta') }),
        wanted[i]!,
      );
    });
  });
});

describe('loss tangent between the points of a curve', () => {
  const frequencies = siList(row('D-tand-guide').inputs['f']!);
  const values = siList(row('D-tand-guide').expected['PP']!);
  const points = frequencies.map((frequency, i) => ({ frequency, lossTangent: values[i]! }));

  test('D-tand-guide: at the points of the maker’s table it is the table', () => {
    points.forEach(({ frequency, lossTangent }) => {
      const found = lossTangentAt({ points, frequency });
      near(found.lossTangent, lossTangent);
      expect(found.inside).toBe(true);
    });
  });
  test('between points it lies between their values, above the last it grows with frequency and says so', () => {
    const between = lossTangentAt({ points, frequency: 30e3 });
    expect(between.lossTangent).toBeGreaterThan(values[1]!);
    expect(between.lossTangent).toBeLessThan(values[2]!);
    expect(lossTangentAt({ points, frequency: 200e3 })).toEqual({ lossTangent: 2 * values[2]!, inside: false });
    expect(lossTangentAt({ points, frequency: 100 })).toEqual({ lossTangent: values[0]!, inside: false });
  });
  test('a zero between points does not become NaN, and no points are refused', () => {
    expect(
      lossTangentAt({
        points: [
          { frequency: 1, lossTangent: 0 },
          { frequency: 3, lossTangent: 1 },
        ],
        frequency: 2,
      }).lossTangent,
    ).toBeGreaterThan(0);
    expect(() => lossTangentAt({ points: [], frequency: 1 })).toThrow(RangeError);
  });
});

test('equal capacitors in series share equally; the smallest of a ± 10 % pair takes 55 %', () => {
  near(largestVoltageShare({ series: 1, tolerance: 0.1 }), 1);
  near(largestVoltageShare({ series: 3, tolerance: 0 }), 1 / 3);
  near(largestVoltageShare({ series: 2, tolerance: 0.1 }), 0.55);
});
