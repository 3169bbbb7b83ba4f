import type { CubicMetrePerSecond, KelvinRise, Watt } from '../units/si.ts';
import { finite, requirePositive } from './preconditions.ts';

/** Density times specific heat of water at 40 °C in J/(m³·K), within 1 % from 5 °C to 70 °C (992.2 kg/m³ · 4179 J/(kg·K), steam tables, from memory). */
const waterHeatCapacity = 992.2 * 4179;

/**
 * Rise of the water from inlet to outlet of a cooled tube.
 *
 *     ΔT = P/(ρ·c_p·V̇)
 *
 * @param power  P that the water carries away, in W, above zero
 * @param flow   V̇, in m³/s, above zero (1 L/min is 1.667e-5 m³/s)
 * @returns ΔT, in K
 *
 * Valid for: water of 5 °C to 70 °C at the outlet, all heat into the water; it says nothing of the step from metal to water.
 * Errors: RangeError where an argument is not above zero or the rise is not finite.
 * Source: heat balance; ρ and c_p of water from memory of steam tables
 *
 * @example coolantRise({ power: 1000, flow: 1 / 60000 }) // 14.4703706859
 */
export function coolantRise({ power: P, flow }: { power: Watt; flow: CubicMetrePerSecond }): KelvinRise {
  requirePositive({ power: P, flow });
  return finite({ name: 'rise', value: P / (waterHeatCapacity * flow) });
}

/**
 * Flow of water that a rise from inlet to outlet takes.
 *
 *     V̇ = P/(ρ·c_p·ΔT)
 *
 * @param power  P that the water carries away, in W, above zero
 * @param rise   ΔT, in K, above zero
 * @returns V̇, in m³/s
 *
 * Valid for: water of 5 °C to 70 °C at the outlet, all heat into the water.
 * Errors: RangeError where an argument is not above zero or the flow is not finite.
 * Source: heat balance; ρ and c_p of water from memory of steam tables
 *
 * @example coolantFlow({ power: 4146403.8, rise: 10 }) // 0.1
 */
export function coolantFlow({ power: P, rise }: { power: Watt; rise: KelvinRise }): CubicMetrePerSecond {
  requirePositive({ power: P, rise });
  return finite({ name: 'flow', value: P / (waterHeatCapacity * rise) });
}
