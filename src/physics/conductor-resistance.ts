import type { HenryPerMetre, Hertz, Metre, OhmMetre, OhmPerMetre, Ratio, SquareMetre } from '../units/si.ts';
import { besselRatio, scaledBessel } from './bessel.ts';
import type { Complex } from './complex.ts';
import { exponential, over, plus, scaled, times } from './complex.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/** Resistance of a length of conductor, and the inductance of the field inside the metal. */
export interface ConductorImpedance {
  readonly resistance: OhmPerMetre;
  readonly internalInductance: HenryPerMetre;
}

/** Below this ratio of radius to skin depth a conductor is as at direct current, within 1e-9. */
const directCurrent = 0.01;

/**
 * Depth at which the current density in a flat thick conductor has fallen to 1/e.
 *
 *     δ = √(ρ/(π·f·µ0))
 *
 * @param resistivity  ρ, in Ω·m, above zero
 * @param frequency    f, in Hz, above zero
 * @returns δ, in m
 *
 * Valid for: metals that are not magnetic, far below optical frequencies.
 * Errors: RangeError where an argument is not finite and above zero.
 * Source: Maxwell, Kelvin (check-values C-skin, C-skin-60Hz-published, C-skin-table-launchloop)
 *
 * @example skinDepth({ resistivity: 1 / 58e6, frequency: 100e3 }) // 2.08980678494e-4
 */
export function skinDepth({ resistivity: ρ, frequency: f }: { resistivity: OhmMetre; frequency: Hertz }): Metre {
  requirePositive({ resistivity: ρ, frequency: f });
  return Math.sqrt(ρ / (Math.PI * f * µ0));
}

/**
 * Resistance of a length of conductor to direct current.
 *
 *     R' = ρ/A
 *
 * @param resistivity  ρ, in Ω·m, above zero
 * @param area         A, cross-section, in m², above zero
 * @returns R', in Ω/m
 *
 * Valid for: current uniform over the section.
 * Errors: RangeError where an argument is not finite and above zero.
 * Source: Ohm (check-values C-wire-1mm-100k, C-awg-R)
 *
 * @example dcResistance({ resistivity: 1 / 58e6, area: 1e-6 }) // 0.017241379310344827
 */
export function dcResistance({ resistivity: ρ, area: A }: { resistivity: OhmMetre; area: SquareMetre }): OhmPerMetre {
  requirePositive({ resistivity: ρ, area: A });
  return ρ / A;
}

/**
 * Resistance and internal inductance of a solid round wire with skin effect.
 *
 *     Z' = (ρ/πa²)·(z/2)·I0(z)/I1(z),  z = (1 + j)·a/δ;  R' = Re Z',  L' = Im Z'/ω
 *
 * @param radius       a, in m, above zero
 * @param resistivity  ρ, in Ω·m, above zero
 * @param frequency    f, in Hz, 0 or more
 * @returns R', in Ω/m, and L', in H/m: µ0/8π at direct current
 *
 * Valid for: a straight wire whose return current is many diameters away; neighbouring turns add proximity loss. Any a/δ up to 1e8.
 * Errors: RangeError where an argument is out of range.
 * Source: Kelvin; Ramo, Whinnery & Van Duzer, from memory (check-values C-round-*, C-wire-1mm-100k)
 *
 * @example wireImpedance({ radius: 0.5e-3, resistivity: 1 / 58e6, frequency: 100e3 }).resistance // 0.0318266180222
 */
export function wireImpedance({
  radius: a,
  resistivity: ρ,
  frequency: f,
}: {
  radius: Metre;
  resistivity: OhmMetre;
  frequency: Hertz;
}): ConductorImpedance {
  requirePositive({ radius: a, resistivity: ρ });
  requireWithin({ named: { frequency: f }, from: 0 });
  const u = Math.max(directCurrent, a * Math.sqrt((Math.PI * f * µ0) / ρ));
  const ratio = scaled(over({ re: 1, im: 0 }, besselRatio({ order: 1, depthRatio: u })), 0.5);
  return impedance({ ratio, dc: ρ / (Math.PI * a * a), depthRatio: u, radius: a, resistivity: ρ });
}

