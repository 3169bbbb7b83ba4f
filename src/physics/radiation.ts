import type { Kelvin, Metre, Ratio, WattPerMetre } from '../units/si.ts';
import { finite, requirePositive } from './preconditions.ts';

/** Stefan-Boltzmann constant in W/(m²·K⁴), exact since 2019 (CODATA 2018). */
export const stefanBoltzmann = 5.670374419e-8;

/** Surfaces of conductors that an emissivity can be given for. */
export type ConductorSurface = 'bright copper' | 'oxidised copper' | 'tinned' | 'enamelled' | 'painted';

const emissivities: Readonly<Record<ConductorSurface, Ratio>> = {
  'bright copper': 0.03,
  'oxidised copper': 0.6,
  tinned: 0.06,
  enamelled: 0.8,
  painted: 0.9,
};

/**
 * Emissivity of a conductor by the kind of its surface, from the low side of what is tabulated, so that the conductor is not rated cooler
 * than it is.
 *
 *     bright copper 0.03 (0.02–0.07),  oxidised copper 0.6 (0.5–0.8),  tinned 0.06 (0.04–0.07),  enamelled 0.8 (0.8–0.95),  painted 0.9 (0.9–0.97)
 *
 * @param surface  bright copper | oxidised copper | tinned | enamelled | painted
 * @returns ε, a ratio
 *
 * Valid for: 20 °C to 100 °C, total radiation; copper in air turns from bright to oxidised when it has been hot.
 * Source: emissivity tables in the manuals of thermal cameras (read: polished commercial copper 0.03, burnished 0.07, oxidised 0.6–0.7;
 *   tinned iron 0.064; lacquers 0.8–0.95, oil paints 0.92–0.96); the class for enamelled wire is that of lacquers (check-values I-emissivity)
 *
 * @example emissivity({ surface: 'oxidised copper' }) // 0.6
 */
export function emissivity({ surface }: { surface: ConductorSurface }): Ratio {
  return emissivities[surface];
}

/**
 * Heat that a cylinder radiates to surroundings that are large against it.
 *
 *     q = ε·σ·π·D·(Ts⁴ − Tu⁴)
 *
 * @param diameter      D of the cylinder, in m, above zero
 * @param emissivity    ε, a ratio from 0 to 1
 * @param surface       Ts, in K, above zero
 * @param surroundings  Tu, in K, above zero
 * @returns q, in W/m, negative where the surface is the colder one
 *
 * Valid for: a grey convex surface that sees only the surroundings; neighbouring turns hide part of them.
 * Errors: RangeError where an argument breaks its bounds.
 * Source: Stefan-Boltzmann law (check-values I-sigma, I-cengel-9-1-rad)
 *
 * @example radiatedHeat({ diameter: 6e-3, emissivity: 0.6, surface: 350, surroundings: 300 }) // 4.42900739536
 */
export function radiatedHeat({
  diameter: D,
  emissivity: epsilon,
  surface: Ts,
  surroundings: Tu,
}: {
  diameter: Metre;
  emissivity: Ratio;
  surface: Kelvin;
  surroundings: Kelvin;
}): WattPerMetre {
  requirePositive({ diameter: D, surface: Ts, surroundings: Tu });
  if (!(epsilon >= 0 && epsilon <= 1)) throw new RangeError(`emissivity ${epsilon} is not from 0 to 1`);
  return finite({ name: 'radiated heat', value: epsilon * stefanBoltzmann * Math.PI * D * (Ts ** 4 - Tu ** 4) });
}
