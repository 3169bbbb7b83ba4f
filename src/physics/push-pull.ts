import type { Ampere, Henry, Hertz, Ohm, Ratio, Volt } from '../units/si.ts';

/** How the supply reaches the drains: one choke to each drain, or one choke to the middle of the tank coil. */
export type ChokeArrangement = 'two' | 'centre-tap';

const rippleAngle: Record<ChokeArrangement, number> = { two: Math.asin(1 / Math.PI), 'centre-tap': Math.asin(2 / Math.PI) };

/** ω·Lc·ΔI/V: π + 2a − 2π(1 − cos a) for `two`, 2[b − (π/2)(1 − cos b)] for `centre-tap`. */
const rippleConstant: Record<ChokeArrangement, number> = {
  two: Math.PI + 2 * rippleAngle.two - 2 * Math.PI * (1 - Math.cos(rippleAngle.two)),
  'centre-tap': 2 * (rippleAngle['centre-tap'] - (Math.PI / 2) * (1 - Math.cos(rippleAngle['centre-tap']))),
};

const shiftConstant: Record<ChokeArrangement, number> = {
  two: 1 - 4 / Math.PI ** 2,
  'centre-tap': 1 / 4 - 2 / Math.PI ** 2,
};

/**
 * Current drawn from the supply by a tank of given parallel resistance, with the resistive drops in the way.
 *
 *     I = g·V/(1 + g·r),  g = k·π²/(2R)
 *
 * @param voltage             V, supply voltage, in V
 * @param parallelResistance  R, whole loss and load across the tank, in Ω, above zero
 * @param dropResistance      r, source + choke + on switch as seen by the whole current, in Ω
 * @param powerFactor         k, factor of finite quality on the tank's power, a ratio (1 at high Q)
 * @returns I, in A
 *
 * Valid for: ripple-free choke current, commutation at the tank's zero crossing.
 * Source: power balance; Kazimierczuk & Czarkowski, Resonant Power Converters, class-D current-source inverters, from memory
 * (check-values A-power-*, A-res-12V-50R)
 *
 * @example supplyCurrent({ voltage: 12, parallelResistance: 50, dropResistance: 0.045, powerFactor: 1 }) // 1.17911569566789
 */
export function supplyCurrent({
  voltage: V,
  parallelResistance: R,
  dropResistance: r,
  powerFactor: k,
}: {
  voltage: Volt;
  parallelResistance: Ohm;
  dropResistance: Ohm;
  powerFactor: Ratio;
}): Ampere {
  const g = (k * Math.PI ** 2) / (2 * R);
  return (g * V) / (1 + g * r);
}

/**
 * Peak voltage across the tank, drain to drain.
 *
 *     Vt = k·π·(V − I·r)
 *
 * @param voltage         V, supply voltage, in V
 * @param current         I, supply current, in A
 * @param dropResistance  r, source + choke + on switch as seen by the whole current, in Ω
 * @param peakFactor      k, factor of finite quality, a ratio (1 at high Q)
 * @returns Vt, in V
 *
 * Valid for: both choke arrangements; ripple-free choke current.
 * Source: volt-second balance; Baxandall, Proc. IEE 106B suppl. 16, 1959, from memory (check-values A-vpk-*, A-res-12V-50R)
 *
 * @example tankPeakVoltage({ voltage: 28, current: 0, dropResistance: 0, peakFactor: 1 }) // 87.96459430051421
 */
export function tankPeakVoltage({
  voltage: V,
  current: I,
  dropResistance: r,
  peakFactor: k,
}: {
  voltage: Volt;
  current: Ampere;
  dropResistance: Ohm;
  peakFactor: Ratio;
}): Volt {
  return k * Math.PI * (V - I * r);
}

/**
 * What the two drains together see of the chokes.
 *
 *     Le = Lc/2 for two chokes, Lc for one into the centre tap
 *
 * @param arrangement      two | centre-tap
 * @param chokeInductance  Lc, of one choke, in H
 * @returns Le, in H
 *
 * Valid for: unsaturated chokes that do not couple.
 * Source: two inductances side by side, any circuits text
 *
 * @example seenChokeInductance({ arrangement: 'two', chokeInductance: 100e-6 }) // 50e-6
 */
