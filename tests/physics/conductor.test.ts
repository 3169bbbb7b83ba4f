import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { besselRatio, scaledBessel } from '../../src/physics/bessel.ts';
import { over, plus, scaled, times } from '../../src/physics/complex.ts';
import { dcResistance, internalFactor, skinDepth, tubeImpedance, wireImpedance } from '../../src/physics/conductor-resistance.ts';
import { litzProblem, litzResistance, litzWindingRatio } from '../../src/physics/litz.ts';
import { conductors, resistivityOf } from '../../src/physics/resistivity.ts';
import { dowellRatio, transverseFieldLoss } from '../../src/physics/winding-loss.ts';
import { gaugeDiameter } from '../../src/physics/wire-gauge.ts';
import { expected, input, row, siList } from './check-values.ts';
import { near } from './near.ts';

const inputs = (id: string, name: string): number[] => siList(row(id).inputs[name]!);
const expectedAll = (id: string, name: string): number[] => siList(row(id).expected[name]!);
const ρ = 1 / 58e6;
/** R/R0 of a wire whose radius is u skin depths. */
const ratioAt = (u: number): number => {
  const radius = u * skinDepth({ resistivity: ρ, frequency: 1e5 });
  return (
    wireImpedance({ radius, resistivity: ρ, frequency: 1e5 }).resistance / dcResistance({ resistivity: ρ, area: Math.PI * radius ** 2 })
  );
};
const depthRatio = fc.double({ min: -3, max: 3, noNaN: true }).map((x) => 10 ** x);

describe('Bessel functions', () => {
  test('Wronskian and recurrence hold everywhere', () => {
    fc.assert(
      fc.property(fc.double({ min: -4, max: 5, noNaN: true }), (x) => {
        const u = 10 ** x;
        const z = { re: u, im: u };
        const { i0, i1, k0, k1 } = scaledBessel({ depthRatio: u });
        const one = times(z, plus(times(i0, k1), times(i1, k0)));
        near(one.re, 1, 1e-13);
        near(one.im, 0, 1e-13);
        const ratio = over(i1, times(z, i0));
        near(ratio.re, besselRatio({ order: 1, depthRatio: u }).re, 1e-12);
        // I0 − I2 = (2/z)·I1
        const [w1, w2] = [besselRatio({ order: 1, depthRatio: u }), besselRatio({ order: 2, depthRatio: u })];
        const zero = plus(plus(scaled(w1, 2), times(times(times(z, z), w1), w2)), { re: -1, im: 0 });
        near(Math.hypot(zero.re, zero.im), 0, 1e-10);
      }),
    );
  });
});

describe('materials', () => {
  test('C-iacs: IEC 60028', () => {
    near(resistivityOf({ material: 'copper', temperature: 293.15 }), expected('C-iacs', 'rho'), 1e-9);
    near(1 / conductors.copper.resistivity, expected('C-iacs', 'sigma'));
    near(conductors.copper.coefficient, expected('C-iacs', 'alpha20'));
  });

  test('C-tempco: IEC 60028, and the 235 rule of IEC 60034-1 within 0.1 %', () => {
    const id = 'C-tempco';
    for (const [i, temperature] of inputs(id, 'T').entries()) {
      const ratio = resistivityOf({ material: 'copper', temperature }) * 58e6;
      near(ratio, expectedAll(id, 'R_over_R20_alpha')[i]!);
      near(ratio, expectedAll(id, 'R_over_R20_235rule')[i]!, 1e-3);
    }
  });

  test('copper conducts better than all but silver', () => {
    for (const [name, { resistivity }] of Object.entries(conductors))
      if (name !== 'copper') expect(resistivity > conductors.copper.resistivity).toBe(name !== 'silver');
  });

  test('a temperature out of range is refused', () => {
    for (const temperature of [0, 1000, Number.NaN]) expect(() => resistivityOf({ material: 'copper', temperature })).toThrow(RangeError);
  });
});

