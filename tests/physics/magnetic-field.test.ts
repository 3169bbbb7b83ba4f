import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bracketedRoot } from '../../src/physics/bracketed-root.ts';
import { coaxialLoopsField, loopField } from '../../src/physics/magnetic-field.ts';
import { distanceToLevel, largestDistanceToLevel } from '../../src/physics/exposure-distance.ts';
import { expected, input } from './check-values.ts';
import { near } from './near.ts';

const mu0 = 4e-7 * Math.PI;
const unitLoop = { radius: 1, position: 0, current: 1 };
const coordinate = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Off the wire by a tenth of the radius at least. */
const offTheWire = fc.tuple(coordinate(0, 3), coordinate(-3, 3)).filter(([r, z]) => Math.hypot(r - 1, z) > 0.1);

/** Flux density by summing the law of Biot and Savart over straight pieces of a unit loop; exact to rounding on a closed smooth curve. */
function biotSavart(r: number, z: number): { radial: number; axial: number } {
  const steps = 2000;
  let [radial, axial] = [0, 0];
  for (let i = 0; i < steps; i++) {
    const phi = (2 * Math.PI * (i + 0.5)) / steps;
    const [dx, dy] = [-Math.sin(phi), Math.cos(phi)].map((part) => (part * 2 * Math.PI) / steps) as [number, number];
    const [x, y] = [r - Math.cos(phi), -Math.sin(phi)];
    const cube = Math.hypot(x, y, z) ** 3;
    radial += (dy * z) / cube;
    axial += (dx * y - dy * x) / cube;
  }
  return { radial: 1e-7 * radial, axial: 1e-7 * axial };
}

