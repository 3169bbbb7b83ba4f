import { envelopeMode, type EnvelopeCircuit } from '../../physics/envelope.ts';
import { seenChokeInductance } from '../../physics/push-pull.ts';
import type { Design } from '../../project/design.ts';
import type { Ampere, Henry, Second, Volt } from '../../units/si.ts';
import type { OperatingPoint, Running } from '../operating-point.ts';
import { riseAtDriver } from '../rail.ts';
import type { Circuit } from './circuit.ts';

/** Periods of the envelope before the rail is up that are followed again. */
export const followedBefore = 3;

/** What a start is measured against. */
export interface Measures {
  readonly period: Second;
  readonly envelopePeriod: Second;
  /** Time in which the envelope's ringing falls to 1/e. */
  readonly ringingTime: Second;
  /** When the rail is up. */
  readonly railUp: Second;
  /** Whether a part may end before the rail is up, once it swings. */
  readonly mayRest: boolean;
  readonly amplitude: Volt;
  /** Highest that the envelope gives. */
  readonly current: Ampere;
  /** Of the supply, while running. */
  readonly running: Ampere;
}

/** Limit of a supply, over the running current, below which it may hold the driver back as its rail goes up. */
const freeLimit = 1.25;

/** Whether what a driver swings about may not grow with its rail, since the supply's limit acts. */
export function holdsBack({ limit, running }: { limit: Ampere; running: Running }): boolean {
  return limit < freeLimit * running.supplyCurrent;
}

/** What the events of a design with one load are measured against. */
export function measuresOf({
  design,
  point,
  running,
  circuit,
}: {
  design: Design;
  point: OperatingPoint;
  running: Running;
  circuit: Circuit;
}): Measures {
  const railUp = design.gates.pullUp.hold ? 0 : Math.max(riseAtDriver(design) + railLag(circuit), chargingTime(circuit));
  return measuresWith({
    circuit,
    running,
    railUp,
    mayRest: point.running !== undefined && !holdsBack({ limit: circuit.supply.limit?.current ?? Infinity, running }),
  });
}

/** The same where it is known when the rail is up, and what the circuit does while running. */
export function measuresWith({
  circuit,
  running,
  railUp,
  mayRest,
}: {
  circuit: Circuit;
  running: Pick<Running, 'frequency' | 'tankPeak' | 'supplyCurrent'>;
  railUp: Second;
  mayRest: boolean;
}): Measures {
  const { angularFrequency, dampingRatio } = envelopeMode(envelopeOf(circuit));
  const envelopePeriod = (2 * Math.PI) / angularFrequency;
  return {
    period: 1 / running.frequency,
    envelopePeriod,
    ringingTime: 1 / (dampingRatio * angularFrequency),
    railUp,
    mayRest: mayRest && railUp > (followedBefore + 3) * envelopePeriod,
    amplitude: running.tankPeak,
    current: expectedCurrent({ circuit, running }),
    running: running.supplyCurrent,
  };
}

/** Time in which a bulk capacitor behind the source's resistance comes within 5 % of what the rail lags behind a source that is up. */
function railLag({ supply: { resistance, buffer } }: Circuit): Second {
  return buffer === undefined ? 0 : 3 * resistance * buffer.capacitance;
}

/** Time in which a source at its limit charges the bulk capacitor, what the driver draws meanwhile reckoned as a third of it. */
function chargingTime({ supply: { voltage, buffer, limit } }: Circuit): Second {
  return buffer === undefined || limit === undefined ? 0 : (1.5 * buffer.capacitance * voltage) / limit.current;
}

/** Tank and chokes as the envelope has them, damped by what is sure: coil, load, chokes and source. */
function envelopeOf(circuit: Circuit): EnvelopeCircuit {
  const { tank, choke, supply, arrangement } = circuit;
  const { inductance, capacitance, coilResistance, load } = tank;
  return {
    chokeInductance: seenChokesOf(circuit),
    capacitance,
    parallelResistance: 1 / (1 / load + (coilResistance * capacitance) / inductance),
    dropResistance: supply.resistance + (arrangement === 'two' ? choke.resistance / 2 : choke.resistance),
  };
}

/** A step's largest choke current without damping, and the running one with it. */
function expectedCurrent({ circuit, running }: { circuit: Circuit; running: Pick<Running, 'supplyCurrent'> }): number {
  return circuit.supply.voltage * Math.PI * Math.sqrt(circuit.tank.capacitance / seenChokesOf(circuit)) * 0.5 + 2 * running.supplyCurrent;
}

function seenChokesOf({ arrangement, choke }: Circuit): Henry {
  return seenChokeInductance({ arrangement, chokeInductance: choke.inductance });
}
