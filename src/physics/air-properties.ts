import type {
  JoulePerKilogramKelvin,
  Kelvin,
  KilogramPerCubicMetre,
  PascalSecond,
  PerKelvin,
  Ratio,
  SquareMetrePerSecond,
  WattPerMetreKelvin,
} from '../units/si.ts';

/** What carries heat in air. */
export interface AirProperties {
  readonly density: KilogramPerCubicMetre;
  readonly viscosity: PascalSecond;
  readonly kinematicViscosity: SquareMetrePerSecond;
  readonly conductivity: WattPerMetreKelvin;
  readonly heatCapacity: JoulePerKilogramKelvin;
  readonly thermalDiffusivity: SquareMetrePerSecond;
  readonly prandtl: Ratio;
  readonly expansion: PerKelvin;
}

const gasConstant = 8.31451 / 0.0289586; // J/(kg K), of the air that the correlations were made for
const criticalTemperature = 132.6312;

/** Collision integral, powers of ln(T/103.3 K). */
const collision = [0.431, -0.4623, 0.08406, 0.005341, -0.00331];

/** Vibration of nitrogen, oxygen: share of the gas constant, K. */
const vibrations = [
  [0.791309509, 25.36365],
  [0.212236768, 16.90741],
] as const;

/**
 * Properties of dry air at one atmosphere.
 *
 *     ρ = p/(R·T);  β = 1/T;  η = 0.0266958·√(M·T)/(σ²·Ω(T/103.3 K));  λ = 1.308·η/µPas + 1.405·τ^−1.1 − 1.036·τ^−0.3, τ = 132.63 K/T
 *
 * @param temperature  T, in K, from 200 to 1000
 * @returns density in kg/m³, viscosity in Pa·s, kinematic viscosity in m²/s, conductivity in W/(m·K), heat capacity at constant pressure
 *   in J/(kg·K), thermal diffusivity in m²/s, Prandtl number, expansion coefficient in 1/K
 *
 * Valid for: 1013.25 hPa as a dilute gas; against the equation of state of real air within 0.3 % from 233 K to 1000 K.
 * Errors: RangeError outside 200 K to 1000 K.
 * Source: Lemmon & Jacobsen, Int. J. Thermophys. 25 (2004) 21, dilute-gas terms; Lemmon et al., J. Phys. Chem. Ref. Data 29 (2000) 331,
 *   heat capacity of the ideal gas; both from memory (check-values I-air)
 *
 * @example airProperties({ temperature: 300 }).density // 1.17634919556294
 */
export function airProperties({ temperature: T }: { temperature: Kelvin }): AirProperties {
  if (!(T >= 200 && T <= 1000)) throw new RangeError(`no properties of air at ${T} K`);
  const density = 101325 / (gasConstant * T);
  const reduced = Math.log(T / 103.3);
  const omega = Math.exp(collision.reduceRight((sum, coefficient) => sum * reduced + coefficient, 0));
  const microviscosity = (0.0266958 * Math.sqrt(28.9586 * T)) / (0.36 ** 2 * omega);
  const tau = criticalTemperature / T;
  const conductivity = 1e-3 * (1.308 * microviscosity + 1.405 * tau ** -1.1 - 1.036 * tau ** -0.3);
  const viscosity = 1e-6 * microviscosity;
  const heatCapacity = gasConstant * idealHeatCapacity(T);
  return {
    density,
    viscosity,
    kinematicViscosity: viscosity / density,
    conductivity,
    heatCapacity,
    thermalDiffusivity: conductivity / (density * heatCapacity),
    prandtl: (viscosity * heatCapacity) / conductivity,
    expansion: 1 / T,
  };
}

function idealHeatCapacity(T: Kelvin): Ratio {
  const polynomial = 3.490888032 + T * (2.395525583e-6 + T * (7.172111248e-9 - T * 3.115413101e-13)) + 0.223806688 * T ** -1.5;
  return vibrations.reduce((sum, [share, reducedTemperature]) => {
    const u = (reducedTemperature * criticalTemperature) / T;
    return sum + (share * u * u * Math.exp(u)) / Math.expm1(u) ** 2;
  }, polynomial);
}
