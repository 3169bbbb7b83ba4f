import type { Kelvin, Metre, Ratio, WattPerMetre } from '../units/si.ts';
import { bracketedRoot } from './bracketed-root.ts';
import { convectedHeat } from './convection.ts';
import { requirePositive } from './preconditions.ts';
import { radiatedHeat } from './radiation.ts';

/** Melting point of copper (ITS-90 fixed point), the highest temperature a search makes sense to. */
export const copperMeltingPoint: Kelvin = 1357.77;

/** Where a conductor settles, or that it does not below the highest temperature looked at. */
export type ConductorTemperature = { readonly found: true; readonly temperature: Kelvin } | { readonly found: false };

/**
 * Heat that a horizontal conductor gives to still air and to walls of the same temperature.
 *
 *     q = q_convection + q_radiation
 *
 * @param diameter    outer diameter of the conductor with its covering, in m, above zero
 * @param emissivity  of its surface, a ratio from 0 to 1
 * @param surface     temperature of the surface, in K
 * @param ambient     temperature of air and walls, in K
 * @returns q, in W/m
 *
 * Valid for: one straight horizontal conductor at 1 atm; convection scatters by 10 to 15 %.
 * Errors: RangeError where an argument breaks its bounds or the air between is outside 200 K to 1000 K.
 * Source: Churchill & Chu 1975; Stefan-Boltzmann law (check-values I-tube-*)
 *
 * @example conductorHeatFlow({ diameter: 6e-3, emissivity: 0.6, surface: 300, ambient: 300 }) // 0
 */
export function conductorHeatFlow({
  diameter,
  emissivity,
  surface,
  ambient,
}: {
  diameter: Metre;
  emissivity: Ratio;
  surface: Kelvin;
  ambient: Kelvin;
}): WattPerMetre {
  return convectedHeat({ diameter, surface, ambient }) + radiatedHeat({ diameter, emissivity, surface, surroundings: ambient });
}

/**
 * Temperature at which a conductor in still air loses as much heat as its current brings, the lowest one above ambient: where it settles
 * when it is switched on cold.
 *
 *     P'(T) = q_convection(T) + q_radiation(T)
 *
 * @param diameter    outer diameter of the conductor with its covering, in m, above zero
 * @param emissivity  of its surface, a ratio from 0 to 1
 * @param ambient     temperature of air and walls, in K
 * @param lossAt      loss per length at a temperature in K, in W/m, not negative
 * @param searchTo    highest temperature looked at, in K; the melting point of copper if left out
 * @returns the temperature in K, or `found: false` where the loss outruns the cooling up to `searchTo`
 *
 * Valid for: one straight horizontal conductor at 1 atm with the same temperature all over, no heat to its ends; the rise is uncertain by
 *   15 %. A loss that is continuous in temperature; states closer together than 2 K may be passed over.
 * Errors: RangeError where an argument breaks its bounds, `searchTo` is below ambient or the loss is negative or not finite.
 * Source: heat balance, a scan in steps of 2 K and a bracketed search (check-values I-tubetemp-*)
 *
 * @example conductorTemperature({ diameter: 6e-3, emissivity: 0.6, ambient: 300, lossAt: () => 0 }) // { found: true, temperature: 300 }
 * @example conductorTemperature({ diameter: 1e-3, emissivity: 0.6, ambient: 300, lossAt: () => 1e6 }) // { found: false }
 */
export function conductorTemperature({
  diameter,
  emissivity,
  ambient: Ta,
  lossAt,
  searchTo = copperMeltingPoint,
}: {
  diameter: Metre;
  emissivity: Ratio;
  ambient: Kelvin;
  lossAt: (temperature: Kelvin) => WattPerMetre;
  searchTo?: Kelvin;
}): ConductorTemperature {
  requirePositive({ ambient: Ta, searchTo });
  if (searchTo < Ta) throw new RangeError(`search to ${searchTo} K starts at ${Ta} K`);
  const excess = (T: Kelvin): WattPerMetre => {
    const loss = lossAt(T);
    if (!(loss >= 0 && loss < Infinity)) throw new RangeError(`loss ${loss} W/m at ${T} K`);
    return loss - conductorHeatFlow({ diameter, emissivity, surface: T, ambient: Ta });
  };
  let below = Ta;
  for (let step = 0; ; step++) {
    const T = Math.min(Ta + 2 * step, searchTo);
    if (excess(T) <= 0) return { found: true, temperature: T === Ta ? Ta : bracketedRoot({ of: excess, from: below, to: T }) };
    if (T >= searchTo) return { found: false };
    below = T;
  }
}
