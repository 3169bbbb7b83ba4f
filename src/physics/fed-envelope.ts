import type { Ampere, Second, Volt } from '../units/si.ts';
import type { EnvelopePeaks } from './envelope-peaks.ts';
import type { EnvelopeCircuit, EnvelopeState, RailRamp } from './envelope.ts';
import { matrixExponential, type Matrix } from './matrix-exponential.ts';
import { naturalPeriods } from './natural-periods.ts';
import type { RailFeed } from './rail-ringing.ts';

/** State of the envelope and of the rail that feeds it. */
export interface FedState extends EnvelopeState {
  /** At the bulk capacitor, in V. */
  readonly rail: Volt;
  /** Through the leads, in A; follows from the rail where they have no inductance. */
  readonly leadCurrent: Ampere;
}

const samplesPerPeriod = 16;
/** Slow periods that are searched from the end of the ramp: beats of rail and envelope reach their crest in them. */
const periodsSearched = 12;
/** Slow over fast period up to which both are followed together. */
export const widestSpread = 30;

/**
 * Largest tank voltage and choke current of the envelope behind leads and a bulk capacitor.
 *
 *     Ls·is' = E(t) − rs·is − v,  Cb·v' = is − I,  Le·I' = v − Vt/π − I·r,  C·Vt' = I/π − Vt/(2R)
 *
 * @param circuit  as EnvelopeCircuit; its r without source and leads
 * @param feed     rs in Ω, Ls in H, Cb in F; rs or Ls above zero
 * @param initial  I in A, Vt in V, v in V, is in A at time zero
 * @param source   from, to in V, time in s (0 for a live source)
 * @returns the peaks in V and A and their times in s
 *
 * Valid for: as envelopeAt; a spread of the two natural periods of 30 or less. Stepped exactly, 16 times a period of the faster one,
 * crests refined by a parabola (0.05 %).
 * Source: linear system with constant coefficients; with a bulk capacitor without end it agrees with envelopePeaks
 *
 * @example fedEnvelopePeaks({ circuit: { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }, feed: { resistance: 0.001, leadInductance: 1e-6, bulkCapacitance: 100e-6 }, initial: { current: 0, voltage: 0, rail: 12, leadCurrent: 0 }, source: { from: 12, to: 12, time: 0 } }).voltage // 63.87984277641678
 */
export function fedEnvelopePeaks({
  circuit,
  feed,
  initial,
  source,
}: {
  circuit: EnvelopeCircuit;
  feed: RailFeed;
  initial: FedState;
  source: RailRamp;
}): EnvelopePeaks {
  const system = systemOf({ circuit, feed });
  const { envelope, rail } = naturalPeriods({ circuit, feed });
  const [fast, slow] = envelope < rail ? [envelope, rail] : [rail, envelope];
  const step = fast / samplesPerPeriod;
  const crests = { voltage: crest(initial.voltage), current: crest(initial.current) };
  const state = Float64Array.of(initial.leadCurrent, initial.rail, initial.current, initial.voltage);
  let now = 0;
  const follow = (duration: Second, source: MovingSource): void => {
    const count = Math.max(1, Math.ceil(duration / step));
    const width = duration / count;
    if (width > 0) advance({ system, state, source, width, count, now, crests });
    now += duration;
  };
  if (source.time > 0) {
    const slope = (source.to - source.from) / source.time;
    const rising = (): MovingSource => ({ voltage: source.from + slope * now, slope });
    const window = periodsSearched * slow;
    follow(Math.min(source.time, window), rising());
    if (source.time > 2 * window) {
      const width = source.time - window - now;
      advance({ system, state, source: rising(), width, count: 1, now, crests: undefined });
      now += width;
      restart(crests.current);
      restart(crests.voltage);
    }
    if (source.time > window) follow(Math.min(window, source.time - now), rising());
  }
  follow(periodsSearched * slow, { voltage: source.to, slope: 0 });
  const { voltage, current } = crests;
  return { voltage: voltage.highest, voltageAt: voltage.at, current: current.highest, currentAt: current.at };
}

/** E(t) = voltage + slope·t. */
interface MovingSource {
  readonly voltage: Volt;
  readonly slope: number;
}

/**
 * The state so many steps later, exact, its crests seen on the way: what is left of it beside p0 + p1·t, which the source alone
 * would make of it, is multiplied by e^(A·width) at each step.
 */
