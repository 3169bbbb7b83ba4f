import type { Farad, Henry, Hertz, Ohm, Ratio, Second } from '../units/si.ts';

/**
 * Resonant frequency of an ideal LC pair.
 *
 *     f0 = 1 / (2π·√(L·C))
 *
 * @param inductance   L, in H, above zero
 * @param capacitance  C, in F, above zero
 * @returns f0, in Hz
 *
 * Valid for: lumped L and C.
 * Source: textbook LC resonance; Terman, Radio Engineers' Handbook (check-values A-tank-*)
 *
 * @example resonantFrequency({ inductance: 10e-6, capacitance: 1e-6 }) // 50329.21210448704
 */
export function resonantFrequency({ inductance: L, capacitance: C }: { inductance: Henry; capacitance: Farad }): Hertz {
  return 1 / (2 * Math.PI * Math.sqrt(L * C));
}

/**
 * Characteristic impedance of an LC pair: the ratio of its peak voltage to its peak circulating current.
 *
 *     Z0 = √(L/C)
 *
 * @param inductance   L, in H, above zero
 * @param capacitance  C, in F, above zero
 * @returns Z0, in Ω
 *
 * Valid for: lumped L and C.
 * Source: textbook LC resonance (check-values A-tank-*)
 *
 * @example characteristicImpedance({ inductance: 10e-6, capacitance: 1e-6 }) // 3.1622776601683795
 */
export function characteristicImpedance({ inductance: L, capacitance: C }: { inductance: Henry; capacitance: Farad }): Ohm {
  return Math.sqrt(L / C);
}

/**
 * Quality factor of a tank with its whole loss as one resistance in parallel.
 *
 *     Q = R / Z0 = R·√(C/L)
 *
 * @param parallelResistance       R, in Ω, above zero
 * @param characteristicImpedance  Z0, in Ω, above zero
 * @returns Q, a ratio
 *
 * Valid for: any R; below ½ there is no ringing.
 * Source: second-order linear system, any circuits text (check-values F-parallel)
 *
 * @example parallelQuality({ parallelResistance: 50, characteristicImpedance: 3.1622776601683795 }) // 15.811388300841896
 */
export function parallelQuality({
  parallelResistance: R,
  characteristicImpedance: Z0,
}: {
  parallelResistance: Ohm;
  characteristicImpedance: Ohm;
}): Ratio {
  return R / Z0;
}

/**
 * The resistance across a tank that dissipates the same as a small resistance in series with its coil or its capacitors.
 *
 *     R = L / (r·C) = Z0² / r
 *
 * @param seriesResistance         r, in Ω, above zero
 * @param characteristicImpedance  Z0, in Ω, above zero
 * @returns R, in Ω
 *
 * Valid for: exact at the zero-phase frequency ω0·√(1 − r²·C/L); r well below Z0.
 * Source: Terman, Radio Engineers' Handbook, parallel resonance, from memory (check-values F-coil-r)
 *
 * @example parallelFromSeries({ seriesResistance: 0.05, characteristicImpedance: 3.1622776601683795 }) // 200
 */
export function parallelFromSeries({
  seriesResistance: r,
  characteristicImpedance: Z0,
}: {
  seriesResistance: Ohm;
  characteristicImpedance: Ohm;
}): Ohm {
  return (Z0 * Z0) / r;
}

/**
 * Frequency of the damped oscillation of a tank, as a share of its resonance.
 *
 *     f/f0 = √(1 − 1/(4Q²))
 *
 * @param quality  Q, a ratio, above ½
 * @returns f/f0, a ratio
 *
 * Valid for: Q above ½; chokes of infinite inductance, ideal switches.
 * Errors: RangeError where Q is not above ½: there is no oscillation.
 * Source: free damped half-cycles, second-order linear system (check-values A-finiteQ-*)
 *
 * @example dampedFrequencyRatio({ quality: 1 }) // 0.8660254037844386
 */
export function dampedFrequencyRatio({ quality: Q }: { quality: Ratio }): Ratio {
  if (!(Q > 0.5)) throw new RangeError(`no oscillation at Q ${Q}`);
  return Math.sqrt(1 - 1 / (4 * Q * Q));
}

/**
 * Damping ratio of an oscillation from its quality factor.
 *
 *     ζ = 1/(2Q)
 *
 * @param quality  Q, a ratio, above zero
 * @returns ζ, a ratio
 *
 * Valid for: a linear second-order system.
 * Source: any circuits text (check-values F-series, F-parallel)
 *
 * @example dampingRatio({ quality: 5 }) // 0.1
 */
export function dampingRatio({ quality: Q }: { quality: Ratio }): Ratio {
  return 1 / (2 * Q);
}

/**
 * Time in which the amplitude of a free oscillation falls to 1/e.
 *
 *     τ = 2Q/ω0 = Q/(π·f0)
 *
 * @param quality    Q, a ratio, above zero
 * @param frequency  f0, in Hz, above zero
 * @returns τ, in s
 *
 * Valid for: a linear second-order system; it is the amplitude's time, the energy's is half of it.
 * Source: any circuits text (check-values F-series, F-parallel)
 *
 * @example decayTime({ quality: 15.811388300841896, frequency: 50329.21210448704 }) // 0.0001
 */
export function decayTime({ quality: Q, frequency: f0 }: { quality: Ratio; frequency: Hertz }): Second {
  return Q / (Math.PI * f0);
}
