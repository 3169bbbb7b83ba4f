import type { Ampere, Hertz, Kelvin, KelvinPerWatt, Ohm, Ratio, Watt } from '../units/si.ts';

/** Exponents of ripple and frequency in the loss of a powder core: class, from memory; 2.2 fits the two stated points of parts-db. */
const rippleExponent = 2.2;
const frequencyExponent = 1.2;

/** Temperature coefficient of copper at 20 °C. */
export const copperCoefficient: Ratio = 0.00393;

/**
 * Core loss of a choke at another ripple and frequency than the stated ones.
 *
 *     P = P0·(ΔI/ΔI0)^2.2·(f/f0)^1.2
 *
 * @param statedLoss       P0, in W
 * @param statedRipple     ΔI0, peak to peak, in A, above zero
 * @param statedFrequency  f0 of that ripple, in Hz, above zero
 * @param ripple           ΔI, in A
 * @param frequency        f of the ripple, in Hz
 * @returns P, in W
 *
 * Valid for: an unsaturated core within about three times the stated ripple and frequency; the exponents are those of a class.
 * Source: Steinmetz, Trans. AIEE 9, 1892; exponents class, from memory
 *
 * @example chokeCoreLoss({ statedLoss: 0.4, statedRipple: 1, statedFrequency: 1e5, ripple: 2, frequency: 1e5 }) // 1.83791736799
 */
export function chokeCoreLoss({
  statedLoss: P0,
  statedRipple,
  statedFrequency,
  ripple,
  frequency,
}: {
  statedLoss: Watt;
  statedRipple: Ampere;
  statedFrequency: Hertz;
  ripple: Ampere;
  frequency: Hertz;
}): Watt {
  return P0 * (ripple / statedRipple) ** rippleExponent * (frequency / statedFrequency) ** frequencyExponent;
}

/**
 * Effective current of a choke: direct current with a triangular ripple on it.
 *
 *     I_rms = √(I² + ΔI²/12)
 *
 * @param current  I, in A
 * @param ripple   ΔI, peak to peak, in A
 * @returns I_rms, in A
 *
 * Valid for: a ripple that rises and falls linearly; the true one is within 4 % of ΔI²/12.
 * Source: rms of a triangle, any power-electronics text
 *
 * @example chokeRmsCurrent({ current: 2, ripple: 0 }) // 2
 */
export function chokeRmsCurrent({ current: I, ripple }: { current: Ampere; ripple: Ampere }): Ampere {
  return Math.sqrt(I * I + (ripple * ripple) / 12);
}

/**
 * Temperature at which a copper winding settles whose resistance rises with it.
 *
 *     T = Ta + R_th·(I²·R20·(1 + α·(T − 20 °C)) + P_core),  α = 0.00393/K
 *
 * @param ambient            Ta, in K
 * @param thermalResistance  R_th, winding to ambient, in K/W
 * @param rmsCurrent         I, in A
 * @param resistance20       R20, dc resistance at 20 °C, in Ω
 * @param coreLoss           P_core, in W
 * @returns T, in K; undefined where the copper loss outgrows the cooling
 *
 * Valid for: dc and ripple far below the skin effect of the wire.
 * Source: IEC 60028 coefficient (check-values C-iacs); thermal Ohm's law
 *
 * @example windingTemperature({ ambient: 300, thermalResistance: 20, rmsCurrent: 0, resistance20: 0.01, coreLoss: 1 }) // 320
 */
export function windingTemperature({
  ambient: Ta,
  thermalResistance: Rth,
  rmsCurrent: I,
  resistance20: R20,
  coreLoss,
}: {
  ambient: Kelvin;
  thermalResistance: KelvinPerWatt;
  rmsCurrent: Ampere;
  resistance20: Ohm;
  coreLoss: Watt;
}): Kelvin | undefined {
  const atZero = Ta + Rth * (I * I * R20 * (1 - copperCoefficient * 293.15) + coreLoss);
  const slope = Rth * I * I * R20 * copperCoefficient;
  return slope < 1 ? atZero / (1 - slope) : undefined;
}
