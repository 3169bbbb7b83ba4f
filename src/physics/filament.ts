import type { Ampere, Ratio, Volt, Watt } from '../units/si.ts';
import { requirePositive } from './preconditions.ts';

/** Hot over cold resistance of a tungsten lamp: 10 to 15, common practice, no source. */
export const hotOverColdFilament: Ratio = 12;

/**
 * Voltage across a filament lamp that carries a steady current.
 *
 *     V = max(I·Vn²/(12·Pn), Vn·(I/In)²),  In = Pn/Vn
 *
 * The resistance of a lit filament grows with about the square root of the voltage; below that it is the cold one.
 *
 * @param current       I, in A, not negative
 * @param ratedVoltage  Vn, in V, above zero
 * @param ratedPower    Pn, in W, above zero
 * @returns V, in V
 *
 * Valid for: an estimate within a third from cold to rated current; settled, which takes some tenths of a second.
 * Errors: RangeError where a rating is not above zero.
 * Source: common practice, no source: current as the square root of the voltage, hot resistance twelve times the cold one
 *
 * @example filamentVoltage({ current: 2, ratedVoltage: 12, ratedPower: 24 }) // 12
 * @example filamentVoltage({ current: 0.1, ratedVoltage: 12, ratedPower: 24 }) // 0.05
 */
export function filamentVoltage({
  current: I,
  ratedVoltage: Vn,
  ratedPower: Pn,
}: {
  current: Ampere;
  ratedVoltage: Volt;
  ratedPower: Watt;
}): Volt {
  requirePositive({ ratedVoltage: Vn, ratedPower: Pn });
  return Math.max((I * Vn ** 2) / (hotOverColdFilament * Pn), Vn * ((I * Vn) / Pn) ** 2);
}
