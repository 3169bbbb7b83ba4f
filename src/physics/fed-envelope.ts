import type { Ampere, Second, Volt } from '../units/si.ts';
import type { EnvelopePeaks } from './envelope-peaks.ts';
import type { EnvelopeCircuit, EnvelopeState, RailRamp } from './envelope.ts';
import { fedSystem, type FedSystem, type Row } from './fed-system.ts';
import { naturalPeriods } from './natural-periods.ts';
import type { RailFeed } from './rail-ringing.ts';

/** State of the envelope and of the rail that feeds it. */
export interface FedState extends EnvelopeState {
  /** At the bulk capacitor, in V. */
  readonly rail: Volt;
  /** Through the leads, in A; follows from the rail where they have no inductance. */
  readonly leadCurrent: Ampere;
}

const nothing: Row = [0, 0, 0, 0];
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
  return fedEnvelope({ circuit, feed })({ initial, source });
}

/**
 * As fedEnvelopePeaks, for several transients of one envelope: what they share is computed once.
 *
 * @param circuit  as EnvelopeCircuit; its r without source and leads
 * @param feed     rs in Ω, Ls in H, Cb in F; rs or Ls above zero
 * @returns a function of initial and source, as fedEnvelopePeaks takes them: the peaks in V and A and their times in s
 *
 * Valid for: as fedEnvelopePeaks.
 * Source: as fedEnvelopePeaks
 *
 * @example fedEnvelope({ circuit: { chokeInductance: 50e-6, capacitance: 1e-6, parallelResistance: 50, dropResistance: 0 }, feed: { resistance: 0.001, leadInductance: 1e-6, bulkCapacitance: 100e-6 } })({ initial: { current: 0, voltage: 0, rail: 12, leadCurrent: 0 }, source: { from: 12, to: 12, time: 0 } }).voltage // 63.87984277641678
 */
