import type { Design } from '../../project/design.ts';
import type { Ratio, Volt } from '../../units/si.ts';
import { isKnown, type Unknown } from '../known.ts';
import { addedResistance, operatingPoint, type OperatingPoint, type Running } from '../operating-point.ts';
import { place, stateCount, type Circuit } from './circuit.ts';
import { circuitOf, type Pair } from './circuit-of.ts';
import { measuresOf } from './measures.ts';
import { accuracyOf, usualEffort, type Effort } from './effort.ts';
import { finished, type TimedEvent } from './outcome.ts';
import { runOf, type Moment } from './run.ts';
import { stretch } from './stretch.ts';
import { starvedBy, withinLimit } from './supply-limit.ts';

/** What happens to a running driver. */
export type Disturbance =
  | { readonly kind: 'load removal' }
  /** From the coil alone to the load. */
  | { readonly kind: 'load application' }
  /** The source falls to a share of its voltage for so many periods of the tank, and returns. */
  | { readonly kind: 'supply drop'; readonly share: Ratio; readonly periods: number };

/** Periods of the tank and of the envelope in which a driver settles before it is disturbed. */
const settling = { tank: 30, envelope: 3 } as const;

/**
 * An event of a running driver in the time domain, from the settled state on.
 *
 * @param design       the project
 * @param point        load and corner
 * @param pair         how the switches are taken
 * @param disturbance  what happens
 * @param breakdown    drain voltage that breaks down, in V; the drains rise without bound if left out
 * @param effort       how exactly it is followed
 * @param see          watches, from the event on
 * @returns what it comes to, with the peaks from the event on; unknown where a rating is missing or nothing oscillates
 */
export function timedDisturbance({
  design,
  point,
  pair,
  disturbance,
  breakdown,
  effort = usualEffort,
  see,
}: {
  design: Design;
  point: OperatingPoint;
  pair: Pair;
  disturbance: Disturbance;
  breakdown?: Volt | undefined;
  effort?: Effort;
  see?: (moment: Moment) => void;
}): TimedEvent | Unknown {
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const starved = starvedBy({ design, point });
  if (starved !== undefined) return starved;
  const given = circuitOf({ design, point, pair, breakdown });
  if ('unknown' in given) return given;
  const none = 1e9 * Math.max(1, point.tank.impedance);
  const added = addedResistance({ design, load: point.load });
  const loaded = Number.isFinite(added) ? added : none;
  const [before, after] =
    disturbance.kind === 'load application' ? [none, loaded] : [loaded, disturbance.kind === 'load removal' ? none : loaded];
  const up: Circuit = { ...given, supply: { ...given.supply, riseTime: 0 }, tank: { ...given.tank, load: before, loadAfter: before } };
  const measures = { ...measuresOf({ design, point, running, circuit: up }), railUp: 0, mayRest: false };
  const { name, frequencyShift = 0 } = point.load;
  const { corner, coil } = point;
  const first = disturbance.kind === 'load application' ? operatingPoint({ design, load: { name, frequencyShift }, corner, coil }) : point;
  const settled = runOf({
    circuit: up,
    initial: runningState({ circuit: up, running: first.running ?? running, point: first }),
    until: settling.tank * measures.period + settling.envelope * measures.envelopePeriod,
    accuracy: accuracyOf({ circuit: up, effort }),
    mostSteps: effort.mostSteps,
    watch: () => false,
  });
  const dip =
    disturbance.kind === 'supply drop' ? { dip: { from: 0, until: disturbance.periods * measures.period, share: disturbance.share } } : {};
  const circuit: Circuit = { ...up, supply: { ...up.supply, ...dip }, tank: { ...up.tank, load: after, loadAfter: after } };
  const railUp = disturbance.kind === 'supply drop' ? disturbance.periods * measures.period : 0;
  const last = stretch({
    circuit,
    measures: { ...measures, railUp },
    accuracy: accuracyOf({ circuit, effort }),
    mostSteps: effort.mostSteps,
    initial: settled.state,
    see,
  });
  return withinLimit({ design, event: finished({ circuit, measures, ...last }) });
}

/** A running state to settle from: A off at its crest, B on, the chokes at half the supply current. */
function runningState({ circuit, running, point }: { circuit: Circuit; running: Running; point: OperatingPoint }): Float64Array {
  const state = new Float64Array(stateCount(circuit));
  const on = isKnown(running.onResistance) ? running.supplyCurrent * running.onResistance : 0;
  const drop = isKnown(point.gate.diodeDrop) ? point.gate.diodeDrop : 0.8;
  state[place.drainA] = running.drainPeak;
  state[place.drainB] = on;
  state[place.chokeA] = running.supplyCurrent / (circuit.arrangement === 'two' ? 2 : 1);
  state[place.chokeB] = circuit.arrangement === 'two' ? running.supplyCurrent / 2 : 0;
  state[place.gateA] = on + drop;
  state[place.gateB] = point.gate.high;
  if (circuit.supply.buffer !== undefined) {
    state[place.rail] = circuit.supply.voltage;
    state[place.lead] = running.supplyCurrent;
  }
  return state;
}
