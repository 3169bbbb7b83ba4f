import type { RadianPerSecond, Second, Volt } from '../units/si.ts';
import { bracketedRoot } from './bracketed-root.ts';
import type { EnvelopeCircuit, EnvelopeState, RailRamp } from './envelope.ts';

/**
 * One quantity of the envelope, or a derivative of it:
 *
 *     q(t) = offset + slope·t + e^(m·t)·(even·c(t) + odd·s(t)),  c = cosh(σt), s = sinh(σt)/σ;  of a ringing one cos(ωt), sin(ωt)/ω
 */
interface Course {
  readonly offset: number;
  readonly slope: number;
  readonly even: number;
  readonly odd: number;
}

/** Half turns of a ringing that are searched for a crest at either end of a long ramp: one and a half periods at least. */
const searched = 4;
/** Below this angle sinh and sin lose digits in a quotient, and their series has all of them. */
const tiny = 1e-4;

/** A rail that moves within less than this is a step: no envelope is that fast, and its slope must stay finite. In s. */
const shortestRamp = 1e-15;

/** The envelope while a rail rises and after it: two motions, or one where the rail is a step. */
export class EnvelopeTransient {
  readonly rising: EnvelopeMotion | undefined;
  readonly settling: EnvelopeMotion;
  /** Of the ramp, in s. */
  readonly time: Second;
  private readonly initial: EnvelopeState;

  /** As envelopeAt takes them. */
  constructor({ circuit, initial, rail }: { circuit: EnvelopeCircuit; initial: EnvelopeState; rail: RailRamp }) {
    const isStep = rail.time < shortestRamp;
    const slope = (rail.to - rail.from) / rail.time;
    this.initial = initial;
    this.time = isStep ? 0 : rail.time;
    this.rising = isStep ? undefined : new EnvelopeMotion({ circuit, from: initial, voltage: rail.from, slope });
    this.settling = new EnvelopeMotion({ circuit, from: this.rising?.at(rail.time) ?? initial, voltage: rail.to, slope: 0 });
  }

  /** I in A and Vt in V at a time from the beginning of the ramp. */
  at(time: Second): EnvelopeState {
    if (time > this.time) return this.settling.at(time - this.time);
    return this.rising?.at(time) ?? this.initial;
  }
}

/** The envelope while its rail moves with a constant slope, from a state at time zero: exact at every time, and so are its crests. */
export class EnvelopeMotion {
  private readonly current: Course;
  private readonly voltage: Course;
  /** m, half the trace: how fast it dies away, in 1/s. */
  private readonly mean: number;
  /** σ² where positive, −ω² where it rings. */
  private readonly spread: number;
  private readonly rate: RadianPerSecond;

  /**
   * @param circuit  as EnvelopeCircuit
   * @param from     I in A and Vt in V at time zero
   * @param voltage  of the rail at time zero, in V
   * @param slope    of the rail, in V/s
   */
  constructor({ circuit, from, voltage, slope }: { circuit: EnvelopeCircuit; from: EnvelopeState; voltage: Volt; slope: number }) {
    const { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r } = circuit;
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
    this.mean = mean;
    this.spread = mean * mean - determinant;
    this.rate = Math.sqrt(Math.abs(this.spread));
    // e^(A·t) = e^(m·t)·(c·1 + s·(A − m·1))
    this.current = { offset: p0I, slope: p1I, even: dI, odd: (a - mean) * dI + b * dV };
    this.voltage = { offset: p0V, slope: p1V, even: dV, odd: c * dI + (d - mean) * dV };
  }

  /** I in A and Vt in V. */
  at(time: Second): EnvelopeState {
    return { current: this.valueOf('current', time), voltage: this.valueOf('voltage', time) };
  }

  /** I in A or Vt in V. */
  valueOf(quantity: keyof EnvelopeState, time: Second): number {
    return this.evaluated(this[quantity], time);
  }

  /** When a quantity is highest after the beginning, on a rail that stands still; undefined where it comes to no crest. */
  crestAtRest(quantity: keyof EnvelopeState): Second | undefined {
    const rising = this.derived(this[quantity]);
    if (this.spread >= 0 && !(rising.even > 0)) return undefined;
    return this.firstZero(rising, 2 * Math.PI);
  }

  /**
   * The first and the last crest of a quantity within a ramp: the successive ones are a rising line plus a decaying ripple, a convex
   * sequence, so its largest is one of them.
   */
  crestsWithin(quantity: keyof EnvelopeState, duration: Second): readonly Second[] {
    const rising = this.derived(this[quantity]);
    // between two of its inflections a quantity has one crest at most
    const first = this.firstZero(this.derived(rising), Math.PI) ?? duration;
    const half = this.spread < 0 ? Math.PI / this.rate : Infinity;
    const pieces = first < duration ? 2 + Math.floor((duration - first) / half) : 1;
    const edge = (i: number): Second =>
      i === 0 ? 0 : i >= pieces ? duration : Math.min(duration, i === 1 ? first : first + (i - 1) * half);
    const crestIn = (i: number): Second | undefined => {
      const [from, to] = [edge(i), edge(i + 1)];
      const of = (time: Second): number => this.evaluated(rising, time);
      return of(from) > 0 && of(to) < 0 ? bracketedRoot({ of, from, to }) : undefined;
    };
    let [seen, next]: [number, number] = [0, pieces - 1];
    let [firstCrest, lastCrest]: [Second | undefined, Second | undefined] = [undefined, undefined];
    while (firstCrest === undefined && seen < Math.min(searched, pieces)) firstCrest = crestIn(seen++);
    while (lastCrest === undefined && next >= Math.max(seen, pieces - searched)) lastCrest = crestIn(next--);
    return [firstCrest, lastCrest].filter((crest) => crest !== undefined);
  }

  private evaluated({ offset, slope, even, odd }: Course, t: Second): number {
    const { mean, rate } = this;
    const line = offset + slope * t;
    const angle = rate * t;
    if (this.spread > 0) {
      const fast = Math.exp((mean - rate) * t);
      const slow = Math.exp((mean + rate) * t);
      const sine = angle > tiny ? (slow - fast) / (2 * rate) : Math.exp(mean * t) * t * (1 + angle ** 2 / 6);
      return line + (even * (slow + fast)) / 2 + odd * sine;
    }
    const decay = Math.exp(mean * t);
    const sine = angle > tiny ? Math.sin(angle) / rate : t * (1 - angle ** 2 / 6);
    return line + decay * (even * Math.cos(angle) + odd * sine);
  }

  private derived({ slope, even, odd }: Course): Course {
    return { offset: slope, slope: 0, even: this.mean * even + odd, odd: this.mean * odd + this.spread * even };
  }

  /**
   * When even·c(t) + odd·s(t) is first zero.
   *
   * @param turn  π for either sign, 2π for a zero that it falls through
   */
  private firstZero({ even, odd }: Course, turn: number): Second | undefined {
    const { rate } = this;
    if (this.spread < 0) {
      // R·cos(ωt − φ)
      const angle = Math.atan2(odd / rate, even) + Math.PI / 2;
      return (((angle % turn) + turn) % turn) / rate;
    }
    // tanh(σt)/σ = −even/odd
    const ratio = -even / odd;
    if (!(ratio > 0 && rate * ratio < 1)) return undefined;
    return rate === 0 ? ratio : Math.atanh(rate * ratio) / rate;
  }
}
