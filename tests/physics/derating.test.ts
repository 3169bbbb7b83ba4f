import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deratingCorners, permissibleLoss, permissibleVoltage } from '../../src/physics/derating.ts';
import { capacitorCurrent, capacitorLoss, effectiveSeriesResistance } from '../../src/physics/capacitor.ts';
import { expected, input, row, siList } from './check-values.ts';
import { near } from './near.ts';

const range = (min: number, max: number) => fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);
const parts = fc.record({
  ratedVoltage: range(50, 1000),
  loss: range(0.05, 5),
  lossTangent: range(2e-4, 0.01),
  ratedCurrent: range(0.5, 50),
  capacitance: range(1e-9, 1e-5),
});

test('D-derate: in the thermal region the voltage is that of the permissible loss', () => {
  const id = 'D-derate';
  const given = { loss: input(id, 'Pmax'), lossTangent: input(id, 'tan_delta'), capacitance: input(id, 'C') };
  siList(row(id).inputs['f']!).forEach((frequency, i) => {
    const { voltage, limitedBy } = permissibleVoltage({ ...given, ratedVoltage: 250, ratedCurrent: 20, frequency });
    near(voltage, siList(row(id).expected['Vrms_thermal']!)[i]!);
    expect(limitedBy).toBe('loss');
  });
});

test('D-thermal: loss for 10 K', () => {
  near(permissibleLoss({ rise: 10, thermalResistance: expected('D-thermal', 'Rth') }), expected('D-thermal', 'P_for_10K'));
});

test('D-ac-frequency: never above the rated ac voltage, and neither loss nor current above theirs', () => {
  fc.assert(
    fc.property(parts, range(10, 1e7), (part, frequency) => {
      const { voltage, limitedBy } = permissibleVoltage({ ...part, frequency });
      const { capacitance, lossTangent } = part;
      const rmsCurrent = capacitorCurrent({ voltage, frequency, capacitance });
      const resistance = effectiveSeriesResistance({ lossTangent, seriesResistance: 0, frequency, capacitance });
      const shares = {
        voltage: voltage / part.ratedVoltage,
        loss: capacitorLoss({ rmsCurrent, effectiveSeriesResistance: resistance }) / part.loss,
        current: rmsCurrent / part.ratedCurrent,
      };
      for (const share of Object.values(shares)) expect(share).toBeLessThanOrEqual(1 + 1e-12);
      near(shares[limitedBy], 1, 1e-12);
      expect(permissibleVoltage({ ...part, frequency: 1.01 * frequency }).voltage).toBeLessThanOrEqual(voltage);
    }),
  );
});

describe('corners', () => {
  test('constant below, f^−½ between, 1/f above, continuous', () => {
    fc.assert(
      fc.property(parts, (part) => {
        const { thermalFrom, currentFrom } = deratingCorners(part);
        const at = (frequency: number) => permissibleVoltage({ ...part, frequency });
        const slope = (low: number, high: number): number => Math.log(at(high).voltage / at(low).voltage) / Math.log(high / low);
        expect(at(0.999 * thermalFrom)).toEqual({ voltage: part.ratedVoltage, limitedBy: 'voltage' });
        near(slope(0.5 * thermalFrom, 0.9 * thermalFrom), 0, 1e-9);
        expect(at(1.001 * currentFrom).limitedBy).toBe('current');
        near(slope(1.1 * currentFrom, 2 * currentFrom), -1, 1e-9);
        near(at(thermalFrom).voltage, part.ratedVoltage, 1e-9);
        if (currentFrom > 1.01 * thermalFrom) near(slope(1.001 * thermalFrom, 0.999 * currentFrom), -0.5, 1e-6);
      }),
    );
  });

  test('without a rated current only voltage and loss count', () => {
    const part = { ratedVoltage: 250, loss: 0.25, lossTangent: 0.0025, capacitance: 330e-9, frequency: 1e7 };
    expect(permissibleVoltage(part).limitedBy).toBe('loss');
    expect(permissibleVoltage({ ...part, ratedCurrent: 1 }).limitedBy).toBe('current');
  });

  test('figures that are missing or not above zero are refused', () => {
    const part = { ratedVoltage: 250, loss: 0.25, lossTangent: 0.0025, ratedCurrent: 5, capacitance: 330e-9 };
    for (const name of Object.keys(part))
      for (const wrong of [0, -1, Number.NaN, Infinity]) {
        expect(() => permissibleVoltage({ ...part, frequency: 1e5, [name]: wrong })).toThrow(RangeError);
        expect(() => deratingCorners({ ...part, [name]: wrong })).toThrow(RangeError);
      }
    expect(() => permissibleLoss({ rise: 10, thermalResistance: 0 })).toThrow(RangeError);
  });
});
