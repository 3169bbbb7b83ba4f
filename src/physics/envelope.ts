import type { Ampere, Farad, Henry, Ohm, RadianPerSecond, Ratio, Second, Volt } from '../units/si.ts';

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

/** A rail that moves within less than this is a step: no envelope is that fast, and its slope must stay finite. In s. */
const shortestRamp = 1e-15;

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
  return envelopePath({ circuit, initial, rail })(time);
}

/**
 * The state of the envelope as a function of time, for many times of one transient.
 *
 * @param circuit  as EnvelopeCircuit
 * @param initial  I in A and Vt in V at time zero
 * @param rail     from, to in V, time in s (0 for a step)
 * @returns a function of t, in s, not negative: I in A and Vt in V
 *
 * Valid for: as envelopeAt, which says what is computed.
 * Source: as envelopeAt
 *
 * @example envelopePath({ circuit: { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }, initial: { current: 0, voltage: 0 }, rail: { from: 0, to: 12, time: 0 } })(1).voltage // 37.69911184307752
 */
export function envelopePath({
  circuit,
  initial,
  rail,
}: {
  circuit: EnvelopeCircuit;
  initial: EnvelopeState;
  rail: RailRamp;
}): (time: Second) => EnvelopeState {
  if (rail.time < shortestRamp) {
    const settling = motion({ circuit, from: initial, voltage: rail.to, slope: 0 });
    return (time) => (time > rail.time ? settling(time - rail.time) : initial);
  }
  const rising = motion({ circuit, from: initial, voltage: rail.from, slope: (rail.to - rail.from) / rail.time });
  const settling = motion({ circuit, from: rising(rail.time), voltage: rail.to, slope: 0 });
  return (time) => (time > rail.time ? settling(time - rail.time) : rising(time));
}

/** What a state becomes while the rail moves with a slope. */
function motion({
  circuit: { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r },
  from,
  voltage,
  slope,
}: {
  circuit: EnvelopeCircuit;
  from: EnvelopeState;
  voltage: Volt;
  slope: number;
}): (time: Second) => EnvelopeState {
  // A = [[a, b], [c, d]] on (I, Vt)
  const a = -r / Le;
  const b = -1 / (Math.PI * Le);
  const c = 1 / (Math.PI * C);
  const d = -1 / (2 * R * C);
  const determinant = a * d - b * c;
  const forced = -slope / Le;
  const p1I = (d * forced) / determinant;
  const p1V = (-c * forced) / determinant;
  const rest = p1I - voltage / Le;
  const p0I = (d * rest - b * p1V) / determinant;
  const p0V = (a * p1V - c * rest) / determinant;
  const dI = from.current - p0I;
  const dV = from.voltage - p0V;
  const mean = (a + d) / 2;
  const spread = mean * mean - determinant;
  // e^(A·t) = even·1 + odd·(A − mean·1)
  const oddI = (a - mean) * dI + b * dV;
  const oddV = c * dI + (d - mean) * dV;
  const state = (even: number, odd: number, t: Second): EnvelopeState => ({
    current: even * dI + odd * oddI + p0I + p1I * t,
    voltage: even * dV + odd * oddV + p0V + p1V * t,
  });
  if (spread > 0) {
    const s = Math.sqrt(spread);
    return (t) => {
      const fast = Math.exp((mean - s) * t);
      const slow = Math.exp((mean + s) * t);
      const odd = s * t > 1e-4 ? (slow - fast) / (2 * s) : Math.exp(mean * t) * t * (1 + (s * t) ** 2 / 6);
      return state((slow + fast) / 2, odd, t);
    };
  }
  const w = Math.sqrt(-spread);
  return (t) => {
    const decay = Math.exp(mean * t);
    const odd = w * t > 1e-4 ? (decay * Math.sin(w * t)) / w : decay * t * (1 - (w * t) ** 2 / 6);
    return state(decay * Math.cos(w * t), odd, t);
  };
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
