import type { Hertz, Metre, OhmMetre, Ratio, Tesla, WattPerMetre } from '../units/si.ts';
import { besselRatio } from './bessel.ts';
import { finite, requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/**
 * Loss in a length of round wire in a uniform field across it.
 *
 *     P' = 2π·(ω/µ0)·a²·B²·(−Im w),  w = I1(z)/(z·I0(z)),  z = (1 + j)·a/δ;  π·d⁴·ω²·B²/(128·ρ) for a ≪ δ,  2π·a·(ρ/δ)·(B/µ0)² for a ≫ δ
 *
 * @param wireRadius   a, in m, above zero
 * @param fluxDensity  B, peak, of the field without the wire, in T
 * @param resistivity  ρ, in Ω·m, above zero
 * @param frequency    f, in Hz, above zero
 * @returns P', in W/m
 *
 * Valid for: a straight wire that is not magnetic, the field even over its section; any a/δ up to 1e8.
 * Errors: RangeError where an argument is out of range.
 * Source: round cylinder in a transverse field, Smythe; small wire Snelling, Soft Ferrites, from memory (check-values C-strand-transverse)
 *
 * @example transverseFieldLoss({ wireRadius: 0.1e-3, fluxDensity: 1e-3, resistivity: 1 / 58e6, frequency: 1e3 }) // 8.991814835415352e-8
 */
export function transverseFieldLoss({
  wireRadius: a,
  fluxDensity: B,
  resistivity: ρ,
  frequency: f,
}: {
  wireRadius: Metre;
  fluxDensity: Tesla;
  resistivity: OhmMetre;
  frequency: Hertz;
}): WattPerMetre {
  requirePositive({ 'wire radius': a, resistivity: ρ, frequency: f });
  const depthRatio = a * Math.sqrt((Math.PI * f * µ0) / ρ);
  const w = besselRatio({ order: 1, depthRatio });
  return finite({ name: 'loss', value: (2 * Math.PI * 2 * Math.PI * f * a * a * B * B * -w.im) / µ0 });
}

/**
 * Resistance of a winding of round wire in layers over that to direct current.
 *
 *     F = ξ·{(sinh 2ξ + sin 2ξ)/(cosh 2ξ − cos 2ξ) + (2(m² − 1)/3)·(sinh ξ − sin ξ)/(cosh ξ + cos ξ)},  ξ = (√π/2)·(d/δ)·√(d/p)
 *
 * @param wireRadius  d/2, in m, above zero
 * @param pitch       p, in m, d or more
 * @param skinDepth   δ, in m, above zero
 * @param layers      m, 1 or more
 * @returns F, a ratio
 *
 * Valid for: a winding in the closed window of a core, where the field runs along the layers. Not for coils in air.
 * Errors: RangeError where an argument is out of range.
 * Source: P. L. Dowell, Proc. IEE 113, 1966, from memory (check-values C-dowell-*)
 *
 * @example dowellRatio({ wireRadius: 0.25e-3, pitch: 0.6e-3, skinDepth: 2.08980678494e-4, layers: 1 }) // 1.82358222427
 */
export function dowellRatio({
  wireRadius,
  pitch: p,
  skinDepth: δ,
  layers: m,
}: {
  wireRadius: Metre;
  pitch: Metre;
  skinDepth: Metre;
  layers: number;
}): Ratio {
  requirePositive({ 'wire radius': wireRadius, pitch: p, 'skin depth': δ });
  requireWithin({ named: { layers: m }, from: 1 });
  const d = 2 * wireRadius;
  requireWithin({ named: { 'pitch over diameter': p / d }, from: 1 });
  const ξ = (Math.sqrt(Math.PI) / 2) * (d / δ) * Math.sqrt(d / p);
  // cosh 2ξ − cos 2ξ = 2·(sinh²ξ + sin²ξ); beyond 40 both quotients are 1
  const [sinh, sin] = [Math.sinh(Math.min(ξ, 40)), Math.sin(ξ)];
  const [cosh, cos] = [Math.cosh(Math.min(ξ, 40)), Math.cos(ξ)];
  const skin = (sinh * cosh + sin * cos) / (sinh * sinh + sin * sin);
  const odd = ξ < 0.05 ? (ξ ** 3 / 3) * (1 + ξ ** 4 / 840) : sinh - sin;
  return finite({ name: 'ratio', value: ξ * (skin + ((2 * (m * m - 1)) / 3) * (odd / (cosh + cos))) });
}
