import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bundleEstimate, bundleInductance, bundleProblem, bundleTurns } from '../../src/physics/bundle-inductance.ts';
import { crowdingShare } from '../../src/physics/crowding-share.ts';
import type { InductanceEstimate } from '../../src/physics/inductance-estimate.ts';
import { leadsEstimate, leadsProblem } from '../../src/physics/lead-inductance.ts';
import { loopEstimate, loopProblem } from '../../src/physics/loop-inductance.ts';
import { solveLinear } from '../../src/physics/linear-equations.ts';
import { proximityRatio } from '../../src/physics/proximity.ts';
import { ringInductance } from '../../src/physics/ring-inductance.ts';
import { solenoidEstimate, solenoidProblem, solenoidTurns } from '../../src/physics/solenoid-estimate.ts';
import { solenoidInductance } from '../../src/physics/solenoid-inductance.ts';
import { spiralEstimate, spiralProblem, spiralTurns } from '../../src/physics/spiral-inductance.ts';
import { surfaceCurrent } from '../../src/physics/surface-current.ts';
import { turnsInductance } from '../../src/physics/turns-inductance.ts';
import { expected, input } from './check-values.ts';
import { near } from './near.ts';

const known = (estimate: InductanceEstimate): { inductance: number; error: number } => {
  if ('outside' in estimate) throw new Error(estimate.outside);
  return estimate;
};
const uniform = { internalFactor: 1, crowdingShare: 0 };
const even = { internalFactor: 0, crowdingShare: 0 };
const skin = { internalFactor: 0, crowdingShare: 1 };
const solenoid = { meanDiameter: 0.06, pitch: 8e-3, turns: 5, wireRadius: 3e-3 };
const spiral = { innerRadius: 0.02, pitch: 8e-3, turns: 5, wireRadius: 3e-3 };
const bundle = { meanRadius: 0.1, bundleRadius: 5e-3, turns: 7, wireRadius: 1e-3 };

describe('sums of circles', () => {
  test.each(['B-spiral-5-30-8-2', 'B-spiral-3-60-12-6'])('%s: Maxwell; Wheeler 1928 and Mohan 1999 within 7 %', (id) => {
    const [turns, pitch, wireRadius] = [input(id, 'N'), input(id, 'pitch'), input(id, 'd_wire_DIAMETER') / 2];
    const given = { innerRadius: input(id, 'r_first_turn_centre') - pitch / 2, pitch, turns, wireRadius };
    const at = (internalFactor: number): number => turnsInductance({ turns: spiralTurns(given), wireRadius, internalFactor });
    near(at(0), expected(id, 'L_rings_hf'), 1e-8);
    near(at(1), expected(id, 'L_rings_dc'), 1e-8);
    near(at(0), expected(id, 'L_wheeler'), 0.07);
    near(at(0), expected(id, 'L_mohan'), 0.07);
    near(known(spiralEstimate({ ...given, ...uniform })).inductance, at(1), 1e-12);
  });

  test('a part turn lies between its whole neighbours', () => {
    fc.assert(
      fc.property(fc.double({ min: 1.01, max: 9.99, noNaN: true }), (turns) => {
        const at = (N: number): number => known(solenoidEstimate({ ...solenoid, turns: N, ...uniform })).inductance;
        expect(at(turns)).toBeGreaterThanOrEqual(at(Math.floor(turns)) * (1 - 1e-9));
        expect(at(turns)).toBeLessThanOrEqual(at(Math.ceil(turns)) * (1 + 1e-9));
      }),
    );
  });

  test('solenoid: circles and current sheet with Rosa agree within the errors, at 24 and 25 turns', () => {
    for (const turns of [24, 25]) {
      const { inductance, error } = known(solenoidEstimate({ ...solenoid, turns, ...even }));
      near(solenoidInductance({ ...solenoid, turns, internalFactor: 0 }), inductance, error);
      near(turnsInductance({ turns: solenoidTurns({ ...solenoid, turns }), wireRadius: 3e-3, internalFactor: 0 }), inductance, error);
    }
  });

  test('bundle: the mean distance and a hexagonal pack of circles agree', () => {
    for (const turns of [7, 19]) {
      const given = { ...bundle, turns, wireRadius: 0.8e-3 };
      const pack = turnsInductance({ turns: bundleTurns(given), wireRadius: 0.8e-3, internalFactor: 1 });
      near(bundleInductance({ ...given, internalFactor: 1 }), pack, 0.01);
    }
  });
});