function advance({
  system: { matrix, weights, settled },
  state,
  source: { voltage: source, slope },
  width,
  count,
  now,
  crests,
}: {
  system: FedSystem;
  state: Float64Array;
  source: MovingSource;
  width: Second;
  count: number;
  now: Second;
  crests: { readonly voltage: Crest; readonly current: Crest } | undefined;
}): void {
  const onward = matrixExponential({ matrix: scaled(matrix, width) });
  const p1 = slope === 0 ? nothing : settled({ source: slope });
  const p0 = settled({ source, moving: p1 });
  let left = Float64Array.from(weights, (weight, i) => weight * (state[i]! - p0[i]!));
  let next = new Float64Array(4);
  for (let i = 1; i <= count; i++) {
    multiplied({ rows: onward, by: left, into: next });
    const done = left;
    left = next;
    next = done;
    if (crests === undefined) continue;
    const time = i * width;
    see(crests.current, left[2]! / weights[2] + p0[2] + p1[2] * time, now + time, width);
    see(crests.voltage, left[3]! / weights[3] + p0[3] + p1[3] * time, now + time, width);
    // nothing rises from there on, and what is left, which only falls, is too little for a higher crest
    if (slope === 0 && i % samplesPerPeriod === 0 && isOver({ left, weights, p0, crests })) return;
  }
  weights.forEach((weight, i) => (state[i] = (weight > 0 ? left[i]! / weight : 0) + p0[i]! + p1[i]! * count * width));
}

/** Whether no crest can come any more: what is left is counted by its energy, of which the losses take and nothing gives. */
function isOver({
  left,
  weights,
  p0,
  crests: { voltage, current },
}: {
  left: Float64Array;
  weights: Row;
  p0: Row;
  crests: { readonly voltage: Crest; readonly current: Crest };
}): boolean {
  const most = Math.sqrt(left[0]! ** 2 + left[1]! ** 2 + left[2]! ** 2 + left[3]! ** 2);
  return p0[2] + most / weights[2] <= current.highest && p0[3] + most / weights[3] <= voltage.highest;
}

function multiplied({ rows, by: x, into }: { rows: Matrix; by: Float64Array; into: Float64Array }): void {
  for (let i = 0; i < 4; i++) {
    const row = rows[i]!;
    into[i] = row[0]! * x[0]! + row[1]! * x[1]! + row[2]! * x[2]! + row[3]! * x[3]!;
  }
}

type Row = readonly [number, number, number, number];

const nothing: Row = [0, 0, 0, 0];

/** x′ = A·x + b·E over (is, v, I, Vt). */
interface FedSystem {
  /** W·A·W⁻¹: over the roots of twice the energies, so that only the losses are not antisymmetric and the numbers are alike in size. */
  readonly matrix: Matrix;
  /** W: √Ls, √Cb, √Le, √C. */
  readonly weights: Row;
  /** p with A·p + b·E = q. */
  readonly settled: (of: { source: Volt; moving?: Row }) => Row;
}

function systemOf({
  circuit: { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r },
  feed: { resistance: rs, leadInductance: Ls, bulkCapacitance: Cb },
}: {
  circuit: EnvelopeCircuit;
  feed: RailFeed;
}): FedSystem {
  const leads = Ls > 0 ? 1 / Math.sqrt(Ls * Cb) : 0;
  const chokes = 1 / Math.sqrt(Le * Cb);
  const tank = 1 / (Math.PI * Math.sqrt(Le * C));
  // without lead inductance `is` is no state: it follows from the rail
  return {
    matrix: [
      [Ls > 0 ? -rs / Ls : 0, -leads, 0, 0],
      [leads, Ls > 0 ? 0 : -1 / (rs * Cb), -chokes, 0],
      [0, chokes, -r / Le, -tank],
      [0, 0, tank, -1 / (2 * R * C)],
    ],
    weights: [Math.sqrt(Ls), Math.sqrt(Cb), Math.sqrt(Le), Math.sqrt(C)],
    settled: ({ source: E, moving: [q0, q1, q2, q3] = nothing }) => {
      const across = E - Ls * q0;
      const [spill, fall] = [Cb * q1, Le * q2];
      const is =
        (C * q3 + spill / Math.PI + (Math.PI / (2 * R)) * (across + r * spill - fall)) / (1 / Math.PI + (Math.PI / (2 * R)) * (rs + r));
      const [v, I] = [across - rs * is, is - spill];
      return [is, v, I, Math.PI * (v - r * I - fall)];
    },
  };
}

function scaled(matrix: Matrix, factor: number): Matrix {
  return matrix.map((row) => row.map((value) => value * factor));
}

/** One quantity followed step by step: its last two values, and its highest crest. */
interface Crest {
  before: number;
  last: number;
  highest: number;
  at: Second;
}

function crest(first: number): Crest {
  return { before: -Infinity, last: first, highest: first, at: 0 };
}

/** After a leap no crest stands between what was last and what comes next. */
function restart(crest: Crest): void {
  crest.before = crest.last = Infinity;
}

function see(crest: Crest, value: number, time: Second, width: Second): void {
  const { before, last } = crest;
  if (value > crest.highest) {
    crest.highest = value;
    crest.at = time;
  }
  if (last >= before && last > value && Number.isFinite(before)) {
    const bend = before - 2 * last + value;
    const top = last - (before - value) ** 2 / (8 * bend);
    if (top > crest.highest) {
      crest.highest = top;
      crest.at = time - width + (width * (before - value)) / (2 * bend);
    }
  }
  crest.before = last;
  crest.last = value;
}
