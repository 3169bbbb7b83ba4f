import type { Design } from '../../project/design.ts';
import type { Volt } from '../../units/si.ts';
import type { Unknown } from '../known.ts';
import type { OperatingPoint } from '../operating-point.ts';
import { place, stateCount, type Circuit } from './circuit.ts';
import { circuitOf, type Pair } from './circuit-of.ts';
import { followedBefore, measuresOf, type Measures } from './measures.ts';
import { accuracyOf, usualEffort, type Effort } from './effort.ts';
import { finished, type TimedEvent } from './outcome.ts';
import { higherPeaks, type Moment, type Run } from './run.ts';
import { sourceVoltageOf } from './source-voltage.ts';
import { stretch } from './stretch.ts';
import { chargedBefore, isGivingWay, starvedBy, withinLimit } from './supply-limit.ts';

/**
 * The start of a design in the time domain, with one load at one corner.
 *
 * @param design   the project
 * @param point    load and corner
 * @param pair     how the switches are taken
 * @param breakdown  drain voltage that breaks down, in V; the drains rise without bound if left out
 * @param effort   how exactly it is followed
 * @param see      watches
 * @param whole    false to end where it swings on a rail that creeps up, which is enough to tell that it starts
 * @returns what it comes to, with the peaks; unknown where a rating is missing or nothing oscillates
 */
export function timedStart({
  design,
  point,
  pair,
  breakdown,
  effort = usualEffort,
  see,
  whole = true,
}: {
  design: Design;
  point: OperatingPoint;
  pair: Pair;
  breakdown?: Volt | undefined;
  effort?: Effort;
  /** Called after every step; times begin anew where a slow rail is taken up again. */
  see?: (moment: Moment) => void;
  whole?: boolean;
}): TimedEvent | Unknown {
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const starved = starvedBy({ design, point });
  if (starved !== undefined) return starved;
  const circuit = circuitOf({ design, point, pair, breakdown });
  if ('unknown' in circuit) return circuit;
  const measures = measuresOf({ design, point, running, circuit });
  const accuracy = accuracyOf({ circuit, effort });
  const first = stretch({ circuit, measures, accuracy, mostSteps: effort.mostSteps, initial: initialState({ design, circuit }), see });
  const { railUp, envelopePeriod } = measures;
  if (first.verdict !== 'settled')
    return withinLimit({ design, event: finished({ circuit, measures, ...first }), before: chargedBefore(design) });
  // what a supply must give is not seen before its rail is up
  if (!whole && !isGivingWay(design)) return finished({ circuit, measures, ...first, verdict: 'runs' });
  // no outcome before the rail is up: where too little is left to skip it goes on from where it is
  const ahead = Math.max(0, railUp - followedBefore * envelopePeriod - first.run.endedAt);
  const resumed = { ...circuit, supply: { ...circuit.supply, rising: first.run.endedAt + ahead } };
  const initial = carriedOver({ run: first.run, circuit, resumed, measures, gateHigh: point.gate.high });
  const second = stretch({
    circuit: resumed,
    measures: { ...measures, railUp: railUp - resumed.supply.rising, mayRest: false },
    accuracy,
    mostSteps: effort.mostSteps,
    initial,
    see,
  });
  const end = finished({ circuit: resumed, measures, ...second });
  const peaks = higherPeaks(first.run.peaks, { ...end.peaks, drainAt: end.peaks.drainAt + resumed.supply.rising });
  return withinLimit({ design, event: { ...end, peaks, at: end.at + resumed.supply.rising, steps: first.run.steps + end.steps } });
}

/**
 * The state of a driver that swings on a rail that creeps up, at a later time: what it swings about has grown with the rail, its ringing
 * about that has died down.
 */
function carriedOver({
  run,
  circuit,
  resumed,
  measures,
  gateHigh,
}: {
  run: Run;
  circuit: Circuit;
  resumed: Circuit;
  measures: Measures;
  gateHigh: Volt;
}): Float64Array {
  const source = sourceVoltageOf(circuit);
  const { whole } = source;
  const [then, now] = [source.at(run.endedAt) / whole, sourceVoltageOf(resumed).at(0) / whole];
  const left = Math.exp(-(resumed.supply.rising - run.endedAt) / measures.ringingTime);
  const later = (value: number, running: number): number => running * now + (value - running * then) * left;
  const { inductance, capacitance } = circuit.tank;
  const state = Float64Array.from(run.state);
  // the drain of the switch that is on stays where it is
  const [on, off] = state[place.drainA]! > state[place.drainB]! ? [place.drainB, place.drainA] : [place.drainA, place.drainB];
  const swing = state[off]! - state[on]!;
  const amplitude = Math.hypot(swing, state[place.coil]! * Math.sqrt(inductance / capacitance));
  const larger = later(amplitude, measures.amplitude) / amplitude;
  state[off] = state[on]! + swing * larger;
  state[place.coil] = state[place.coil]! * larger;
  // a gate that hangs on the rail has grown with it: the switch that is on carries what the chokes bring
  const gate = on === place.drainA ? place.gateA : place.gateB;
  state[gate] = Math.max(state[gate]!, gateHigh * (circuit.gates.rail === undefined ? now : 1));
  const chokes = circuit.arrangement === 'two' ? [place.chokeA, place.chokeB] : [place.chokeA];
  for (const index of chokes) state[index] = later(state[index]!, measures.running / chokes.length);
  if (circuit.supply.buffer !== undefined) {
    state[place.rail] = later(state[place.rail]!, whole);
    state[place.lead] = later(state[place.lead]!, measures.running);
  }
  return state;
}

/** At rest; with the gates held until the rail is up, the drains stand at the rail. */
function initialState({ design, circuit }: { design: Design; circuit: Circuit }): Float64Array {
  const state = new Float64Array(stateCount(circuit));
  if (!design.gates.pullUp.hold) return state;
  state[place.drainA] = state[place.drainB] = circuit.supply.voltage;
  if (circuit.supply.buffer !== undefined) state[place.rail] = circuit.supply.voltage;
  return state;
}
