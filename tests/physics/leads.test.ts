import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fuseRating } from '../../src/physics/fuse.ts';
import { leadCrossSectionForCurrent, leadCrossSectionForDrop, leadResistance } from '../../src/physics/lead-cross-section.ts';
import { wireGaugeDiameter, wireGaugeForCrossSection } from '../../src/physics/wire-gauge.ts';
import { expected, row, siList } from './check-values.ts';
import { near } from './near.ts';

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('fuses', () => {
  test('rated currents of IEC 60127, Table A.1 (R10), read from 315 mA to 10 A', () => {
    for (const rated of [0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10])
      near(fuseRating({ runningCurrent: rated, multiple: 1, series: 'miniature' })!, rated);
  });

  test('steps are those of R10, 10^(1/10) within 3 %', () => {
    const steps: number[] = [];
    for (let current = 0.032; current < 10; current = steps.at(-1)!)
      steps.push(fuseRating({ runningCurrent: current * 1.001, multiple: 1, series: 'miniature' })!);
    expect(steps).toHaveLength(25);
    [0.032, ...steps].slice(1).forEach((step, i) => near(step / [0.032, ...steps][i]!, 10 ** 0.1, 0.03));
  });

  test('never below the multiple of the current, never a step too large', () => {
    fc.assert(
      fc.property(positive(0.05, 35), positive(1, 2), fc.constantFrom('miniature', 'blade'), (runningCurrent, multiple, series) => {
        const rating = fuseRating({ runningCurrent, multiple, series });
        if (rating === undefined) {
          expect(runningCurrent * multiple).toBeGreaterThan(series === 'miniature' ? 10 : 40);
          return;
        }
        expect(rating).toBeGreaterThanOrEqual(runningCurrent * multiple * (1 - 1e-9));
        expect(fuseRating({ runningCurrent: rating, multiple: 1, series })).toBe(rating);
      }),
    );
  });

  test('a fuse below the running current, or for none, is refused', () => {
    expect(() => fuseRating({ runningCurrent: 1, multiple: 0.9, series: 'blade' })).toThrow(RangeError);
    for (const runningCurrent of [0, -1, Number.NaN, Infinity])
      expect(() => fuseRating({ runningCurrent, multiple: 1.5, series: 'blade' })).toThrow(RangeError);
  });
});