describe('current on the surface', () => {
  test('a thin loop is a ring', () => {
    const { inductance, proximityRatio: F } = surfaceCurrent({ turns: [{ radius: 1, height: 0 }], wireRadius: 1e-3 });
    near(inductance, ringInductance({ meanRadius: 1, wireRadius: 1e-3, internalFactor: 0 }), 1e-5);
    near(F, 1, 1e-4);
  });

  test('scales with size; the order of turns does not matter; crowding lowers L and raises the loss', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 5 }),
        fc.double({ min: 0.2, max: 0.9, noNaN: true }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        (N, ratio, scale) => {
          const turns = solenoidTurns({ ...solenoid, turns: N }).map(({ radius, height }) => ({ radius, height }));
          const wireRadius = (ratio * solenoid.pitch) / 2;
          const one = surfaceCurrent({ turns, wireRadius });
          const larger = turns.toReversed().map(({ radius, height }) => ({ radius: scale * radius, height: scale * height }));
          const other = surfaceCurrent({ turns: larger, wireRadius: scale * wireRadius });
          near(other.inductance, scale * one.inductance, 1e-9);
          near(other.proximityRatio, one.proximityRatio, 1e-8);
          expect(one.inductance).toBeLessThan(turnsInductance({ turns, wireRadius, internalFactor: 0 }));
          expect(one.proximityRatio).toBeGreaterThan(1);
        },
      ),
      { numRuns: 20 },
    );
  });

  // columns: turns, thickness over spacing, R over that of a lonely wire at a/δ 1, 2, 5, 20 and thin skin; own multipole solution of straight rows
  test.each([
    [2, 0.5, 1.01377, 1.07033, 1.0957, 1.11092, 1.11619],
    [2, 0.8, 1.03532, 1.16848, 1.21771, 1.2447, 1.25361],
    [5, 0.5, 1.02848, 1.15796, 1.23294, 1.27895, 1.29532],
    [5, 0.8, 1.07595, 1.44188, 1.6838, 1.83784, 1.89559],
    [10, 0.8, 1.09762, 1.63501, 2.1203, 2.47204, 2.61349],
  ])('%d turns of a large ring, thickness over spacing %d, are a row of straight wires', (N, ratio, ...exact) => {
    const turns = Array.from({ length: N }, (_, height) => ({ radius: 1e4, height }));
    const wireRadius = ratio / 2;
    near(surfaceCurrent({ turns, wireRadius }).proximityRatio, exact.at(-1)!, 1e-3);
    for (const [i, u] of [1, 2, 5, 20].entries()) {
      const frequency = 1 / (58e6 * Math.PI * 4e-7 * Math.PI * (wireRadius / u) ** 2);
      const found = proximityRatio({ turns, wireRadius, wall: wireRadius, resistivity: 1 / 58e6, frequency });
      if ('outside' in found) throw new Error(found.outside);
      expect(found.most).toBeGreaterThan(exact[i]! * 0.9999);
      expect(found.likely).toBeGreaterThan(exact[i]! * 0.965);
      expect(found.most).toBeLessThan(exact[i]! * 2.1);
      if (u === 20) near(found.most, exact[i]!, 0.18);
    }
  });

  test('what the method cannot take is refused', () => {
    const ring = { radius: 1, height: 0 };
    expect(() => surfaceCurrent({ turns: [ring, { radius: 1, height: 0.1 }], wireRadius: 0.06 })).toThrow('too close');
    expect(() => surfaceCurrent({ turns: [ring], wireRadius: 1 })).toThrow('axis');
    expect(() => surfaceCurrent({ turns: [], wireRadius: 1 })).toThrow(RangeError);
    expect(() =>
      solveLinear({
        matrix: [
          [1, 1],
          [1, 1],
        ],
        right: [1, 2],
      }),
    ).toThrow(RangeError);
  });
});

describe('crowding share', () => {
  test('rises with frequency from 0 to 1, later for thin walls; a thin wall is a shell', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 7, noNaN: true }), fc.double({ min: 1e-3, max: 1, noNaN: true }), (x, t) => {
        const given = { outerRadius: 3e-3, wall: t * 3e-3, resistivity: 1 / 58e6 };
        const s = crowdingShare({ ...given, frequency: 10 ** x });
        expect(s).toBeGreaterThanOrEqual(0);
        expect(s).toBeLessThan(1);
        expect(crowdingShare({ ...given, frequency: 10 ** x / 1000 })).toBeLessThanOrEqual(s + 1e-12);
      }),
    );
    const β = Math.PI * 4e-7 * Math.PI * 58e6 * 1e4 * 3e-3 * 3e-6;
    near(crowdingShare({ outerRadius: 3e-3, wall: 3e-6, resistivity: 1 / 58e6, frequency: 1e4 }), β ** 2 / (1 + β ** 2), 0.01);
  });
});

