import type { Hertz, Metre, OhmMetre, Ratio } from '../units/si.ts';
import { besselRatio, scaledBessel } from './bessel.ts';
import type { Complex } from './complex.ts';
import { exponential, over, plus, scaled, times } from './complex.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/**
 * How far a round wire or tube drives an alternating field across it out of its section: the share of the crowding at thin skin.
 *
 *     s = −Re T,  T = (1 − σ)/(1 + σ),  σ = b·A'(b)/A(b);  wire: T = 2·I1(z)/(z·I0(z)) − 1
 *     tube: A(r) = I1(κr)·K2(κc) + K1(κr)·I2(κc),  κ = (1 + j)/δ;  thin wall: s = β²/(1 + β²),  β = b·t/δ²
 *
 * @param outerRadius  b, in m, above zero
 * @param wall         t, in m, from 1e-4·b to b, where the tube is a wire
 * @param resistivity  ρ, in Ω·m, above zero
 * @param frequency    f, in Hz, 0 or more
 * @returns s, a ratio from 0 at direct current to 1 at thin skin
 *
 * Valid for: an even field across one conductor. Against the exact solution of rows of 2 to 10 straight wires the share of the inductance that crowding has taken
 * differs from s by at most s·(1 − s).
 * Errors: RangeError where an argument is out of range.
 * Source: round cylinder and shell in a transverse field, own derivation by the method of Smythe, Static and Dynamic Electricity
 *
 * @example crowdingShare({ outerRadius: 3e-3, wall: 1e-3, resistivity: 1 / 58e6, frequency: 0 }) // 0
 */
export function crowdingShare({
  outerRadius: b,
  wall: t,
  resistivity: ρ,
  frequency: f,
}: {
  outerRadius: Metre;
  wall: Metre;
  resistivity: OhmMetre;
  frequency: Hertz;
}): Ratio {
  requirePositive({ 'outer radius': b, wall: t, resistivity: ρ });
  requireWithin({ named: { wall: t }, from: 1e-4 * b, to: b });
  requireWithin({ named: { frequency: f }, from: 0 });
  const u = b * Math.sqrt((Math.PI * f * µ0) / ρ);
  // below, the share is less than 1e-12
  if (u < 1e-3) return 0;
  const c = b - t;
  if (c < 1e-3 * b) return Math.max(0, 1 - 2 * besselRatio({ order: 1, depthRatio: u }).re);
  const z: Complex = { re: u, im: u };
  const zc = scaled(z, c / b);
  const outer = scaledBessel({ depthRatio: u });
  const inner = scaledBessel({ depthRatio: (u * c) / b });
  const k2 = plus(inner.k0, over(scaled(inner.k1, 2), zc));
  const i2 = times(times(zc, besselRatio({ order: 2, depthRatio: (u * c) / b })), inner.i1);
  const across = times(i2, exponential(scaled({ re: 1, im: 1 }, (-2 * u * t) / b)));
  // 1 + σ = z·[I0(z)·K2(zc) − K0(z)·I2(zc)]/[I1(z)·K2(zc) + K1(z)·I2(zc)];  T = 2/(1 + σ) − 1
  const field = plus(times(outer.i1, k2), times(outer.k1, across));
  const slope = times(z, plus(times(outer.i0, k2), scaled(times(outer.k0, across), -1)));
  return Math.max(0, 1 - 2 * over(field, slope).re);
}
