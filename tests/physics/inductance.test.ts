import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bundleInductance, meanDistanceInductance, rectangleMeanDistance } from '../../src/physics/bundle-inductance.ts';
import { ellipticIntegrals } from '../../src/physics/elliptic.ts';
import { pairInductance, straightWireInductance } from '../../src/physics/lead-inductance.ts';
import { circleMutualInductance, coilMutualInductance, couplingFactor } from '../../src/physics/mutual-inductance.ts';
import { ringInductance } from '../../src/physics/ring-inductance.ts';
import {
  currentSheetInductance,
  nagaokaCoefficient,
  rosaMutualCorrection,
  rosaSelfCorrection,
  solenoidInductance,
} from '../../src/physics/solenoid-inductance.ts';
import { solenoidTurns } from '../../src/physics/solenoid-estimate.ts';
import { turnsInductance } from '../../src/physics/turns-inductance.ts';
import { vacuumPermeability } from '../../src/physics/vacuum.ts';
import { expected, input, row, siList } from './check-values.ts';
import { near } from './near.ts';

const inputs = (id: string, name: string): number[] => siList(row(id).inputs[name]!);
const expectedAll = (id: string, name: string): number[] => siList(row(id).expected[name]!);
const length = fc.double({ min: 1e-3, max: 10, noNaN: true });
const share = fc.double({ min: 1e-6, max: 1, noNaN: true });

describe('elliptic integrals', () => {
  test('Legendre: E·K′ + E′·K − K·K′ = π/2', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 0.5, noNaN: true }), (m) => {
        const [one, other] = [ellipticIntegrals({ complement: m }), ellipticIntegrals({ complement: 1 - m, parameter: m })];
        near(one.second * other.first + other.second * one.first - one.first * other.first, Math.PI / 2, 1e-12);
      }),
    );
  });

  test('B-maxwell-table: Maxwell, Treatise vol. 2, appendix to chapter XIV', () => {
    const id = 'B-maxwell-table';
    for (const [i, gamma] of inputs(id, 'gamma_deg').entries()) {
      const k = Math.sin(gamma);
      const { mutual } = ellipticIntegrals({ complement: Math.cos(gamma) ** 2, parameter: k * k });
      near(Math.log10((2 / k) * mutual), expectedAll(id, 'log10_M_over_4pi_sqrtAa')[i]!, 1e-7);
    }
  });

  test('outside 0 to 1 is refused', () => {
    for (const complement of [0, -1, 1.1, Number.NaN]) expect(() => ellipticIntegrals({ complement })).toThrow(RangeError);
  });
});

test('B-mu0: CODATA 2018', () => {
  near(vacuumPermeability, expected('B-mu0', 'mu0_CODATA2018'), 1e-9);
});

describe('circles', () => {
  test.each(['B-mut-25-20-10cm', 'B-mut-25-25-20cm', 'B-mut-25-25-4cm'])('%s: Rosa & Grover 1911, DLMF 19.34', (id) => {
    const M = circleMutualInductance({ firstRadius: input(id, 'A'), secondRadius: input(id, 'a'), distance: input(id, 'd') });
    near(M, expected(id, 'M'));
  });

  test.each(['B-mut-100-100-50mm', 'B-mut-100-50-30mm', 'B-mut-150-40-100mm', 'B-mut-60-60-6mm', 'B-mut-200-200-300mm'])(
    '%s: Maxwell',
    (id) => {
      const M = circleMutualInductance({ firstRadius: input(id, 'R1'), secondRadius: input(id, 'R2'), distance: input(id, 'd') });
      near(M, expected(id, 'M'));
    },
  );

  test('B-dlmf: NIST DLMF 19.34.5; 1 cm of inductance is 1 nH', () => {
    const id = 'B-dlmf';
    const M = circleMutualInductance({ firstRadius: input(id, 'a'), secondRadius: input(id, 'b'), distance: input(id, 'h') });
    near(M, (row(id).expected['M']!.value as number) * 1e-9);
  });

  test('B-maxwell-1865: near circles, Phil. Trans. 1865, as a ring with surface current and as two circles', () => {
    const id = 'B-maxwell-1865';
    const [R, a] = [input(id, 'a'), input(id, 'r')];
    near(ringInductance({ meanRadius: R, wireRadius: a, internalFactor: 0 }), expected(id, 'M'), 1e-5);
    near(circleMutualInductance({ firstRadius: R, secondRadius: R, distance: a }), expected(id, 'M'), 1e-5);
  });

  test('M is symmetric, scales with size and is below the self-inductance of either', () => {
    fc.assert(
      fc.property(length, length, length, share, (firstRadius, secondRadius, distance, scale) => {
        const M = circleMutualInductance({ firstRadius, secondRadius, distance });
        near(circleMutualInductance({ firstRadius: secondRadius, secondRadius: firstRadius, distance }), M, 1e-12);
        const smaller = { firstRadius: scale * firstRadius, secondRadius: scale * secondRadius, distance: scale * distance };
        near(circleMutualInductance(smaller), scale * M, 1e-9);
        expect(M).toBeGreaterThan(0);
      }),
    );
  });

  test('far circles: the field of a dipole through a small area', () => {
    const M = circleMutualInductance({ firstRadius: 1e-3, secondRadius: 2e-3, distance: 1e3 });
    near(M, (vacuumPermeability * Math.PI * 1e-3 ** 2 * 2e-3 ** 2) / (2 * 1e3 ** 3), 1e-9);
  });

  test('G-k-loops: coupling of two loops', () => {
    const id = 'G-k-loops';
    const [R, a] = [input(id, 'R'), input(id, 'a_wire_RADIUS')];
    const M = coilMutualInductance({ first: [{ radius: R, height: 0 }], second: [{ radius: R, height: input(id, 'd') }] });
    const L = ringInductance({ meanRadius: R, wireRadius: a, internalFactor: 0 });
    // the row leaves out the second order of a/R
    near(couplingFactor({ mutualInductance: M, firstInductance: L, secondInductance: L }), expected(id, 'k'), 3e-4);
  });

  test('the same circle twice, and lengths that are none, are refused', () => {
    expect(() => circleMutualInductance({ firstRadius: 1, secondRadius: 1, distance: 0 })).toThrow(RangeError);
    for (const bad of [0, -1, Number.NaN, Infinity])
      expect(() => circleMutualInductance({ firstRadius: bad, secondRadius: 1, distance: 1 })).toThrow(RangeError);
  });
});