describe('skin effect of wire', () => {
  test('C-skin, C-skin-60Hz-published, C-skin-table-launchloop', () => {
    for (const [i, frequency] of inputs('C-skin', 'f').entries())
      near(skinDepth({ resistivity: ρ, frequency }), expectedAll('C-skin', 'delta')[i]!, 1e-8);
    near(skinDepth({ resistivity: ρ, frequency: 60 }), expected('C-skin-60Hz-published', 'delta'), 0.007);
    const id = 'C-skin-table-launchloop';
    for (const [i, frequency] of inputs(id, 'f').entries())
      near(skinDepth({ resistivity: input(id, 'rho'), frequency }), expectedAll(id, 'delta')[i]!, 0.03);
  });

  test('C-round-table, C-round-NeherMcGrath: NBS Circular 74; AIEE Trans. 76, 1957; x is √2·a/δ', () => {
    for (const [i, x] of inputs('C-round-table', 'x').entries())
      near(ratioAt(x / Math.SQRT2), expectedAll('C-round-table', 'R_over_R0')[i]!, 1e-8);
    const id = 'C-round-NeherMcGrath';
    near(ratioAt(input(id, 'x_s') / Math.SQRT2), expected(id, 'R_over_R0'), 1e-4);
  });

  test('C-round-awg10-100k, C-round-awg10-measured, C-wire-1mm-100k', () => {
    const wire = (d: number, frequency: number): number => wireImpedance({ radius: d / 2, resistivity: ρ, frequency }).resistance;
    const d = input('C-round-awg10-100k', 'd');
    const ratio = wire(d, 1e5) / wire(d, 0);
    near(ratio, expected('C-round-awg10-100k', 'R_over_R0'), 1e-8);
    near(ratio, expected('C-round-awg10-measured', 'ratio_measured'), 0.12);
    const id = 'C-wire-1mm-100k';
    near(wire(input(id, 'd_DIAMETER'), 0), expected(id, 'Rdc'), 1e-8);
    near(wire(input(id, 'd_DIAMETER'), input(id, 'f')), expected(id, 'Rac'), 1e-8);
  });

  test('C-round-asymp: large radius', () => {
    near(ratioAt(input('C-round-asymp', 'a_over_delta')), expected('C-round-asymp', 'exact'), 1e-8);
    for (const u of [100, 1000, 1e5]) near(ratioAt(u), u / 2 + 1 / 4 + 3 / (32 * u), 1e-6);
  });

  test('rises with frequency, from direct current; internal inductance falls from µ0/8π', () => {
    fc.assert(
      fc.property(depthRatio, fc.double({ min: 1.01, max: 10, noNaN: true }), (u, more) => {
        expect(ratioAt(u)).toBeGreaterThanOrEqual(1 - 1e-12);
        expect(ratioAt(u * more)).toBeGreaterThanOrEqual(ratioAt(u) * (1 - 1e-12));
        const Y = (f: number): number => internalFactor(wireImpedance({ radius: u * 1e-3, resistivity: ρ, frequency: f }));
        expect(Y(1e5 * more)).toBeLessThanOrEqual(Y(1e5) + 1e-12);
        near(Y(0), 1, 1e-7);
      }),
    );
  });
});

describe('skin effect of tube', () => {
  const tube = (id: string): number =>
    tubeImpedance({ outerRadius: input(id, 'OD_DIAMETER') / 2, wall: input(id, 'wall'), resistivity: ρ, frequency: input(id, 'f') })
      .resistance;

  test.each(['C-tube-6-1-50k', 'C-tube-6-1-100k', 'C-tube-10-1-1k'])('%s: Dwight 1918', (id) => {
    near(tube(id), expected(id, 'Rac_exact'), 1e-8);
    near(tube(id) / expected(id, 'Rdc'), expected(id, 'ratio_exact'), 1e-8);
    // a flat wall of the outer circumference is below, times the tube's own resistance above
    const flat = expected(id, 'planar_F') * (ρ / (Math.PI * input(id, 'OD_DIAMETER') * input(id, 'wall')));
    expect(tube(id)).toBeGreaterThan(flat);
    expect(tube(id)).toBeLessThan(expected(id, 'planar_F') * expected(id, 'Rdc'));
  });

  test('a wall as thick as the radius is a wire; a wall far thinner than the skin is as at direct current; thick walls are as wire', () => {
    fc.assert(
      fc.property(depthRatio, fc.double({ min: 1e-3, max: 0.5, noNaN: true }), (u, t) => {
        const outerRadius = u * skinDepth({ resistivity: ρ, frequency: 1e5 });
        const given = { outerRadius, resistivity: ρ, frequency: 1e5 };
        const wire = wireImpedance({ radius: outerRadius, resistivity: ρ, frequency: 1e5 });
        near(tubeImpedance({ ...given, wall: outerRadius }).resistance, wire.resistance, 1e-12);
        near(tubeImpedance({ ...given, wall: outerRadius * (1 - 1e-5) }).resistance, wire.resistance, 1e-8);
        const wall = t * outerRadius;
        const { resistance } = tubeImpedance({ ...given, wall });
        const dc = dcResistance({ resistivity: ρ, area: Math.PI * wall * (2 * outerRadius - wall) });
        expect(resistance).toBeGreaterThanOrEqual(dc * (1 - 1e-9));
        expect(tubeImpedance({ ...given, frequency: 2e5, wall }).resistance).toBeGreaterThanOrEqual(resistance * (1 - 1e-9));
        if (t * u < 0.05) near(resistance, dc, 1e-4);
        if (t * u > 10) near(resistance, wire.resistance, 1e-6);
      }),
    );
  });

  test('what is no tube is refused', () => {
    for (const wall of [0, -1, 4e-3, Number.NaN])
      expect(() => tubeImpedance({ outerRadius: 3e-3, wall, resistivity: ρ, frequency: 1e5 })).toThrow(RangeError);
    expect(() => wireImpedance({ radius: 1e-3, resistivity: ρ, frequency: -1 })).toThrow(RangeError);
    expect(() => wireImpedance({ radius: Infinity, resistivity: ρ, frequency: 1 })).toThrow(RangeError);
  });
});

