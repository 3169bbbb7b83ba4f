import type { Ampere, AmperePerVoltSquared, Kelvin, Ohm, Ratio, Siemens, Volt, VoltPerKelvin, Watt } from '../units/si.ts';

/** Temperature at which data sheets state ratings: 25 °C, in K. */
export const referenceTemperature: Kelvin = 298.15;

/**
 * Exponent of the on-resistance's power law from a data sheet's factor at 150 °C.
 *
 *     n = ln(factor)/ln(423.15/298.15)
 *
 * @param factor  R_DS(on) at 150 °C over R_DS(on) at 25 °C, a ratio, above zero
 * @returns n
 *
 * Valid for: silicon power MOSFETs; n is 1.7 to 2.8.
 * Source: mobility power law; Baliga, Power Semiconductor Devices, from memory (check-values E-rds-*)
 *
 * @example onResistanceExponent({ factor: 2.23736542534 }) // 2.3
 */
export function onResistanceExponent({ factor }: { factor: Ratio }): number {
  return Math.log(factor) / Math.log(423.15 / referenceTemperature);
}

/**
 * On-resistance at a junction temperature.
 *
 *     Ron(T) = Ron25·(T/298.15 K)^n
 *
 * @param onResistance25  Ron25, at 25 °C, in Ω
 * @param exponent        n
 * @param junction        T, in K, above zero
 * @returns Ron, in Ω
 *
 * Valid for: silicon, about −50 to 200 °C.
 * Source: mobility power law; Jacoboni et al., Solid-State Electronics 20, 1977, from memory (check-values E-rds-*, E-rds-published)
 *
 * @example onResistanceAt({ onResistance25: 1, exponent: 2, junction: 398.15 }) // 1.78329754938
 */
export function onResistanceAt({
  onResistance25,
  exponent: n,
  junction: T,
}: {
  onResistance25: Ohm;
  exponent: number;
  junction: Kelvin;
}): Ohm {
  return onResistance25 * (T / referenceTemperature) ** n;
}

/**
 * Gate threshold at a junction temperature.
 *
 *     Vth(T) = Vth25 + drift·(T − 298.15 K)
 *
 * @param threshold25  Vth25, in V
 * @param drift        in V/K, negative: −5 to −8 mV/K
 * @param junction     T, in K
 * @returns Vth, in V
 *
 * Valid for: standard-level silicon power MOSFETs.
 * Source: power MOSFET application notes, from memory (check-values E-vth-tc)
 *
 * @example thresholdAt({ threshold25: 3, drift: -0.0068, junction: 398.15 }) // 2.32
 */
export function thresholdAt({ threshold25, drift, junction }: { threshold25: Volt; drift: VoltPerKelvin; junction: Kelvin }): Volt {
  return threshold25 + drift * (junction - referenceTemperature);
}

/**
 * Channel constant of a square-law MOSFET from its forward transconductance.
 *
 *     i = ½·K·u²,  g = K·u  →  K = g²/(2·i)
 *
 * @param transconductance  g, in S, above zero
 * @param drainCurrent      i at which g is stated, in A, above zero
 * @returns K, in A/V²
 *
 * Valid for: the square-law region; data sheets state a minimum g, so K leans low.
 * Source: square-law MOSFET, any electronics text
 *
 * @example channelConstant({ transconductance: 17, drainCurrent: 18 }) // 8.02777777777778
 */
export function channelConstant({
  transconductance: g,
  drainCurrent: i,
}: {
  transconductance: Siemens;
  drainCurrent: Ampere;
}): AmperePerVoltSquared {
  return (g * g) / (2 * i);
}

/**
 * Channel constant from the on-resistance alone, for a part without a stated transconductance.
 *
 *     Ron = 1/(K·(Vgs − Vth))  →  K = 1/(Ron·(Vgs − Vth))
 *
 * @param onResistance  Ron at Vgs, in Ω, above zero
 * @param gateVoltage   Vgs, in V, above the threshold
 * @param threshold     Vth, in V
 * @returns K, in A/V²
 *
 * Valid for: the whole of Ron in the channel, so K leans low.
 * Source: square-law MOSFET in its ohmic region, any electronics text
 *
 * @example channelConstantFromOnResistance({ onResistance: 0.1, gateVoltage: 10, threshold: 5 }) // 2
 */