export function seenChokeInductance({
  arrangement,
  chokeInductance: Lc,
}: {
  arrangement: ChokeArrangement;
  chokeInductance: Henry;
}): Henry {
  return arrangement === 'two' ? Lc / 2 : Lc;
}

/**
 * Peak to peak ripple of the current in one choke.
 *
 *     ΔI = k·V/(2π·f·Lc);  k/2π = 0.5511 for two chokes, 0.1053 for one into the centre tap
 *
 * @param arrangement       two | centre-tap
 * @param voltage           V, supply voltage, in V
 * @param frequency         f, of the tank, in Hz, above zero
 * @param chokeInductance   Lc, of one choke, in H, above zero
 * @returns ΔI, in A
 *
 * Valid for: half-sine drains; an unsaturated choke.
 * Source: derived by integrating V − v over a half-sine; no published table found (check-values A-ripple-*)
 *
 * @example chokeRipple({ arrangement: 'two', voltage: 12, frequency: 50e3, chokeInductance: 100e-6 }) // 1.32264471797
 */
export function chokeRipple({
  arrangement,
  voltage: V,
  frequency: f,
  chokeInductance: Lc,
}: {
  arrangement: ChokeArrangement;
  voltage: Volt;
  frequency: Hertz;
  chokeInductance: Henry;
}): Ampere {
  return (rippleConstant[arrangement] * V) / (2 * Math.PI * f * Lc);
}

/**
 * Peak to peak ripple of the whole supply current: of the one choke, or of two chokes together, whose ripples partly cancel.
 *
 *     ΔI = k·V/(2π·f·Lc);  k = 1.3227 for two chokes, 0.6613 for one into the centre tap
 *
 * @param arrangement       two | centre-tap
 * @param voltage           V, supply voltage, in V
 * @param frequency         f, of the tank, in Hz, above zero
 * @param chokeInductance   Lc, of one choke, in H, above zero
 * @returns ΔI, in A
 *
 * Valid for: half-sine drains; an unsaturated choke.
 * Source: derived by integrating V − |v|/2 (check-values A-ripple-*)
 *
 * @example supplyRipple({ arrangement: 'two', voltage: 12, frequency: 50e3, chokeInductance: 100e-6 }) // 0.505232789647
 */
export function supplyRipple({
  arrangement,
  voltage: V,
  frequency: f,
  chokeInductance: Lc,
}: {
  arrangement: ChokeArrangement;
  voltage: Volt;
  frequency: Hertz;
  chokeInductance: Henry;
}): Ampere {
  const one = chokeRipple({ arrangement: 'centre-tap', voltage: V, frequency: f, chokeInductance: Lc });
  return arrangement === 'two' ? 2 * one : one;
}

/**
 * Rise of the running frequency because the chokes' ripple flows into the tank.
 *
 *     f/f0 = √(1 + c·L/Lc);  c = 1 − 4/π² for two chokes, 1/4 − 2/π² for one into the centre tap
 *
 * @param arrangement       two | centre-tap
 * @param tankInductance    L, in H, above zero
 * @param chokeInductance   Lc, of one choke, in H, above zero
 * @returns f/f0, a ratio
 *
 * Valid for: high Q; it is not L in parallel with Lc.
 * Source: derived from the Fourier coefficient of the ripple (check-values A-fshift)
 *
 * @example chokeFrequencyRatio({ arrangement: 'two', tankInductance: 1e-6, chokeInductance: 10e-6 }) // 1.0293063327
 */
export function chokeFrequencyRatio({
  arrangement,
  tankInductance: L,
  chokeInductance: Lc,
}: {
  arrangement: ChokeArrangement;
  tankInductance: Henry;
  chokeInductance: Henry;
}): Ratio {
  return Math.sqrt(1 + (shiftConstant[arrangement] * L) / Lc);
}

/**
 * Effective current of one switch, which carries the whole supply current for half of each period.
 *
 *     I_rms = I/√2
 *
 * @param supplyCurrent  I, in A
 * @returns I_rms, in A
 *
 * Valid for: both choke arrangements; ripple-free choke current.
 * Source: current-mode class D, square current (check-values A-power-*)
 *
 * @example switchRmsCurrent({ supplyCurrent: 2 }) // 1.4142135623730951
 */
export function switchRmsCurrent({ supplyCurrent: I }: { supplyCurrent: Ampere }): Ampere {
  return I / Math.SQRT2;
}
