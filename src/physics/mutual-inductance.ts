import type { Henry, Metre, Ratio } from '../units/si.ts';
import { ellipticIntegrals } from './elliptic.ts';
import { finite, requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/**
 * Mutual inductance of two circles on one axis.
 *
 *     M = µ0·√(A·a)·[(2/k − k)·K − (2/k)·E],  k² = 4A·a/((A + a)² + d²)
 *
 * @param firstRadius   A, in m, above zero
 * @param secondRadius  a, in m, above zero
 * @param distance      d, between their planes, in m, 0 or more
 * @returns M, in H
 *
 * Valid for: thin conductors in air; exact for filaments. Between the centre lines of round wires with uniform current it is in error by
 * the order of (wire radius/distance)²·(distance/loop radius). Measured against mpmath: within 2e-15 for d/A from 1e-8 to 1e8.
 * Errors: RangeError where an argument is out of range, or the circles are the same circle: M is infinite.
 * Source: J. C. Maxwell, Treatise on Electricity and Magnetism, art. 701; NIST DLMF 19.34 (check-values B-mut-*, B-dlmf)
 *
 * @example circleMutualInductance({ firstRadius: 0.25, secondRadius: 0.2, distance: 0.1 }) // 2.48787359042e-7
 */
export function circleMutualInductance({
  firstRadius: A,
  secondRadius: a,
  distance: d,
}: {
  firstRadius: Metre;
  secondRadius: Metre;
  distance: Metre;
}): Henry {
  requirePositive({ 'first radius': A, 'second radius': a });
  requireWithin({ named: { distance: d }, from: 0 });
  const far = Math.hypot(A + a, d);
  const near = Math.hypot(A - a, d);
  if (near === 0) throw new RangeError('the two circles are the same circle; their mutual inductance is infinite');
  const k = (2 * Math.sqrt(A) * Math.sqrt(a)) / far;
  const { mutual } = ellipticIntegrals({ complement: (near / far) ** 2, parameter: k * k });
  return finite({ name: 'mutual inductance', value: µ0 * Math.sqrt(A) * Math.sqrt(a) * (2 / k) * mutual });
}

/** A turn taken as a circle on the common axis; part of a circle if its share is below 1. */
export interface Turn {
  readonly radius: Metre;
  /** Position on the axis. */
  readonly height: Metre;
  /** Turns that it stands for: 1, or less for the last turn of a coil that ends part way round. */
  readonly share?: Ratio;
}

/**
 * Mutual inductance of two coils made of turns on one axis, in series within each coil.
 *
 *     M = Σ_i Σ_j n_i·n_j·M_ij
 *
 * @param first   turns of one coil, radius and height in m
 * @param second  turns of the other, in the same frame
 * @returns M, in H
 *
 * Valid for: thin conductors in air, no turn in the place of another; pitch of a helix neglected.
 * Errors: RangeError where a radius is not above zero or two turns are the same circle.
 * Source: J. C. Maxwell, Treatise, arts. 701 and 704 (check-values B-mut-*)
 *
 * @example coilMutualInductance({ first: [{ radius: 0.25, height: 0 }], second: [{ radius: 0.2, height: 0.1 }] }) // 2.48787359042e-7
 */
export function coilMutualInductance({ first, second }: { first: readonly Turn[]; second: readonly Turn[] }): Henry {
  let sum = 0;
  for (const { radius: firstRadius, height: from, share: n = 1 } of first)
    for (const { radius: secondRadius, height: to, share: m = 1 } of second)
      sum += n * m * circleMutualInductance({ firstRadius, secondRadius, distance: Math.abs(from - to) });
  return finite({ name: 'mutual inductance', value: sum });
}

/**
 * Coupling factor of two coils.
 *
 *     k = M/√(L1·L2)
 *
 * @param mutualInductance  M, in H
 * @param firstInductance   L1, in H, above zero
 * @param secondInductance  L2, in H, above zero
 * @returns k, a ratio
 *
 * Valid for: any two coils.
 * Errors: RangeError where an inductance is not finite and above zero.
 * Source: definition (check-values G-k-loops)
 *
 * @example couplingFactor({ mutualInductance: 1e-6, firstInductance: 4e-6, secondInductance: 1e-6 }) // 0.5
 */
export function couplingFactor({
  mutualInductance: M,
  firstInductance: L1,
  secondInductance: L2,
}: {
  mutualInductance: Henry;
  firstInductance: Henry;
  secondInductance: Henry;
}): Ratio {
  requirePositive({ 'first inductance': L1, 'second inductance': L2 });
  return finite({ name: 'coupling factor', value: M / Math.sqrt(L1) / Math.sqrt(L2) });
}
