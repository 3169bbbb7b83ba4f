import type { Ampere, AmperePerVoltSquared, Ohm, Volt } from '../units/si.ts';

/**
 * Current that leaks through the switch that should be off, once its gate is held above its threshold: the leak passes through the
 * on switch too, lifts its drain and so the gate, until both agree.
 *
 *     u = d + ½·K·Ron·u²,  i = ½·K·u²;  u = (1 − √(1 − 2·K·Ron·d))/(K·Ron)
 *
 * @param deficit          d = V_hold − Vth, in V; V_hold with the pull-up current of the off gate in the on switch
 * @param channelConstant  K, in A/V²
 * @param onResistance     Ron of the on switch, in Ω
 * @returns i, in A; 0 for a deficit of 0 or less; undefined where no such state exists, d > 1/(2·K·Ron): the pair latches
 *
 * Valid for: a rail that rises slowly; in the time domain a hundred random designs latched 16 % before to 50 % past it.
 * Source: own derivation, square-law MOSFET
 *
 * @example offSwitchLeak({ deficit: 0.5, channelConstant: 8, onResistance: 0.1 }) // 1.90983005625053
 */
export function offSwitchLeak({
  deficit: d,
  channelConstant: K,
  onResistance: Ron,
}: {
  deficit: Volt;
  channelConstant: AmperePerVoltSquared;
  onResistance: Ohm;
}): Ampere | undefined {
  if (d <= 0) return 0;
  const discriminant = 1 - 2 * K * Ron * d;
  if (discriminant < 0) return undefined;
  const u = (2 * d) / (1 + Math.sqrt(discriminant)); // the smaller root, in a form that stays exact at small d
  return 0.5 * K * u * u;
}

/**
 * Largest deficit of the hold-off at which the pair still runs.
 *
 *     d_max = 1/(2·K·Ron)
 *
 * @param channelConstant  K, in A/V², above zero
 * @param onResistance     Ron, in Ω, above zero
 * @returns d_max, in V
 *
 * Valid for: as offSwitchLeak.
 * Source: own derivation, the double root of offSwitchLeak
 *
 * @example largestHoldOffDeficit({ channelConstant: 8, onResistance: 0.1 }) // 0.625
 */
export function largestHoldOffDeficit({
  channelConstant: K,
  onResistance: Ron,
}: {
  channelConstant: AmperePerVoltSquared;
  onResistance: Ohm;
}): Volt {
  return 1 / (2 * K * Ron);
}