describe('field of a loop', () => {
  test.each(['G-B-1-1000-0', 'G-B-10-100-0', 'G-B-10-100-100'])('%s: on the axis, Biot-Savart', (id) => {
    const loop = { radius: input(id, 'R'), position: 0, current: input(id, 'I') };
    const { axial, radial } = loopField({ loop, radius: 0, height: input(id, 'z') });
    near(axial, expected(id, 'B'), 1e-11);
    expect(radial).toBe(0);
  });

  test.each(['G-Boff-10-100-50-50', 'G-Boff-10-100-150-0', 'G-Boff-10-100-100-20'])('%s: off the axis, Smythe', (id) => {
    const loop = { radius: input(id, 'R'), position: 0, current: input(id, 'I') };
    const { axial, radial, magnitude } = loopField({ loop, radius: input(id, 'r'), height: input(id, 'z') });
    near(axial, expected(id, 'Bz'), 1e-11);
    near(radial, expected(id, 'Br'), 1e-11);
    near(magnitude, expected(id, 'Bmag'), 1e-11);
  });

  test('G-helmholtz: the middle of a pair', () => {
    const R = input('G-helmholtz', 'R');
    const loops = [-R / 2, R / 2].map((position) => ({ radius: R, position, current: input('G-helmholtz', 'NI') }));
    near(coaxialLoopsField({ loops, radius: 0, height: 0 }).magnitude, expected('G-helmholtz', 'B'), 1e-11);
  });

  test('agrees with a sum over pieces of the wire', () => {
    fc.assert(
      fc.property(offTheWire, ([r, z]) => {
        const { radial, axial, magnitude } = loopField({ loop: unitLoop, radius: r, height: z });
        const sum = biotSavart(r, z);
        expect(Math.abs(radial - sum.radial)).toBeLessThan(1e-12 * magnitude);
        expect(Math.abs(axial - sum.axial)).toBeLessThan(1e-12 * magnitude);
      }),
      { numRuns: 200 },
    );
  });

  test('is free of sources and curls off the wire', () => {
    const h = 1e-3;
    const away = offTheWire.filter(([r, z]) => Math.hypot(r - 1, z) > 0.3 && r > 0.05);
    fc.assert(
      fc.property(away, ([r, z]) => {
        const at = (dr: number, dz: number) => loopField({ loop: unitLoop, radius: r + dr, height: z + dz });
        const slope = (part: (d: number) => number): number => (8 * (part(h) - part(-h)) - (part(2 * h) - part(-2 * h))) / (12 * h);
        const scale = at(0, 0).magnitude / Math.hypot(r - 1, z);
        const divergence = slope((d) => (r + d) * at(d, 0).radial) / r + slope((d) => at(0, d).axial);
        const curl = slope((d) => at(0, d).radial) - slope((d) => at(d, 0).axial);
        expect(Math.abs(divergence)).toBeLessThan(1e-6 * scale);
        expect(Math.abs(curl)).toBeLessThan(1e-6 * scale);
      }),
    );
  });

  test('mirrors, turns with the current and scales with size', () => {
    fc.assert(
      fc.property(offTheWire, coordinate(0.01, 100), ([r, z], size) => {
        const here = loopField({ loop: unitLoop, radius: r, height: z });
        const mirrored = loopField({ loop: unitLoop, radius: r, height: -z });
        near(mirrored.axial, here.axial, 1e-12);
        near(mirrored.radial, -here.radial, 1e-12);
        const reversed = loopField({ loop: { ...unitLoop, current: -2 }, radius: r, height: z });
        near(reversed.axial, -2 * here.axial, 1e-12);
        const grown = loopField({ loop: { radius: size, position: 5, current: size }, radius: r * size, height: 5 + z * size });
        expect(Math.abs(grown.magnitude - here.magnitude)).toBeLessThan(1e-9 * (1 + 5 / size) * here.magnitude);
      }),
    );
  });

  test('tends to a dipole far away, without loss of digits, and to its slope next to the axis', () => {
    fc.assert(
      fc.property(coordinate(0.05, Math.PI - 0.05), (theta) => {
        const s = 1e4;
        const { radial, axial } = loopField({ loop: unitLoop, radius: s * Math.sin(theta), height: s * Math.cos(theta) });
        const moment = (1e-7 * Math.PI) / s ** 3;
        expect(Math.abs(radial - 3 * moment * Math.sin(theta) * Math.cos(theta))).toBeLessThan(1e-7 * moment);
        expect(Math.abs(axial - moment * (3 * Math.cos(theta) ** 2 - 1))).toBeLessThan(1e-7 * moment);
      }),
    );
    for (const r of [1e-3, 1e-8, 1e-100, 5e-324]) {
      const { radial, axial } = loopField({ loop: unitLoop, radius: r, height: 0.5 });
      near(axial, (mu0 / 2) * 1.25 ** -1.5, 3 * r * r + 1e-14);
      near(radial / r, ((3 * mu0) / 4) * 0.5 * 1.25 ** -2.5, r < 1e-300 ? 1 : 3 * r * r + 1e-14);
    }
  });

  test('next to the wire it is that of a straight wire', () => {
    const { magnitude } = loopField({ loop: unitLoop, radius: 1, height: 1e-6 });
    near(magnitude, mu0 / (2 * Math.PI * 1e-6), 1e-4);
  });

  test('on the wire, and without finite numbers, there is none', () => {
    expect(() => loopField({ loop: unitLoop, radius: 1, height: 0 })).toThrow(RangeError);
    expect(() => loopField({ loop: unitLoop, radius: -1, height: 1 })).toThrow(RangeError);
    expect(() => loopField({ loop: { ...unitLoop, radius: 0 }, radius: 1, height: 1 })).toThrow(RangeError);
    expect(() => loopField({ loop: unitLoop, radius: Number.NaN, height: 1 })).toThrow(RangeError);
    expect(() => loopField({ loop: { ...unitLoop, current: Infinity }, radius: 0, height: 1 })).toThrow(RangeError);
    fc.assert(
      fc.property(fc.double(), fc.double(), fc.double(), fc.double(), (radius, position, r, height) => {
        try {
          const { radial, axial, magnitude } = loopField({ loop: { radius, position, current: 1 }, radius: r, height });
          for (const part of [radial, axial, magnitude]) expect(Number.isFinite(part)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(RangeError);
        }
      }),
    );
  });
});

describe('distance to a level', () => {
  test.each(['G-dist-50-100-27', 'G-dist-50-100-100'])('%s: on the axis', (id) => {
    const loops = [{ radius: input(id, 'R'), position: 0, current: input(id, 'NI_rms') }];
    near(distanceToLevel({ loops, fluxDensity: input(id, 'B_limit'), direction: 0 }), expected(id, 'z'), 1e-11);
    near(distanceToLevel({ loops, fluxDensity: input(id, 'B_limit'), direction: Math.PI }), expected(id, 'z'), 1e-11);
  });

  const coils = fc.array(fc.record({ radius: coordinate(0.01, 0.3), position: coordinate(-0.2, 0.2), current: coordinate(-100, 100) }), {
    minLength: 1,
    maxLength: 4,
  });

  test('the level is met there, and nowhere beyond it is it exceeded', () => {
    fc.assert(
      fc.property(coils, coordinate(-6, -3), coordinate(0, Math.PI), (loops, exponent, direction) => {
        const fluxDensity = 10 ** exponent;
        const distance = distanceToLevel({ loops, fluxDensity, direction });
        const at = (s: number): number =>
          coaxialLoopsField({ loops, radius: s * Math.sin(direction), height: s * Math.cos(direction) }).magnitude;
        if (distance > 0) near(at(distance), fluxDensity, 1e-6);
        for (let i = 1; i <= 100; i++) expect(at((distance + 1e-9) * 1.03 ** i)).toBeLessThanOrEqual(fluxDensity * (1 + 1e-9));
      }),
      { numRuns: 200 },
    );
  });

  test('is never inside: under the level in the middle but above it at the wire, the crossing outside the wire is found', () => {
    const loops = [{ radius: 0.1, position: 0, current: 1 }];
    const fluxDensity = 10e-6;
    expect(loopField({ loop: loops[0]!, radius: 0, height: 0 }).magnitude).toBeLessThan(fluxDensity);
    expect(distanceToLevel({ loops, fluxDensity, direction: 0 })).toBe(0);
    expect(distanceToLevel({ loops, fluxDensity, direction: Math.PI / 2 })).toBeGreaterThan(0.1);
    expect(largestDistanceToLevel({ loops, fluxDensity }).direction).toBeCloseTo(Math.PI / 2);
  });

  test('every 5° finds the largest of all directions within 0.1 %', () => {
    const coil = Array.from({ length: 5 }, (_, i) => ({ radius: 0.03, position: (i - 2) * 0.01, current: 40 }));
    for (const loops of [[{ radius: 0.1, position: 0, current: 50 }], coil])
      for (const fluxDensity of [1e-6, 27e-6, 1e-4, 1e-3]) {
        const found = largestDistanceToLevel({ loops, fluxDensity });
        near(found.distance, largestDistanceToLevel({ loops, fluxDensity, directions: 721 }).distance, 1e-3);
        near(found.distance, distanceToLevel({ loops, fluxDensity, direction: found.direction }), 1e-9);
      }
  });

  test('no current needs no distance; wrong arguments are refused', () => {
    expect(distanceToLevel({ loops: [], fluxDensity: 1e-6, direction: 0 })).toBe(0);
    expect(distanceToLevel({ loops: [{ ...unitLoop, current: 0 }], fluxDensity: 1e-6, direction: 1 })).toBe(0);
    expect(() => distanceToLevel({ loops: [unitLoop], fluxDensity: 0, direction: 0 })).toThrow(RangeError);
    expect(() => distanceToLevel({ loops: [unitLoop], fluxDensity: 1e-6, direction: 4 })).toThrow(RangeError);
    expect(() => distanceToLevel({ loops: [{ ...unitLoop, current: Number.NaN }], fluxDensity: 1e-6, direction: 0 })).toThrow(RangeError);
    expect(() => largestDistanceToLevel({ loops: [unitLoop], fluxDensity: 1e-6, directions: 1 })).toThrow(RangeError);
  });
});

describe('bracketed root', () => {
  test('finds roots of powers, from either side, and across a pole that is taken as infinite', () => {
    fc.assert(
      fc.property(coordinate(1e-3, 1e3), fc.integer({ min: 1, max: 9 }), (root, power) => {
        const of = (x: number): number => x ** power - root ** power;
        near(bracketedRoot({ of, from: 0, to: 2e3 }), root, 1e-12);
        near(bracketedRoot({ of, from: 2e3, to: 0 }), root, 1e-12);
      }),
    );
    near(bracketedRoot({ of: (x) => (x === 0 ? Infinity : 1 / x - 4), from: 0, to: 10 }), 0.25, 1e-12);
    near(bracketedRoot({ of: (x) => Math.log(x), from: 0, to: 10 }), 1, 1e-12);
  });
  test('refuses what is no bracket', () => {
    expect(() => bracketedRoot({ of: (x) => x * x + 1, from: -1, to: 1 })).toThrow(RangeError);
    expect(() => bracketedRoot({ of: (x) => Math.sqrt(x), from: -1, to: 1 })).toThrow(RangeError);
    expect(() => bracketedRoot({ of: (x) => x, from: -Infinity, to: 1 })).toThrow(RangeError);
  });
});