describe('windings', () => {
  test.each(['C-dowell-0.5-0.6-100k-m1', 'C-dowell-0.5-0.6-100k-m4'])('%s: Dowell 1966', (id) => {
    const given = { wireRadius: input(id, 'd_DIAMETER') / 2, pitch: input(id, 'pitch'), layers: input(id, 'layers') };
    near(dowellRatio({ ...given, skinDepth: skinDepth({ resistivity: ρ, frequency: input(id, 'f') }) }), expected(id, 'Fr'), 1e-8);
    near(dowellRatio({ ...given, skinDepth: 1 }), 1, 1e-9);
  });

  test('C-strand-transverse: Snelling; and the thin skin of a thick wire', () => {
    const id = 'C-strand-transverse';
    const given = { wireRadius: input(id, 'd_DIAMETER') / 2, fluxDensity: input(id, 'Bpk'), resistivity: ρ };
    near(transverseFieldLoss({ ...given, frequency: 1e3 }) * 1e4, expected(id, 'P'), 1e-5);
    near(transverseFieldLoss({ ...given, frequency: input(id, 'f') }), expected(id, 'P'), 0.03);
    const δ = skinDepth({ resistivity: ρ, frequency: 1e5 });
    const H = 1e-3 / (4e-7 * Math.PI);
    const thick = transverseFieldLoss({ wireRadius: 1e4 * δ, fluxDensity: 1e-3, resistivity: ρ, frequency: 1e5 });
    near(thick, 2 * Math.PI * 1e4 * δ * (ρ / δ) * H ** 2, 1e-3);
  });

  test('C-litz-sullivan: IEEE Trans. PE 14, 1999', () => {
    const id = 'C-litz-sullivan';
    const F = litzWindingRatio({
      strandRadius: input(id, 'ds_DIAMETER') / 2,
      strands: input(id, 'strands'),
      turns: input(id, 'turns'),
      windowBreadth: input(id, 'b'),
      fieldFactor: input(id, 'k'),
      resistivity: ρ,
      frequency: input(id, 'f'),
    });
    near(F, expected(id, 'Fr'), 1e-8);
  });

  test('litz: strands at direct current; more field, more loss; thick strands are not judged', () => {
    const litz = { strandRadius: 50e-6, strands: 100, bundleRadius: 0.7e-3, externalField: 0, resistivity: ρ, frequency: 1 };
    const at = (changes: Partial<typeof litz>): number => {
      const result = litzResistance({ ...litz, ...changes });
      return 'outside' in result ? Number.NaN : result.resistance;
    };
    near(at({}), ρ / (100 * Math.PI * 50e-6 ** 2), 1e-8);
    expect(at({ frequency: 1e5 })).toBeGreaterThan(at({}));
    near(
      at({ frequency: 1e4, externalField: 200 }) - at({ frequency: 1e4 }),
      4 * (at({ frequency: 1e4, externalField: 100 }) - at({ frequency: 1e4 })),
      1e-6,
    );
    expect(litzResistance({ ...litz, frequency: 1e7 })).toEqual({ outside: 'a strand is thicker than two skin depths' });
    expect(litzProblem({ ...litz, strands: 0 })).toContain('strands');
    expect(() => litzResistance({ ...litz, bundleRadius: 1e-4 })).toThrow(RangeError);
  });

  test('C-awg-formula, C-awg-table, C-awg-R: ASTM B258, NBS Handbook 100', () => {
    for (const [i, gauge] of inputs('C-awg-formula', 'n').entries())
      near(gaugeDiameter({ gauge }), expectedAll('C-awg-formula', 'd_mm')[i]!);
    const table = row('C-awg-table').inputs['n']!.value as unknown as (number | string)[];
    for (const [i, n] of table.entries())
      expect(Math.abs(gaugeDiameter({ gauge: n === '4/0' ? -3 : Number(n) }) - expectedAll('C-awg-table', 'd_in')[i]!)).toBeLessThan(
        5.1e-5 * 0.0254,
      );
    for (const [i, d] of inputs('C-awg-R', 'd_in').entries()) {
      const R = dcResistance({ resistivity: ρ, area: (Math.PI * d * d) / 4 }) * 304.8;
      near(R, expectedAll('C-awg-R', 'R_computed')[i]!, 1e-8);
      near(R, expectedAll('C-awg-R', 'R_per_1000ft')[i]!, 5e-4);
    }
  });
});