describe('rings', () => {
  test.each(['B-loop-100-3', 'B-loop-50-1'])('%s: Rayleigh & Niven and hollow ring, Rosa & Grover 1911', (id) => {
    const given = { meanRadius: input(id, 'R_loop_mean_RADIUS'), wireRadius: input(id, 'a_wire_RADIUS') };
    near(ringInductance({ ...given, internalFactor: 1 }), expected(id, 'L_dc_2nd_order'), 1e-8);
    near(ringInductance({ ...given, internalFactor: 0 }), expected(id, 'L_hf_2nd_order'), 1e-8);
    near(ringInductance({ ...given, internalFactor: 0 }), expected(id, 'L_hf'), 4e-4);
  });

  test('B-loop-RosaGrover-25: worked example, 654.40496 π cm', () => {
    const id = 'B-loop-RosaGrover-25';
    near(ringInductance({ meanRadius: input(id, 'a'), wireRadius: input(id, 'rho'), internalFactor: 1 }), expected(id, 'L'), 1e-5);
  });

  test('B-loop-hollow: NBS Circular 74, a tube by its outer radius', () => {
    const id = 'B-loop-hollow';
    const given = { meanRadius: input(id, 'R_loop_mean_RADIUS'), wireRadius: input(id, 'a_tube_outer_RADIUS') };
    near(ringInductance({ ...given, internalFactor: 0 }), expected(id, 'L_hf'), 2e-3);
  });

  test('L scales with size', () => {
    fc.assert(
      fc.property(length, share, share, (meanRadius, ratio, scale) => {
        const at = (s: number): number =>
          ringInductance({ meanRadius: s * meanRadius, wireRadius: s * meanRadius * ratio, internalFactor: 0.3 });
        near(at(scale), scale * at(1), 1e-9);
      }),
    );
  });
});

