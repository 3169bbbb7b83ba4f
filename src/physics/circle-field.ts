import type { Ampere, AmperePerMetre, Metre } from '../units/si.ts';
import { ellipticIntegrals } from './elliptic.ts';
import { requirePositive } from './preconditions.ts';

/** Magnetic field on cylinder coordinates. */
export interface AxialField {
  readonly radial: AmperePerMetre;
  readonly axial: AmperePerMetre;
}

/**
 * Magnetic field of a current in a circle, anywhere off the axis.
 *
 *     α² = (R − r)² + z²,  β² = (R + r)² + z²,  k² = 1 − α²/β²
 *     Hz = I/(2π·α²·β)·[(R² − r² − z²)·E + α²·K],  Hr = I·z/(2π·α²·β·r)·[(R² + r² + z²)·E − α²·K]
 *
 * @param current  I, in A
 * @param radius   R, of the circle, in m, above zero
 * @param from     r, distance of the point from the axis, in m, above zero
 * @param height   z, of the point above the plane of the circle, in m
 * @returns Hr and Hz, in A/m; peak for a peak current, rms for an rms current
 *
 * Valid for: a filament in air; inside a few wire radii the wire's own size matters.
 * Errors: RangeError where a radius is not above zero, or the point lies on the circle.
 * Source: Smythe, Static and Dynamic Electricity, from memory (check-values G-Boff-*)
 *
 * @example circleField({ current: 10, radius: 0.1, from: 0.05, height: 0.05 }).axial // 34.583167004275225
 */
export function circleField({
  current: I,
  radius: R,
  from: r,
  height: z,
}: {
  current: Ampere;
  radius: Metre;
  from: Metre;
  height: Metre;
}): AxialField {
  requirePositive({ radius: R, 'distance from the axis': r });
  const near = Math.hypot(R - r, z);
  const far = Math.hypot(R + r, z);
  if (!(near > 0 && near < Infinity)) throw new RangeError(`the field ${near} m from a filament has no value`);
  const { first: K, second: E } = ellipticIntegrals({ complement: (near / far) ** 2 });
  const shared = I / (2 * Math.PI * near * near * far);
  const axial = shared * (((R - r) * (R + r) - z * z) * E + near * near * K);
  const radial = ((shared * z) / r) * ((R * R + r * r + z * z) * E - near * near * K);
  return { radial, axial };
}