export function fedEnvelope({
  circuit,
  feed,
}: {
  circuit: EnvelopeCircuit;
  feed: RailFeed;
}): (transient: { initial: FedState; source: RailRamp }) => EnvelopePeaks {
  const system = fedSystem({ circuit, feed });
  const { envelope, rail } = naturalPeriods({ circuit, feed });
  const [fast, slow] = envelope < rail ? [envelope, rail] : [rail, envelope];
  const step = fast / samplesPerPeriod;
  const window = periodsSearched * slow;
  return ({ initial, source }) => {
    const crests = { voltage: crestFrom(initial.voltage), current: crestFrom(initial.current) };
    let state = initial;
    let now = 0;
    const follow = (duration: Second, source: MovingSource): void => {
      const count = Math.max(1, Math.ceil(duration / step));
      const width = duration / count;
      if (width > 0) state = advance({ system, state, source, width, count, now, crests });
      now += duration;
    };
    if (source.time > 0) {
      const slope = (source.to - source.from) / source.time;
      const rising = (): MovingSource => ({ voltage: source.from + slope * now, slope });
      follow(Math.min(source.time, window), rising());
      if (source.time > 2 * window) {
        const width = source.time - window - now;
        const unseen = { voltage: crestFrom(state.voltage), current: crestFrom(state.current) };
        state = advance({ system, state, source: rising(), width, count: 1, now, crests: unseen });
        now += width;
        leap(crests.current);
        leap(crests.voltage);
      }
      if (source.time > window) follow(Math.min(window, source.time - now), rising());
    }
    follow(window, { voltage: source.to, slope: 0 });
    const { voltage, current } = crests;
    return { voltage: voltage.highest, voltageAt: voltage.at, current: current.highest, currentAt: current.at };
  };
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
  system: { weights, settled, onward },
  state,
  source: { voltage: source, slope },
  width,
  count,
  now,
  crests: { current, voltage },
}: {
  system: FedSystem;
  state: FedState;
  source: MovingSource;
  width: Second;
  count: number;
  now: Second;
  crests: { readonly current: Crest; readonly voltage: Crest };
}): FedState {
  const p1 = slope === 0 ? nothing : settled({ source: slope });
  const p0 = settled({ source, moving: p1 });
  const [w0, w1, w2, w3] = weights;
  let left0 = w0 * (state.leadCurrent - p0[0]);
  let left1 = w1 * (state.rail - p0[1]);
  let left2 = w2 * (state.current - p0[2]);
  let left3 = w3 * (state.voltage - p0[3]);
  const e = onward(width);
  let { before: currentBefore, last: currentLast } = current;
  let { before: voltageBefore, last: voltageLast } = voltage;
  for (let i = 1; i <= count; i++) {
    const next0 = e[0]! * left0 + e[1]! * left1 + e[2]! * left2 + e[3]! * left3;
    const next1 = e[4]! * left0 + e[5]! * left1 + e[6]! * left2 + e[7]! * left3;
    const next2 = e[8]! * left0 + e[9]! * left1 + e[10]! * left2 + e[11]! * left3;
    left3 = e[12]! * left0 + e[13]! * left1 + e[14]! * left2 + e[15]! * left3;
    left0 = next0;
    left1 = next1;
    left2 = next2;
    const time = i * width;
    const currentNext = left2 / w2 + p0[2] + p1[2] * time;
    const voltageNext = left3 / w3 + p0[3] + p1[3] * time;
    if (currentLast >= currentBefore && currentLast > currentNext)
      passCrest({ crest: current, before: currentBefore, last: currentLast, next: currentNext, time: now + time, width });
    if (voltageLast >= voltageBefore && voltageLast > voltageNext)
      passCrest({ crest: voltage, before: voltageBefore, last: voltageLast, next: voltageNext, time: now + time, width });
    currentBefore = currentLast;
    currentLast = currentNext;
    voltageBefore = voltageLast;
    voltageLast = voltageNext;
    // nothing rises from there on, and what is left, counted by its energy, only falls: too little for a higher crest
    if (slope === 0 && i % samplesPerPeriod === 0) {
      const most = Math.sqrt(left0 ** 2 + left1 ** 2 + left2 ** 2 + left3 ** 2);
      if (p0[2] + most / w2 <= current.highest && p0[3] + most / w3 <= voltage.highest) break;
    }
  }
  const end = now + count * width;
  rest({ crest: current, before: currentBefore, last: currentLast, time: end });
  rest({ crest: voltage, before: voltageBefore, last: voltageLast, time: end });
  return {
    leadCurrent: (w0 > 0 ? left0 / w0 : 0) + p0[0] + p1[0] * count * width,
    rail: left1 / w1 + p0[1] + p1[1] * count * width,
    current: left2 / w2 + p0[2] + p1[2] * count * width,
    voltage: left3 / w3 + p0[3] + p1[3] * count * width,
  };
}

/** One quantity followed step by step: its last two values, and its highest crest. */
interface Crest {
  before: number;
  last: number;
  highest: number;
  at: Second;
}

function crestFrom(first: number): Crest {
  return { before: -Infinity, last: first, highest: first, at: 0 };
}

/** After a leap no crest stands between what was last and what comes next. */
function leap(crest: Crest): void {
  crest.before = crest.last = Infinity;
}

/** A quantity that does not rise from its last value on: the top of the parabola through three values is its crest. */
function passCrest({
  crest,
  before,
  last,
  next,
  time,
  width,
}: {
  crest: Crest;
  before: number;
  last: number;
  next: number;
  time: Second;
  width: Second;
}): void {
  if (!Number.isFinite(before)) return;
  const bend = before - 2 * last + next;
  const top = last - (before - next) ** 2 / (8 * bend);
  if (top <= crest.highest) return;
  crest.highest = top;
  crest.at = time - width + (width * (before - next)) / (2 * bend);
}

/** The end of a stretch: it may still rise there. */
function rest({ crest, before, last, time }: { crest: Crest; before: number; last: number; time: Second }): void {
  crest.before = before;
  crest.last = last;
  if (last <= crest.highest) return;
  crest.highest = last;
  crest.at = time;
}