describe('solenoid', () => {
  test('B-nagaoka-exact, B-nagaoka-table4: Nagaoka 1909; NBS Circular 74', () => {
    for (const [id, tolerance] of [
      ['B-nagaoka-exact', 1e-9],
      ['B-nagaoka-table4', 3e-4],
    ] as const)
      for (const [i, diameterOverLength] of inputs(id, 'D_over_l').entries())
        near(nagaokaCoefficient({ diameterOverLength }), expectedAll(id, 'K')[i]!, tolerance);
  });

  test.each(['B-sol-60-60-10', 'B-sol-50-100-20'])('%s: current sheet, and Wheeler 1928 and 1982 near it', (id) => {
    const L = currentSheetInductance({ meanDiameter: input(id, 'D_mean_DIAMETER'), length: input(id, 'l'), turns: input(id, 'N') });
    near(L, expected(id, 'L_current_sheet'), 1e-8);
    near(expected(id, 'L_wheeler1928') / L - 1, expected(id, 'wheeler1928_rel_error'), 1e-6);
    near(expected(id, 'L_wheeler1982') / L - 1, expected(id, 'wheeler1982_rel_error'), 1e-6);
  });

  test('B-rosa-A, B-rosa-B: Rosa & Grover 1911 tables', () => {
    for (const [i, diameterOverPitch] of inputs('B-rosa-A', 'd_over_p').entries()) {
      near(rosaSelfCorrection({ diameterOverPitch, internalFactor: 1 }), expectedAll('B-rosa-A', 'A')[i]!, 1e-8);
      near(rosaSelfCorrection({ diameterOverPitch, internalFactor: 0 }), expectedAll('B-rosa-A', 'A_hf')[i]!, 1e-8);
    }
    for (const [i, turns] of inputs('B-rosa-B', 'N').entries())
      near(rosaMutualCorrection({ turns }), expectedAll('B-rosa-B', 'B')[i]!, 1e-9);
    expect(rosaMutualCorrection({ turns: 1 })).toBe(0);
  });

  test('B-sol-rosa-60-60-10, B-rings-sol: Rosa, and the sum of circles', () => {
    const id = 'B-sol-rosa-60-60-10';
    const given = {
      meanDiameter: input(id, 'D_mean_DIAMETER'),
      pitch: input(id, 'pitch'),
      turns: input(id, 'N'),
      wireRadius: input(id, 'd_wire_DIAMETER') / 2,
    };
    for (const [internalFactor, name] of [
      [1, 'L_dc'],
      [0, 'L_hf'],
    ] as const) {
      near(solenoidInductance({ ...given, internalFactor }), expected(id, name), 1e-8);
      near(turnsInductance({ ...given, turns: solenoidTurns(given), internalFactor }), expected('B-rings-sol', name), 1e-8);
    }
  });
});

describe('bundle', () => {
  test('B-gmd: Maxwell, Treatise art. 692', () => {
    near(rectangleMeanDistance({ height: 2, width: 2 }), 2 * expected('B-gmd', 'square_over_side'), 1e-9);
    near(rectangleMeanDistance({ height: 1e-3, width: 1 }), expected('B-gmd', 'line_over_length'), 2e-3);
  });

  test('B-bundle: one conductor of uniform current; the wires add little', () => {
    const id = 'B-bundle';
    const [meanRadius, b, turns] = [input(id, 'R_mean_RADIUS'), input(id, 'rb'), input(id, 'N')];
    near(meanDistanceInductance({ meanRadius, meanDistance: expected('B-gmd', 'circle_over_r') * b, turns }), expected(id, 'L'), 1e-8);
    near(bundleInductance({ meanRadius, bundleRadius: b, turns, wireRadius: b / 3, internalFactor: 1 }), expected(id, 'L'), 0.02);
  });

  test.each([
    ['B-rect-50-10-10-20', 0.004],
    ['B-rect-100-4-12-6', 0.003],
  ])('%s: exact integral of a rectangular section', (id, tolerance) => {
    const meanDistance = rectangleMeanDistance({ height: input(id, 'b_axial'), width: input(id, 'c_radial') });
    near(
      meanDistanceInductance({ meanRadius: input(id, 'R_mean_RADIUS'), meanDistance, turns: input(id, 'N') }),
      expected(id, 'L_exact'),
      tolerance,
    );
  });

  test('B-brooks: Brooks 1931, at the edge of what mean distances can do', () => {
    const [side, meanRadius] = [input('B-brooks', 'b=c'), input('B-brooks', 'a_mean_RADIUS')];
    const meanDistance = rectangleMeanDistance({ height: side, width: side });
    near(meanDistanceInductance({ meanRadius, meanDistance, turns: 1 }) / meanRadius, expected('B-brooks', 'k'), 0.05);
  });

  test('with N² for the same section', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), (turns) => {
        near(
          meanDistanceInductance({ meanRadius: 1, meanDistance: 0.1, turns }),
          turns ** 2 * meanDistanceInductance({ meanRadius: 1, meanDistance: 0.1, turns: 1 }),
        );
      }),
    );
  });
});

describe('straight conductors', () => {
  test.each(['B-wire-100-1', 'B-wire-50-2'])('%s: Rosa 1908', (id) => {
    const given = { length: input(id, 'l'), wireRadius: input(id, 'd_DIAMETER') / 2 };
    near(straightWireInductance({ ...given, internalFactor: 1 }), expected(id, 'L_dc'), 1e-8);
    near(straightWireInductance({ ...given, internalFactor: 0 }), expected(id, 'L_hf'), 1e-8);
  });

  test('B-twowire: Ramo, Whinnery & Van Duzer', () => {
    const given = { spacing: input('B-twowire', 'D_centres'), wireRadius: input('B-twowire', 'r') };
    near(pairInductance({ ...given, internalFactor: 1 }), expected('B-twowire', 'L_dc_per_m'), 1e-8);
    near(pairInductance({ ...given, internalFactor: 0 }), expected('B-twowire', 'L_hf_per_m'), 1e-8);
  });
});