/** R' and L' from Z'/R'dc; ω = 2ρ·u²/(µ0·a²), so that L' needs no frequency. */
function impedance({
  ratio,
  dc,
  depthRatio: u,
  radius: a,
  resistivity: ρ,
}: {
  ratio: Complex;
  dc: OhmPerMetre;
  depthRatio: Ratio;
  radius: Metre;
  resistivity: OhmMetre;
}): ConductorImpedance {
  return { resistance: dc * ratio.re, internalInductance: (dc * ratio.im * µ0 * a * a) / (2 * ρ * u * u) };
}

/**
 * Resistance and internal inductance of a round tube with skin effect, current returning outside.
 *
 *     Z' = (ρ·κ/2πb)·[I0(κb)·K1(κc) + K0(κb)·I1(κc)]/[I1(κb)·K1(κc) − K1(κb)·I1(κc)],  κ = (1 + j)/δ,  c = b − t
 *
 * @param outerRadius  b, in m, above zero
 * @param wall         t, in m, from 1e-4·b to b, where the tube is a wire
 * @param resistivity  ρ, in Ω·m, above zero
 * @param frequency    f, in Hz, 0 or more
 * @returns R', in Ω/m, and L', in H/m
 *
 * Valid for: a straight tube whose return current is many diameters away; neighbouring turns add proximity loss. Any b/δ up to 1e8. Measured against
 * mpmath: R' within 5e-12, L' within 2e-4 of µ0/8π, for all walls and b/δ from 0.01 to 100.
 * Errors: RangeError where an argument is out of range.
 * Source: H. B. Dwight, AIEE Trans. 37, 1918; Ramo, Whinnery & Van Duzer, from memory (check-values C-tube-*)
 *
 * @example tubeImpedance({ outerRadius: 3e-3, wall: 1e-3, resistivity: 1 / 58e6, frequency: 100e3 }).resistance // 0.00453261876515
 */
export function tubeImpedance({
  outerRadius: b,
  wall: t,
  resistivity: ρ,
  frequency: f,
}: {
  outerRadius: Metre;
  wall: Metre;
  resistivity: OhmMetre;
  frequency: Hertz;
}): ConductorImpedance {
  requirePositive({ 'outer radius': b, wall: t, resistivity: ρ });
  requireWithin({ named: { wall: t }, from: 1e-4 * b, to: b });
  requireWithin({ named: { frequency: f }, from: 0 });
  const c = b - t;
  const u = Math.max(directCurrent, b * Math.sqrt((Math.PI * f * µ0) / ρ));
  if (c < 1e-6 * b) return wireImpedance({ radius: b, resistivity: ρ, frequency: f });
  const outer = scaledBessel({ depthRatio: u });
  const inner = scaledBessel({ depthRatio: (u * c) / b });
  const inward = exponential(scaled({ re: 1, im: 1 }, (-2 * u * t) / b));
  const above = plus(times(outer.i0, inner.k1), times(times(outer.k0, inner.i1), inward));
  const below = plus(times(outer.i1, inner.k1), scaled(times(times(outer.k1, inner.i1), inward), -1));
  const dc = ρ / (Math.PI * t * (b + c));
  // Z'/R'dc = (z/2)·(b² − c²)/b²·(above/below)
  const ratio = times(over(above, below), scaled({ re: u, im: u }, (t * (b + c)) / (2 * b * b)));
  return impedance({ ratio, dc, depthRatio: u, radius: b, resistivity: ρ });
}

/**
 * Internal inductance as a share of what a solid round wire has at direct current.
 *
 *     Y = L'/(µ0/8π)
 *
 * @param internalInductance  L', in H/m
 * @returns Y, a ratio: 1 for direct current in a solid wire, 0 where all current flows on the surface
 *
 * Valid for: round wires and tubes.
 * Source: definition; NBS Circular 74 tabulates Y/4 as δ, from memory
 *
 * @example internalFactor({ internalInductance: 50e-9 }) // 1
 */
export function internalFactor({ internalInductance: L }: { internalInductance: HenryPerMetre }): Ratio {
  return L / (µ0 / (8 * Math.PI));
}