describe('cross-section of leads', () => {
  const section = (current: number, celsius = 30): number => leadCrossSectionForCurrent({ current, ambient: celsius + 273.15 })! * 1e6;

  test('DIN VDE 0298-4, Table 11: the current that a cross-section carries, read', () => {
    for (const [area, capacity] of [
      [0.75, 15],
      [1, 19],
      [1.5, 24],
      [2.5, 32],
      [4, 42],
      [6, 54],
      [10, 73],
      [16, 98],
      [25, 129],
      [35, 158],
      [50, 198],
      [70, 245],
      [95, 292],
      [120, 344],
    ] as const) {
      near(section(capacity), area);
      if (area < 120) expect(section(capacity * 1.001)).toBeGreaterThan(area);
    }
    expect(leadCrossSectionForCurrent({ current: 345, ambient: 303.15 })).toBeUndefined();
  });

  test('DIN VDE 0298-4, Table 17: factors of warmer and cooler air, read, within their rounding', () => {
    for (const [celsius, factor] of [
      [10, 1.22],
      [20, 1.12],
      [25, 1.06],
      [40, 0.87],
      [50, 0.71],
      [60, 0.5],
      [65, 0.35],
    ] as const) {
      expect(section(42 * (factor - 0.006), celsius)).toBe(4);
      expect(section(42 * (factor + 0.006), celsius)).toBeGreaterThan(4);
    }
    expect(() => section(1, 70)).toThrow(RangeError);
  });

  test('IEC 60228 class 5: no lead of nominal cross-section has less than the resistance of that much copper', () => {
    for (const area of [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120]) {
      const excess = leadResistance({ crossSection: area * 1e-6, length: 1, temperature: 293.15 }) * area * 58 - 1;
      expect(excess).toBeGreaterThan(0.1);
      expect(excess).toBeLessThan(0.17);
    }
    expect(() => leadResistance({ crossSection: 3e-6, length: 1, temperature: 293.15 })).toThrow(RangeError);
    expect(() => leadResistance({ crossSection: 4e-6, length: 0, temperature: 293.15 })).toThrow(RangeError);
  });

  test('C-tempco: copper resistance against temperature', () => {
    const ratios = siList(row('C-tempco').expected['R_over_R20_alpha']!);
    siList(row('C-tempco').inputs['T']!).forEach((temperature, i) => {
      near(leadResistance({ crossSection: 1e-6, length: 1, temperature }) / 19.5e-3, ratios[i]!, 1e-12);
    });
  });

  test('the drop is kept, by the smallest cross-section that keeps it', () => {
    fc.assert(
      fc.property(positive(0.1, 60), positive(0.1, 20), positive(0.01, 5), (current, length, drop) => {
        const crossSection = leadCrossSectionForDrop({ current, length, drop });
        const lost = (area: number): number => current * leadResistance({ crossSection: area, length: 2 * length, temperature: 343.15 });
        if (crossSection === undefined) {
          expect(lost(120e-6)).toBeGreaterThan(drop);
          return;
        }
        expect(lost(crossSection)).toBeLessThanOrEqual(drop * (1 + 1e-9));
        if (crossSection > 0.5e-6) {
          const smaller = leadCrossSectionForDrop({ current, length, drop: lost(crossSection) * 1.0001 })!;
          expect(smaller).toBe(crossSection);
          expect(leadCrossSectionForDrop({ current, length, drop: lost(crossSection) * 0.999 }) ?? Infinity).toBeGreaterThan(crossSection);
        }
      }),
    );
    expect(() => leadCrossSectionForDrop({ current: Number.NaN, length: 1, drop: 1 })).toThrow(RangeError);
  });
});

describe('American wire gauge', () => {
  test('C-awg-formula: definition, read', () => {
    const gauges = siGauges('C-awg-formula');
    siList(row('C-awg-formula').expected['d_mm']!).forEach((diameter, i) => near(wireGaugeDiameter({ gauge: gauges[i]! }), diameter));
    near(wireGaugeDiameter({ gauge: 10 }) / wireGaugeDiameter({ gauge: 11 }), expected('C-awg-formula', 'ratio'));
  });

  test('C-awg-table: diameters as tabulated, read', () => {
    const gauges = siGauges('C-awg-table');
    siList(row('C-awg-table').expected['d_in']!).forEach((diameter, i) => {
      expect(Math.abs(wireGaugeDiameter({ gauge: gauges[i]! }) - diameter)).toBeLessThan(5.1e-5 * 0.0254);
    });
  });

  test('the thinnest gauge that is thick enough', () => {
    const area = (gauge: number): number => (Math.PI / 4) * wireGaugeDiameter({ gauge }) ** 2;
    fc.assert(
      fc.property(positive(1e-8, 110e-6), (crossSection) => {
        const gauge = wireGaugeForCrossSection({ crossSection });
        if (gauge === undefined) {
          expect(crossSection).toBeGreaterThan(area(-3));
          return;
        }
        expect(area(gauge)).toBeGreaterThanOrEqual(crossSection * (1 - 1e-9));
        if (gauge < 40) expect(area(gauge + 1)).toBeLessThan(crossSection);
      }),
    );
    for (const gauge of [-4, 41, 1.5, Number.NaN]) expect(() => wireGaugeDiameter({ gauge })).toThrow(RangeError);
    expect(() => wireGaugeForCrossSection({ crossSection: 0 })).toThrow(RangeError);
  });
});

/** Gauge numbers of a row; 4/0 is −3. */
function siGauges(id: string): number[] {
  return (row(id).inputs['n']!.value as unknown as (number | string)[]).map((n) => (n === '4/0' ? -3 : Number(n)));
}
