import type {
  Kelvin,
  KelvinRise,
  Metre,
  MetrePerSecondSquared,
  PerKelvin,
  Ratio,
  SquareMetrePerSecond,
  WattPerMetre,
} from '../units/si.ts';
import { airProperties } from './air-properties.ts';
import { finite, requireFinite, requirePositive } from './preconditions.ts';

/** Standard acceleration of free fall. */
const standardGravity: MetrePerSecondSquared = 9.80665;

/**
 * Rayleigh number of a body in a fluid: buoyancy against what damps it.
 *
 *     Ra = g·β·ΔT·D³/(ν·α)
 *
 * @param expansion             β of the fluid at the film temperature, in 1/K, not negative
 * @param temperatureDifference ΔT between surface and fluid, in K, not negative
 * @param diameter              D, or the height of a plate, in m, above zero
 * @param kinematicViscosity    ν at the film temperature, in m²/s, above zero
 * @param thermalDiffusivity    α at the film temperature, in m²/s, above zero
 * @param gravity               g, in m/s²; 9.80665 if left out
 * @returns Ra, a ratio
 *
 * Valid for: small density differences.
 * Errors: RangeError where an argument breaks its bounds or the number is not finite.
 * Source: definition, any heat-transfer text (check-values I-cengel-9-1)
 *
 * @example rayleighNumber({ expansion: 0.0031, temperatureDifference: 50, diameter: 0.08, kinematicViscosity: 1.7e-5, thermalDiffusivity: 2.4e-5, gravity: 10 }) // 1945098.03921569
 */
export function rayleighNumber({
  expansion: beta,
  temperatureDifference: dT,
  diameter: D,
  kinematicViscosity: nu,
  thermalDiffusivity: alpha,
  gravity: g = standardGravity,
}: {
  expansion: PerKelvin;
  temperatureDifference: KelvinRise;
  diameter: Metre;
  kinematicViscosity: SquareMetrePerSecond;
  thermalDiffusivity: SquareMetrePerSecond;
  gravity?: MetrePerSecondSquared;
}): Ratio {
  requirePositive({ diameter: D, kinematicViscosity: nu, thermalDiffusivity: alpha });
  requireFinite({ expansion: beta, temperatureDifference: dT, gravity: g });
  if (beta < 0 || dT < 0 || g < 0) throw new RangeError('expansion, temperature difference and gravity are not negative');
  return finite({ name: 'Rayleigh number', value: (g * beta * dT * D ** 3) / (nu * alpha) });
}

/**
 * Mean Nusselt number of free convection from a long horizontal cylinder, laminar and turbulent.
 *
 *     Nu = {0.60 + 0.387·Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27)}²
 *
 * @param rayleigh  Ra over the diameter, a ratio, up to 1e12
 * @param prandtl   Pr of the fluid, a ratio, above zero
 * @returns Nu, a ratio
 *
 * Valid for: Ra 1e-5 to 1e12, one cylinder in a wide still room; measured values scatter by 10 to 15 %. At Ra 10
 *   (a wire of 2 mm) it lies 20 % below Morgan's correlation, so that the wire is rated hotter. Towards Ra 0, Nu tends to 0.36.
 * Errors: RangeError where Ra is negative or above 1e12, or Pr is not above zero.
 * Source: Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1049 (check-values I-churchill)
 *
 * @example cylinderNusseltNumber({ rayleigh: 1e4, prandtl: 0.7 }) // 4.36638650738
 */
export function cylinderNusseltNumber({ rayleigh: Ra, prandtl: Pr }: { rayleigh: Ratio; prandtl: Ratio }): Ratio {
  requirePositive({ prandtl: Pr });
  if (!(Ra >= 0 && Ra <= 1e12)) throw new RangeError(`no correlation at Rayleigh number ${Ra}`);
  return (0.6 + (0.387 * Ra ** (1 / 6)) / (1 + (0.559 / Pr) ** (9 / 16)) ** (8 / 27)) ** 2;
}

/**
 * Heat that free convection carries from a horizontal cylinder in still air.
 *
 *     q = π·Nu·λ·(Ts − Ta),  air at the film temperature (Ts + Ta)/2
 *
 * @param diameter  D of the cylinder, in m, above zero
 * @param surface   Ts, in K
 * @param ambient   Ta, in K
 * @returns q, in W/m, negative where the surface is the colder one
 *
 * Valid for: one straight horizontal conductor at 1 atm, film temperature 200 K to 1000 K; measured values scatter by 10 to 15 %. Turns
 *   close above one another, and upright turns, carry less or more.
 * Errors: RangeError where an argument breaks its bounds or the film is too cold or hot.
 * Source: Churchill & Chu 1975 (check-values I-tube-*)
 *
 * @example convectedHeat({ diameter: 6e-3, surface: 350, ambient: 350 }) // 0
 */
export function convectedHeat({
  diameter: D,
  surface: Ts,
  ambient: Ta,
}: {
  diameter: Metre;
  surface: Kelvin;
  ambient: Kelvin;
}): WattPerMetre {
  requirePositive({ surface: Ts, ambient: Ta });
  const { conductivity, prandtl, expansion, kinematicViscosity, thermalDiffusivity } = airProperties({ temperature: (Ts + Ta) / 2 });
  const rayleigh = rayleighNumber({
    expansion,
    temperatureDifference: Math.abs(Ts - Ta),
    diameter: D,
    kinematicViscosity,
    thermalDiffusivity,
  });
  return Math.PI * cylinderNusseltNumber({ rayleigh, prandtl }) * conductivity * (Ts - Ta);
}