export function channelConstantFromOnResistance({
  onResistance: Ron,
  gateVoltage: Vgs,
  threshold: Vth,
}: {
  onResistance: Ohm;
  gateVoltage: Volt;
  threshold: Volt;
}): AmperePerVoltSquared {
  return 1 / (Ron * (Vgs - Vth));
}

/**
 * Gate voltage at which a square-law MOSFET carries a current in its linear region (the plateau of its gate charge).
 *
 *     Vp = Vth + √(2·i/K)
 *
 * @param threshold        Vth, in V
 * @param current          i, in A, not negative
 * @param channelConstant  K, in A/V², above zero
 * @returns Vp, in V
 *
 * Valid for: the square-law region.
 * Source: square-law MOSFET, any electronics text
 *
 * @example plateauVoltage({ threshold: 3, current: 4, channelConstant: 8 }) // 4
 */
export function plateauVoltage({
  threshold: Vth,
  current: i,
  channelConstant: K,
}: {
  threshold: Volt;
  current: Ampere;
  channelConstant: AmperePerVoltSquared;
}): Volt {
  return Vth + Math.sqrt((2 * i) / K);
}

/**
 * Power that charging and discharging a gate takes.
 *
 *     P = Qg·V·f
 *
 * @param gateCharge  Qg, in C
 * @param swing       V, gate voltage swing, in V
 * @param frequency   f, in Hz
 * @returns P, in W
 *
 * Valid for: any drive; half of it falls on the charging resistor, half on what discharges the gate.
 * Source: definition of gate charge (check-values E-gate-drive)
 *
 * @example gateDrivePower({ gateCharge: 60e-9, swing: 12, frequency: 100e3 }) // 0.072
 */
export function gateDrivePower({ gateCharge: Qg, swing: V, frequency: f }: { gateCharge: number; swing: Volt; frequency: number }): Watt {
  return Qg * V * f;
}

/**
 * Loss in one switch because the gate of the other one rises late: until it carries the current, the switch that should hand over
 * keeps it in saturation against a drain that the tank already lifts.
 *
 *     P = f·I·[(Vp − Vf)·t1/2 + Vt·(1 − cos ω·t)/ω],  t1 = (Vp − Vf − I·Ron)/(ω·Vt),  ω·t up to π
 *
 * @param current         I, supply current, in A
 * @param channelVoltage  Vp − Vf, across the channel at the plateau, in V
 * @param onVoltage       I·Ron, in V
 * @param tankPeak        Vt, in V, above zero
 * @param frequency       f, in Hz, above zero
 * @param riseTime        t of the gate from its low level to the plateau, in s
 * @returns P, in W
 *
 * Valid for: rise times up to 12 % of the period, where 1.2 times this and 1.3 times the conduction loss bounded the total of 400
 * designs in a time-domain model (worst 1.07); beyond it is no bound. The body diode never conducted there.
 * Source: own derivation, compared with a time-domain model
 *
 * @example slowGateLoss({ current: 10, channelVoltage: 3, onVoltage: 3, tankPeak: 75, frequency: 1e5, riseTime: 1e-6 }) // 22.7969170438308
 */
export function slowGateLoss({
  current: I,
  channelVoltage: Vc,
  onVoltage,
  tankPeak: Vt,
  frequency: f,
  riseTime: t,
}: {
  current: Ampere;
  channelVoltage: Volt;
  onVoltage: Volt;
  tankPeak: Volt;
  frequency: number;
  riseTime: number;
}): Watt {
  const omega = 2 * Math.PI * f;
  const handOver = Math.max(0, Vc - onVoltage) / (omega * Vt);
  return f * I * ((Math.max(0, Vc) * handOver) / 2 + (Vt * (1 - Math.cos(Math.min(Math.PI, omega * t)))) / omega);
}
