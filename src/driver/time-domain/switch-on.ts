import type { Design } from '../../project/design.ts';
import type { Unknown } from '../known.ts';
import type { OperatingPoint } from '../operating-point.ts';
import { place, sourceVoltage, stateCount, type Circuit } from './circuit.ts';
import { circuitOf, type Pair } from './circuit-of.ts';
import { accuracyOf, finished, followedBefore, measuresOf, stretch, usualEffort, type Effort, type TimedEvent } from './outcome.ts';
import { higherPeaks, type Moment } from './run.ts';

/**
 * The start of a design in the time domain, with one load at one corner.
 *
 * @param design   the project
 * @param point    load and corner
 * @param pair     how the switches are taken
 * @param effort   how exactly it is followed
 * @param see      watches
 * @returns what it comes to, with the peaks; unknown where a rating is missing or nothing oscillates
 */
export function timedStart({
  design,
  point,
  pair,
  effort = usualEffort,
  see,
}: {
  design: Design;
  point: OperatingPoint;
  pair: Pair;
  effort?: Effort;
  /** Called after every step; times begin anew where a slow rail is taken up again. */
  see?: (moment: Moment) => void;
}): TimedEvent | Unknown {
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const circuit = circuitOf({ design, point, pair });
  if ('unknown' in circuit) return circuit;
  const measures = measuresOf({ design, point, running, circuit });
  const accuracy = accuracyOf({ point, effort });
  const first = stretch({ circuit, measures, accuracy, mostSteps: effort.mostSteps, initial: initialState({ design, circuit }), see });
  const { railUp, envelopePeriod } = measures;
  const ahead = railUp - followedBefore * envelopePeriod - first.run.endedAt;
  if (first.verdict !== 'settled' || ahead <= 0) return finished({ circuit, measures, ...first });
  // while it swings and the rail creeps up, everything but the gates grows with the rail
  const resumed = { ...circuit, supply: { ...circuit.supply, rising: first.run.endedAt + ahead } };
  const scale = sourceVoltage(resumed, 0) / sourceVoltage(circuit, first.run.endedAt);
  const initial = Float64Array.from(first.run.state, (value, i) => (i === place.gateA || i === place.gateB ? value : value * scale));
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
  return { ...end, peaks, at: end.at + resumed.supply.rising, steps: first.run.steps + end.steps };
}

/** At rest; with the gates held until the rail is up, the drains stand at the rail. */
function initialState({ design, circuit }: { design: Design; circuit: Circuit }): Float64Array {
  const state = new Float64Array(stateCount(circuit));
  if (!design.gates.pullUp.hold) return state;
  state[place.drainA] = state[place.drainB] = circuit.supply.voltage;
  if (circuit.supply.buffer !== undefined) state[place.rail] = circuit.supply.voltage;
  return state;
}