describe('estimates', () => {
  test('every shape: L scales with size, the error does not change, thin skin is below, uniform above', () => {
    const shapes = [
      (k: number, at: typeof skin) => solenoidEstimate({ meanDiameter: k * 0.06, pitch: k * 8e-3, turns: 5, wireRadius: k * 3e-3, ...at }),
      (k: number, at: typeof skin) => spiralEstimate({ innerRadius: k * 0.02, pitch: k * 8e-3, turns: 5, wireRadius: k * 3e-3, ...at }),
      (k: number, at: typeof skin) =>
        bundleEstimate({ meanRadius: k * 0.1, bundleRadius: k * 5e-3, turns: 7, wireRadius: k * 1e-3, ...at }),
      (k: number, at: typeof skin) => loopEstimate({ meanRadius: k * 0.05, wireRadius: k * 3e-3, ...at }),
      (k: number, at: typeof skin) => leadsEstimate({ length: k * 0.1, spacing: k * 0.02, wireRadius: k * 3e-3, ...at }),
    ];
    for (const shape of shapes) {
      const one = known(shape(1, skin));
      const other = known(shape(7, skin));
      near(other.inductance, 7 * one.inductance, 1e-9);
      near(other.error, one.error, 1e-6);
      expect(one.error).toBeGreaterThan(0);
      expect(one.inductance).toBeLessThanOrEqual(known(shape(1, even)).inductance);
      expect(known(shape(1, even)).inductance).toBeLessThan(known(shape(1, uniform)).inductance);
      for (const bad of [-0.1, 1.5, Number.NaN]) expect(() => shape(1, { internalFactor: bad, crowdingShare: 0 })).toThrow(RangeError);
    }
  });

  test('outside the stated range there is a reason', () => {
    for (const estimate of [
      solenoidEstimate({ ...solenoid, pitch: 0.03, ...skin }),
      solenoidEstimate({ ...solenoid, turns: 0.5, ...skin }),
      solenoidEstimate({ ...solenoid, turns: 2000, ...skin }),
      solenoidEstimate({ ...solenoid, meanDiameter: 0.016, pitch: 4.5e-3, wireRadius: 2.5e-3, turns: 1, ...skin }),
      spiralEstimate({ ...spiral, innerRadius: 3.5e-3, ...skin }),
      spiralEstimate({ ...spiral, turns: 49, ...skin }),
      spiralEstimate({ ...spiral, turns: 0.9, ...skin }),
      bundleEstimate({ ...bundle, bundleRadius: 0.05, ...skin }),
      loopEstimate({ meanRadius: 0.01, wireRadius: 6e-3, ...skin }),
      leadsEstimate({ length: 0.01, spacing: 0.01, wireRadius: 1e-3, ...skin }),
      leadsEstimate({ length: 0.1, spacing: 2e-3, wireRadius: 1e-3, ...skin }),
    ])
      expect(estimate).toEqual({ outside: expect.any(String) as string });
  });

  test('turns that all but touch widen the error and say so', () => {
    const estimate = solenoidEstimate({ ...solenoid, pitch: 6.1e-3, ...skin });
    expect(estimate).toHaveProperty('validNote');
    expect(known(estimate).error).toBeGreaterThan(0.03);
  });

  test('geometry that cannot be is told apart from what is only out of range', () => {
    expect(solenoidProblem({ ...solenoid, wireRadius: 4.1e-3 })).toContain('overlap');
    expect(solenoidProblem({ ...solenoid, meanDiameter: 6e-3 })).toContain('opening');
    expect(solenoidProblem({ ...solenoid, turns: Number.NaN })).toContain('turns');
    expect(spiralProblem({ ...spiral, innerRadius: -1e-3 })).toContain('inner diameter');
    expect(spiralProblem({ ...spiral, innerRadius: 2e-3 })).toContain('itself');
    expect(bundleProblem({ ...bundle, turns: 2.5 })).toContain('whole');
    expect(bundleProblem({ ...bundle, turns: 100 })).toContain('fit');
    expect(loopProblem({ meanRadius: 1e-3, wireRadius: 1e-3 })).toContain('opening');
    expect(leadsProblem({ length: 0.1, spacing: 1e-3, wireRadius: 1e-3 })).toContain('overlap');
    for (const problem of [solenoidProblem(solenoid), spiralProblem(spiral), bundleProblem(bundle)]) expect(problem).toBeUndefined();
    expect(() => solenoidEstimate({ ...solenoid, wireRadius: 4.1e-3, ...skin })).toThrow('overlap');
    expect(() => spiralEstimate({ ...spiral, innerRadius: -1, ...skin })).toThrow(RangeError);
  });
});
