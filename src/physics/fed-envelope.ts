import type { Ampere, Second, Volt } from '../units/si.ts';
import type { EnvelopePeaks } from './envelope-peaks.ts';
import { envelopeMode, type EnvelopeCircuit, type EnvelopeState, type RailRamp } from './envelope.ts';
import { matrixExponential, type Matrix } from './matrix-exponential.ts';
import { railMode, type RailFeed } from './rail-ringing.ts';

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
  const matrix = systemOf({ circuit, feed });
  const { envelope, rail } = naturalPeriods({ circuit, feed });
  const [fast, slow] = envelope < rail ? [envelope, rail] : [rail, envelope];
  const step = fast / samplesPerPeriod;
  const crests = { voltage: crest(initial.voltage), current: crest(initial.current) };
  let state = Float64Array.of(initial.leadCurrent, initial.rail, initial.current, initial.voltage, source.from, 0);
  let next = new Float64Array(6);
  let now = 0;
  let known: { width: Second; onward: Float64Array } | undefined;
  const follow = (duration: Second): void => {
    const count = Math.max(1, Math.ceil(duration / step));
    const width = duration / count;
    if (!(width > 0)) return;
    if (known?.width !== width) known = { width, onward: Float64Array.from(matrixExponential({ matrix: scaled(matrix, width) }).flat()) };
    const { onward } = known;
    for (let i = 0; i < count; i++) {
      advance({ onward, state, next });
      const done = state;
      state = next;
      next = done;
      now += width;
      crests.current.see(state[2]!, now, width);
      crests.voltage.see(state[3]!, now, width);
    }
  };
  const jump = (until: Second): void => {
    const onward = matrixExponential({ matrix: scaled(matrix, until - now) });
    state = Float64Array.from(onward, (row) => row.reduce((sum, value, column) => sum + value * state[column]!, 0));
    now = until;
  };
  if (source.time > 0) {
    state[5] = (source.to - source.from) / source.time;
    const window = periodsSearched * slow;
    follow(Math.min(source.time, window));
    if (source.time > 2 * window) {
      jump(source.time - window);
      crests.current.restart();
      crests.voltage.restart();
    }
    if (source.time > window) follow(Math.min(window, source.time - now));
  }
  state[4] = source.to;
  state[5] = 0;
  follow(periodsSearched * slow);
  const [voltage, current] = [crests.voltage.best, crests.current.best];
  return { voltage: voltage.value, voltageAt: voltage.time, current: current.value, currentAt: current.time };
}

/** The state a step later: a product with the six rows of the matrix, which lie one after the other. */
function advance({ onward: m, state: x, next }: { onward: Float64Array; state: Float64Array; next: Float64Array }): void {
  for (let row = 0, i = 0; row < 6; row++, i += 6)
    next[row] = m[i]! * x[0]! + m[i + 1]! * x[1]! + m[i + 2]! * x[2]! + m[i + 3]! * x[3]! + m[i + 4]! * x[4]! + m[i + 5]! * x[5]!;
}

/** State matrix over (is, v, I, Vt, E, slope of E). */
function systemOf({
  circuit: { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r },
  feed: { resistance: rs, leadInductance: Ls, bulkCapacitance: Cb },
}: {
  circuit: EnvelopeCircuit;
  feed: RailFeed;
}): Matrix {
  const rail =
    Ls > 0
      ? [
          [-rs / Ls, -1 / Ls, 0, 0, 1 / Ls, 0],
          [1 / Cb, 0, -1 / Cb, 0, 0, 0],
        ]
      : [
          [0, 0, 0, 0, 0, 0],
          [0, -1 / (rs * Cb), -1 / Cb, 0, 1 / (rs * Cb), 0],
        ];
  return [
    ...rail,
    [0, 1 / Le, -r / Le, -1 / (Math.PI * Le), 0, 0],
    [0, 0, 1 / (Math.PI * C), -1 / (2 * R * C), 0, 0],
    [0, 0, 0, 0, 0, 1],
    [0, 0, 0, 0, 0, 0],
  ];
}

function scaled(matrix: Matrix, factor: number): Matrix {
  return matrix.map((row) => row.map((value) => value * factor));
}

/**
 * Natural periods of envelope and rail. Without lead inductance the rail has its time constant.
 *
 * @param circuit  as EnvelopeCircuit
 * @param feed     rs in Ω, Ls in H, Cb in F
 * @returns both, in s
 *
 * Valid for: as envelopeMode and railMode.
 * Source: as envelopeMode and railMode
 *
 * @example naturalPeriods({ circuit: { chokeInductance: 1 / Math.PI ** 2, capacitance: 1, parallelResistance: Infinity, dropResistance: 0 }, feed: { resistance: 0, leadInductance: 1, bulkCapacitance: 4 } }) // { envelope: 6.283185307179586, rail: 12.566370614359172 }
 */
export function naturalPeriods({ circuit, feed }: { circuit: EnvelopeCircuit; feed: RailFeed }): { envelope: Second; rail: Second } {
  return {
    envelope: (2 * Math.PI) / envelopeMode(circuit).angularFrequency,
    rail: feed.leadInductance > 0 ? (2 * Math.PI) / railMode(feed).angularFrequency : feed.resistance * feed.bulkCapacitance,
  };
}

/** Follows one quantity and keeps its highest crest. */
function crest(first: number): { see: (value: number, time: Second, width: Second) => void; restart: () => void; best: Peak } {
  let [before, last] = [-Infinity, first];
  const best = { value: first, time: 0 };
  return {
    best,
    restart: () => {
      before = last = Infinity;
    },
    see: (value, time, width) => {
      if (value > best.value) [best.value, best.time] = [value, time];
      if (last >= before && last > value && Number.isFinite(before)) {
        const bend = before - 2 * last + value;
        const top = last - (before - value) ** 2 / (8 * bend);
        if (top > best.value) [best.value, best.time] = [top, time - width + (width * (before - value)) / (2 * bend)];
      }
      before = last;
      last = value;
    },
  };
}

interface Peak {
  readonly value: number;
  readonly time: Second;
}
