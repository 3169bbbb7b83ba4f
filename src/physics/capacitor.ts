import type { Ampere, Farad, Hertz, KelvinPerWatt, KelvinRise, Ohm, Ratio, Volt, VoltPerSecond, Watt } from '../units/si.ts';

/**
 * Effective series resistance of a capacitor from its loss tangent and the resistance of its leads and end contacts.
 *
 *     r = tanδ/(2π·f·C) + r_s
 *
 * @param lossTangent       tanδ at f, a ratio
 * @param seriesResistance  r_s not contained in tanδ, in Ω
 * @param frequency         f, in Hz, above zero
 * @param capacitance       C, in F, above zero
 * @returns r, in Ω
 *
 * Valid for: tanδ well below 1.
 * Source: IEC 60384-1 definitions (check-values D-loss-*)
 *
 * @example effectiveSeriesResistance({ lossTangent: 0.0025, seriesResistance: 0, frequency: 100e3, capacitance: 330e-9 }) // 0.012057192658475
 */
export function effectiveSeriesResistance({
  lossTangent: tanDelta,
  seriesResistance: rs,
  frequency: f,
  capacitance: C,
}: {
  lossTangent: Ratio;
  seriesResistance: Ohm;
  frequency: Hertz;
  capacitance: Farad;
}): Ohm {
  return tanDelta / (2 * Math.PI * f * C) + rs;
}

/**
 * Loss in a capacitor that carries a sine current.
 *
 *     P = I²·r
 *
 * @param rmsCurrent                 I, in A
 * @param effectiveSeriesResistance  r, in Ω
 * @returns P, in W
 *
 * Valid for: sine current at the frequency r was taken at.
 * Source: IEC 60384-1 definitions (check-values D-loss-*, D-loss-hotspot)
 *
 * @example capacitorLoss({ rmsCurrent: 11.0545208922, effectiveSeriesResistance: 0.0120571926585 }) // 1.473418267851
 */
export function capacitorLoss({
  rmsCurrent: I,
  effectiveSeriesResistance: r,
}: {
  rmsCurrent: Ampere;
  effectiveSeriesResistance: Ohm;
}): Watt {
  return I * I * r;
}

/**
 * Rise of a capacitor's case above the air around it.
 *
 *     ΔT = P·R_th
 *
 * @param loss               P, in W
 * @param thermalResistance  R_th, case to ambient, in K/W
 * @returns ΔT, in K
 *
 * Valid for: steady state, one capacitor in its own air.
 * Source: film-capacitor maker's loss and hot-spot calculation (check-values D-loss-hotspot, D-thermal)
 *
 * @example selfHeating({ loss: 0.21205, thermalResistance: 47.1586889884 }) // 10.00000000000
 */
export function selfHeating({ loss: P, thermalResistance: Rth }: { loss: Watt; thermalResistance: KelvinPerWatt }): KelvinRise {
  return P * Rth;
}

/**
 * Current through a capacitor with a sine voltage across it.
 *
 *     I = 2π·f·C·V
 *
 * @param voltage      V, rms (or peak, for the peak current), in V
 * @param frequency    f, in Hz
 * @param capacitance  C, in F
 * @returns I, rms (or peak), in A
 *
 * Valid for: sine voltage.
 * Source: definition (check-values D-loss-*)
 *
 * @example capacitorCurrent({ voltage: 53.3145952579, frequency: 100e3, capacitance: 330e-9 }) // 11.05452089220
 */
export function capacitorCurrent({
  voltage: V,
  frequency: f,
  capacitance: C,
}: {
  voltage: Volt;
  frequency: Hertz;
  capacitance: Farad;
}): Ampere {
  return 2 * Math.PI * f * C * V;
}

/**
 * Steepest slope of a sine voltage.
 *
 *     dv/dt = 2π·f·Vpk
 *
 * @param peakVoltage  Vpk, in V
 * @param frequency    f, in Hz
 * @returns dv/dt, in V/s
 *
 * Valid for: sine voltage. A pulse rating above it proves nothing about heating.
 * Source: definition (check-values D-sine-dvdt)
 *
 * @example sineSlope({ peakVoltage: 75.3982236862, frequency: 100e3 }) // 47374101.1252
 */
