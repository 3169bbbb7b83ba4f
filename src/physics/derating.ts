import type { Ampere, Farad, Hertz, KelvinPerWatt, KelvinRise, Ratio, Volt, Watt } from '../units/si.ts';
import { thermalVoltageLimit } from './capacitor.ts';
import { finite, requirePositive } from './preconditions.ts';

/** What ends the ac voltage of a capacitor at a frequency. */
export type VoltageLimitedBy = 'voltage' | 'loss' | 'current';

/**
 * Loss that warms a capacitor by no more than it may be warmed.
 *
 *     P = ΔT/R_th
 *
 * @param rise               ΔT allowed, case above air, in K, above zero
 * @param thermalResistance  R_th, case to ambient, in K/W, above zero
 * @returns P, in W
 *
 * Valid for: steady state, one capacitor in its own air.
 * Errors: RangeError where an argument is not above zero or the loss is not finite.
 * Source: thermal Ohm's law (check-values D-thermal)
 *
 * @example permissibleLoss({ rise: 10, thermalResistance: 40 }) // 0.25
 */
export function permissibleLoss({ rise, thermalResistance: Rth }: { rise: KelvinRise; thermalResistance: KelvinPerWatt }): Watt {
  requirePositive({ rise, thermalResistance: Rth });
  return finite({ name: 'loss', value: rise / Rth });
}

/**
 * Sine voltage that a film capacitor may carry at a frequency.
 *
 *     V = min(Vac, √(P/(2π·f·C·tanδ)), I/(2π·f·C)):  constant, then falling with f^−½, then with 1/f
 *
 * @param ratedVoltage  Vac of the part, rms, in V, above zero
 * @param loss          P that the part may turn into heat, in W, above zero
 * @param lossTangent   tanδ at f, a ratio, above zero
 * @param ratedCurrent  I of the part, rms, in A, above zero; left out, it does not count
 * @param capacitance   C, in F, above zero
 * @param frequency     f, in Hz, above zero
 * @returns V, rms, in V, and what it is limited by
 *
 * Valid for: sine voltage, tanδ well below 1. Where the part has a curve of its own, the curve counts.
 * Errors: RangeError where an argument is not above zero or a limit is not finite.
 * Source: makers' ac voltage curves; IEC 60384-17 test philosophy, from memory (check-values D-derate, D-ac-frequency)
 *
 * @example permissibleVoltage({ ratedVoltage: 250, loss: 0.25, lossTangent: 0.0025, ratedCurrent: 9, capacitance: 330e-9, frequency: 100e3 }) // { voltage: 21.961049754929, limitedBy: 'loss' }
 */
export function permissibleVoltage({
  ratedVoltage,
  loss: P,
  lossTangent: tanDelta,
  ratedCurrent,
  capacitance: C,
  frequency: f,
}: {
  ratedVoltage: Volt;
  loss: Watt;
  lossTangent: Ratio;
  ratedCurrent?: Ampere | undefined;
  capacitance: Farad;
  frequency: Hertz;
}): { voltage: Volt; limitedBy: VoltageLimitedBy } {
  requirePositive({ ratedVoltage, loss: P, lossTangent: tanDelta, capacitance: C, frequency: f });
  if (ratedCurrent !== undefined) requirePositive({ ratedCurrent });
  const thermal = finite({
    name: 'voltage',
    value: thermalVoltageLimit({ power: P, frequency: f, capacitance: C, lossTangent: tanDelta }),
  });
  const byCurrent = ratedCurrent === undefined ? Infinity : ratedCurrent / (2 * Math.PI * f * C);
  if (ratedVoltage <= Math.min(thermal, byCurrent)) return { voltage: ratedVoltage, limitedBy: 'voltage' };
  return thermal <= byCurrent ? { voltage: thermal, limitedBy: 'loss' } : { voltage: byCurrent, limitedBy: 'current' };
}

/**
 * Frequencies at which the ac voltage of a film capacitor turns from constant to thermal, and from thermal to current-limited.
 *
 *     f1 = P/(2π·C·tanδ·Vac²),  f2 = I²·tanδ/(2π·C·P);  where f2 ≤ f1 there is no thermal region, and both are I/(2π·C·Vac)
 *
 * @param ratedVoltage  Vac of the part, rms, in V, above zero
 * @param loss          P that the part may turn into heat, in W, above zero
 * @param lossTangent   tanδ, a ratio, above zero, taken as constant
 * @param ratedCurrent  I of the part, rms, in A, above zero
 * @param capacitance   C, in F, above zero
 * @returns f1 and f2, in Hz
 *
 * Valid for: a loss tangent that does not change between the corners; with one that grows, the thermal region falls faster and f1 is that of
 *   the value there.
 * Errors: RangeError where an argument is not above zero or a corner is not finite.
 * Source: intersections of the three limits of `permissibleVoltage`
 *
 * @example deratingCorners({ ratedVoltage: 100, loss: 1, lossTangent: 0.001, ratedCurrent: 10, capacitance: 1e-6 }) // { thermalFrom: 15915.494309189533, currentFrom: 15915.494309189533 }
 */
export function deratingCorners({
  ratedVoltage: V,
  loss: P,
  lossTangent: tanDelta,
  ratedCurrent: I,
  capacitance: C,
}: {
  ratedVoltage: Volt;
  loss: Watt;
  lossTangent: Ratio;
  ratedCurrent: Ampere;
  capacitance: Farad;
}): { thermalFrom: Hertz; currentFrom: Hertz } {
  requirePositive({ ratedVoltage: V, loss: P, lossTangent: tanDelta, ratedCurrent: I, capacitance: C });
  const thermalFrom = finite({ name: 'corner', value: P / (2 * Math.PI * C * tanDelta * V * V) });
  const currentFrom = finite({ name: 'corner', value: (I * I * tanDelta) / (2 * Math.PI * C * P) });
  const direct = finite({ name: 'corner', value: I / (2 * Math.PI * C * V) });
  return currentFrom > thermalFrom ? { thermalFrom, currentFrom } : { thermalFrom: direct, currentFrom: direct };
}
