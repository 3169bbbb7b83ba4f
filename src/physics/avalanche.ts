import type { Ampere, Henry, Joule, Volt } from '../units/si.ts';

/**
 * Energy that an inductor's current puts into a switch that clamps it at its breakdown voltage.
 *
 *     E = ½·L·I²·BV/(BV − V)
 *
 * @param inductance  L, in H
 * @param current     I, in A
 * @param breakdown   BV, in V, above the supply
 * @param supply      V, in V
 * @returns E, in J
 *
 * Valid for: one pulse, unclamped inductive switching; breakdown above the supply.
 * Errors: RangeError where breakdown does not exceed the supply: the current never falls.
 * Source: data sheet of a 400 V switch, test-circuit note (check-values E-avalanche-400V)
 *
 * @example avalancheEnergy({ inductance: 9.1e-3, current: 10, breakdown: 400, supply: 50 }) // 0.52
 */
export function avalancheEnergy({
  inductance: L,
  current: I,
  breakdown: BV,
  supply: V,
}: {
  inductance: Henry;
  current: Ampere;
  breakdown: Volt;
  supply: Volt;
}): Joule {
  if (!(BV > V)) throw new RangeError(`breakdown ${BV} V does not exceed the supply ${V} V`);
  return (0.5 * L * I * I * BV) / (BV - V);
}
