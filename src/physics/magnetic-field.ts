import type { Ampere, Metre, Tesla } from '../units/si.ts';
import { ellipticIntegrals } from './elliptic.ts';
import { finite, requireFinite, requirePositive } from './preconditions.ts';
import { vacuumPermeability } from './vacuum.ts';

/** A circular turn on the axis z. */
export interface CurrentLoop {
  readonly radius: Metre;
  /** Where its plane cuts the axis. */
  readonly position: Metre;
  /** Current times turns, rms or peak; its sign is the sense around the axis. */
  readonly current: Ampere;
}

/** Flux density in a half-plane through the axis. */
export interface AxialField {
  readonly radial: Tesla;
  readonly axial: Tesla;
  readonly magnitude: Tesla;
}

/**
 * Magnetic flux density of a circular current loop, anywhere off the wire.
 *
 *     Bz = μ0·I/(2π·β)·[K + (R² − r² − z²)/α²·E],  Br = μ0·I·z/(2π·β·r)·[(R² + r² + z²)/α²·E − K]
 *     α² = (R − r)² + z²,  β² = (R + r)² + z²,  m = 4R·r/β²
 *
 * @param loop    radius R in m, above zero, position on the axis in m and current I in A
 * @param radius  r, distance of the point from the axis, in m, not negative
 * @param height  where the point lies along the axis, in m; z is its distance from the plane of the loop
 * @returns radial and axial flux density and their magnitude, in T; rms for an rms current
 *
 * Valid for: a thin wire, points several wire radii off it, distances far below a wavelength; no iron or sheet metal near.
 * Errors: RangeError where an argument breaks its bounds, the point lies on the wire or the field is not finite.
 * Source: Smythe, Static and Dynamic Electricity; Simpson, Lane, Immer & Youngquist, NASA/TM-2001, from memory; the differences of K and E
 *   taken from the sums of the arithmetic-geometric mean, so that no digits cancel near the axis (check-values G-B-*, G-Boff-*)
 *
 * @example loopField({ loop: { radius: 0.1, position: 0, current: 10 }, radius: 0, height: 0 }) // { radial: 0, axial: 0.0000628318530718, magnitude: 0.0000628318530718 }
 */
export function loopField({ loop, radius: r, height }: { loop: CurrentLoop; radius: Metre; height: Metre }): AxialField {
  const { radius: R, position, current: I } = loop;
  requirePositive({ 'loop radius': R });
  requireFinite({ 'loop position': position, current: I, radius: r, height });
  if (r < 0) throw new RangeError(`radius ${r} is negative`);
  const z = height - position;
  // all lengths over the radius of the loop
  const [s, h] = [r / R, z / R];
  const alpha2 = (1 - s) ** 2 + h * h;
  if (!(alpha2 > 0)) throw new RangeError('the point lies on the wire');
  const beta2 = (1 + s) ** 2 + h * h;
  const m = (4 * s) / beta2;
  const T = ellipticRest(Math.sqrt(alpha2 / beta2));
  // E = K·(1 − m/2 − m²·T)
  const { first: K } = ellipticIntegrals({ complement: Math.min(1, alpha2 / beta2) });
  const scale = ((vacuumPermeability * I) / (2 * Math.PI * R * Math.sqrt(beta2))) * K;
  const rest = m / 2 + m * m * T;
  const axial = scale * (rest + ((1 - rest) * 2 * (1 - s)) / alpha2);
  const radial = ((scale * h * 16 * s) / (alpha2 * beta2)) * (0.25 - (1 - m / 2) * T);
  return {
    radial: finite({ name: 'radial field', value: radial }),
    axial: finite({ name: 'axial field', value: axial }),
    magnitude: finite({ name: 'field', value: Math.hypot(radial, axial) }),
  };
}

/** T = Σ 2^(n−1)·cₙ²/m² from n = 1 on, of the arithmetic-geometric mean of 1 and the complementary modulus. */
function ellipticRest(complement: number): number {
  let [a, g] = [(1 + complement) / 2, Math.sqrt(complement)];
  let c = (1 - complement) / 2;
  let overM = 1 / (2 * (1 + complement));
  let [sum, weight] = [0, 1];
  while (weight * overM * overM > 1e-17 * sum) {
    sum += weight * overM * overM;
    weight *= 2;
    const mean = (a + g) / 2;
    g = Math.sqrt(a * g);
    a = mean;
    overM *= c / (4 * a);
    c *= c / (4 * a);
  }
  return sum;
}

/**
 * Magnetic flux density of several loops on one axis, such as the turns of a coil.
 *
 *     B = Σ B(loop)
 *
 * @param loops   radius, position and current of each, in m, m and A
 * @param radius  distance of the point from the axis, in m, not negative
 * @param height  where the point lies along the axis, in m
 * @returns radial and axial flux density and the magnitude of their sum, in T
 *
 * Valid for: as one loop; currents in phase.
 * Errors: RangeError where an argument breaks its bounds, the point lies on a wire or the field is not finite.
 * Source: superposition (check-values G-helmholtz)
 *
 * @example coaxialLoopsField({ loops: [{ radius: 1, position: 0, current: 1 }, { radius: 1, position: 0, current: -1 }], radius: 0.3, height: 0.2 }).magnitude // 0
 */
export function coaxialLoopsField({ loops, radius, height }: { loops: readonly CurrentLoop[]; radius: Metre; height: Metre }): AxialField {
  let [radial, axial] = [0, 0];
  for (const loop of loops) {
    const one = loopField({ loop, radius, height });
    radial += one.radial;
    axial += one.axial;
  }
  return { radial, axial, magnitude: finite({ name: 'field', value: Math.hypot(radial, axial) }) };
}
