import type { Ampere, Farad, Henry, Ohm, RadianPerSecond, Ratio, Second, Volt } from '../units/si.ts';
import { EnvelopeTransient } from './envelope-motion.ts';

/**
 * The envelope of tank and chokes, a damped second-order system:
 *
 *     Le·I' = V(t) − Vt/π − I·r
 *     C·Vt' = I/π − Vt/(2R)
 */
export interface EnvelopeCircuit {
  /** Le, what the two drains see of the chokes, in H. */
  readonly chokeInductance: Henry;
  /** C of the tank, in F. */
  readonly capacitance: Farad;
  /** R, whole loss and load across the tank, in Ω; Infinity for none. */
  readonly parallelResistance: Ohm;
  /** r, source + choke + on switch, in Ω. */
  readonly dropResistance: Ohm;
}

/** I and Vt of the envelope. */
export interface EnvelopeState {
  readonly current: Ampere;
  readonly voltage: Volt;
}

/** The rail that feeds the chokes: linear from `from` to `to` within `time`, then constant. */
export interface RailRamp {
  readonly from: Volt;
  readonly to: Volt;
  readonly time: Second;
}

/**
 * Natural frequency and damping of the envelope.
 *
 *     ω_e = 1/(π·√(Le·C)),  ζ = (π/(4R))·√(Le/C) + r·(π/2)·√(C/Le)
 *
 * @param circuit  Le in H, C in F, R in Ω, r in Ω
 * @returns ω_e in rad/s and ζ, a ratio
 *
 * Valid for: Le above about ten times the tank inductance (2 % on voltage, 6 % on current for Lc/L of 20 or more).
 * Source: first-harmonic averaging; method: Sanders et al., IEEE Trans. Power Electronics 6(2), 1991 (check-values A-start-*)
 *
 * @example envelopeMode({ chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }) // { angularFrequency: 45015.8158079, dampingRatio: 0.111072073454 }
 */
export function envelopeMode({ chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r }: EnvelopeCircuit): {
  angularFrequency: RadianPerSecond;
  dampingRatio: Ratio;
} {
  return {
    angularFrequency: 1 / (Math.PI * Math.sqrt(Le * C)),
    dampingRatio: (Math.PI / (4 * R)) * Math.sqrt(Le / C) + r * (Math.PI / 2) * Math.sqrt(C / Le),
  };
}

/**
 * State of the envelope at a time after a rail starts to move, exact.
 *
 *     x(t) = e^(A·t)·(x0 − p0) + p0 + p1·t,  A·p1 + b·s = 0,  A·p0 + b·v0 = p1   while the rail moves with slope s from v0
 *
 * @param circuit  as EnvelopeCircuit
 * @param initial  I in A and Vt in V at time zero
 * @param rail     from, to in V, time in s (0 for a step)
 * @param time     t, in s, not negative
 * @returns I in A and Vt in V
 *
 * Valid for: both signs of current; under-, over- and critically damped.
 * Source: linear system with constant coefficients, any textbook
 *
 * @example envelopeAt({ circuit: { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }, initial: { current: 0, voltage: 0 }, rail: { from: 0, to: 12, time: 0 }, time: 1 }).voltage // 37.69911184307752
 */
export function envelopeAt({
  circuit,
  initial,
  rail,
  time,
}: {
  circuit: EnvelopeCircuit;
  initial: EnvelopeState;
  rail: RailRamp;
  time: Second;
}): EnvelopeState {
  return new EnvelopeTransient({ circuit, initial, rail }).at(time);
}

/**
 * State of the envelope long after the rail has settled.
 *
 *     I = V/(r + 2R/π²),  Vt = 2R·I/π
 *
 * @param circuit  as EnvelopeCircuit
 * @param voltage  V of the settled rail, in V
 * @returns I in A and Vt in V
 *
 * Valid for: as EnvelopeCircuit; R may be Infinity.
 * Source: the envelope at rest
 *
 * @example settledEnvelope({ circuit: { chokeInductance: 1, capacitance: 1, parallelResistance: Infinity, dropResistance: 1 }, voltage: 1 }) // { current: 0, voltage: 3.141592653589793 }
 */
export function settledEnvelope({
  circuit: { parallelResistance: R, dropResistance: r },
  voltage: V,
}: {
  circuit: EnvelopeCircuit;
  voltage: Volt;
}): EnvelopeState {
  const current = V / (r + (2 * R) / Math.PI ** 2);
  return { current, voltage: Math.PI * (V - current * r) };
}