export function sineSlope({ peakVoltage: V, frequency: f }: { peakVoltage: Volt; frequency: Hertz }): VoltPerSecond {
  return 2 * Math.PI * f * V;
}

/**
 * Largest share of a string's voltage across one of its capacitors, when their values differ within the tolerance.
 *
 *     share = (1/(1 − t)) / (1/(1 − t) + (n − 1)/(1 + t))
 *
 * @param series     n, capacitors in series, 1 or more
 * @param tolerance  t, a ratio, below 1
 * @returns the share, a ratio; 1 for a single capacitor, 1/n for equal ones
 *
 * Valid for: ac voltage; one capacitor at the low end, all others at the high end of the tolerance.
 * Source: charge balance of a series string
 *
 * @example largestVoltageShare({ series: 2, tolerance: 0.05 }) // 0.525
 */
export function largestVoltageShare({ series: n, tolerance: t }: { series: number; tolerance: Ratio }): Ratio {
  const low = 1 / (1 - t);
  return low / (low + (n - 1) / (1 + t));
}

/**
 * Voltage at which a capacitor's loss reaches a given power, in the region where the ac rating falls with frequency.
 *
 *     V = √(P/(2π·f·C·tanδ))
 *
 * @param power        P, in W
 * @param frequency    f, in Hz, above zero
 * @param capacitance  C, in F, above zero
 * @param lossTangent  tanδ at f, a ratio, above zero
 * @returns V, rms, in V
 *
 * Valid for: the thermal region between the constant-voltage and the current-limited one.
 * Source: makers' ac voltage curves; IEC 60384-17 test philosophy, from memory (check-values D-derate)
 *
 * @example thermalVoltageLimit({ power: 0.25, frequency: 100e3, capacitance: 330e-9, lossTangent: 0.0025 }) // 21.961049754929
 */
export function thermalVoltageLimit({
  power: P,
  frequency: f,
  capacitance: C,
  lossTangent: tanDelta,
}: {
  power: Watt;
  frequency: Hertz;
  capacitance: Farad;
  lossTangent: Ratio;
}): Volt {
  return Math.sqrt(P / (2 * Math.PI * f * C * tanDelta));
}

/** One point of a loss-tangent curve. */
export interface LossTangentPoint {
  readonly frequency: Hertz;
  readonly lossTangent: Ratio;
}

/**
 * Loss tangent between the points of a part's curve: a straight line on logarithmic scales. Above the last point the slope of a
 * resistance in series is assumed (tanδ ∝ f), below the first point the first value.
 *
 * @param points     ascending in frequency (Hz), at least one; a single point at frequency 0 holds everywhere
 * @param frequency  f, in Hz, above zero
 * @returns tanδ, a ratio, and whether f lies within the points
 *
 * Valid for: within the points; outside `inside` is false and the value leans to the high side.
 * Source: interpolation; slope beyond the last point from r_s·ω·C (check-values D-tand-film, notes)
 *
 * @example lossTangentAt({ points: [{ frequency: 1e3, lossTangent: 0.001 }, { frequency: 1e5, lossTangent: 0.004 }], frequency: 1e4 }) // { lossTangent: 0.002, inside: true }
 */
export function lossTangentAt({ points, frequency: f }: { points: readonly LossTangentPoint[]; frequency: Hertz }): {
  lossTangent: Ratio;
  inside: boolean;
} {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) throw new RangeError('a loss-tangent curve needs at least one point');
  if (points.length === 1 && first.frequency === 0) return { lossTangent: first.lossTangent, inside: true };
  if (f <= first.frequency) return { lossTangent: first.lossTangent, inside: f === first.frequency };
  if (f > last.frequency) return { lossTangent: (last.lossTangent * f) / last.frequency, inside: false };
  const upper = points.findIndex(({ frequency }) => frequency >= f);
  const a = points[upper - 1]!;
  const b = points[upper]!;
  const share = Math.log(f / a.frequency) / Math.log(b.frequency / a.frequency);
  const lossTangent =
    a.lossTangent > 0 && b.lossTangent > 0
      ? a.lossTangent * (b.lossTangent / a.lossTangent) ** share
      : a.lossTangent + (b.lossTangent - a.lossTangent) * share;
  return { lossTangent, inside: true };
}
