import type { EnvelopePeaks } from '../physics/envelope-peaks.ts';
import { envelopeMode, type EnvelopeCircuit } from '../physics/envelope.ts';
import { seenChokeInductance } from '../physics/push-pull.ts';
import type { Design } from '../project/design.ts';
import { returnedCharge } from '../physics/returned-charge.ts';
import type { Ampere, Coulomb, Ratio, Second, Volt } from '../units/si.ts';
import type { Unknown } from './known.ts';
import { isKnown } from './known.ts';
import { chokeResistanceOf, type OperatingPoint, type Running } from './operating-point.ts';
import { peaksOnRail, railPeakRatio, type RailBefore } from './rail.ts';
import { startOf, type Start } from './start.ts';
import { startStall } from './start-stall.ts';

/** Highest values of a transient. */
export interface Transient {
  readonly drainPeak: Volt;
  readonly tankPeak: Volt;
  /** All chokes together, half their ripple included. */
  readonly supplyPeak: Ampere;
  /** One choke, half its ripple included. */
  readonly chokePeak: Ampere;
  /** Found in the time domain: outside the range of the closed forms too. */
  readonly timed?: boolean;
  /** Why the peaks may be higher than this: good for a fail only. */
  readonly doubt?: string;
}

/** What is added to the envelope's peaks before they are judged. */
interface Allowance {
  readonly voltage: Ratio;
  readonly current: Ratio;
}

/**
 * How far a time-domain model of 289 designs went past the envelope, for chokes of 20 times the coil or more: see DEVELOPERS.md. A
 * ramp is the more exact the more envelope periods it takes, x = ω_e·Tr/2.
 */
const allowances = {
  none: { voltage: 0, current: 0 },
  step: { voltage: 0.04, current: 0.08 },
  shortRamp: { voltage: 0.11, current: 0.3 },
  ramp: { voltage: 0.03, current: 0.35 },
  longRamp: { voltage: 0.02, current: 0.12 },
  loadRemoval: { voltage: 0.02, current: 0.08 },
} as const satisfies Record<string, Allowance>;

/** A ramp of so many envelope periods overshoots by less than the allowance, nulls or not. */
const ringingPeriods = 15;

function rampAllowance({ circuit, riseTime }: { circuit: EnvelopeCircuit; riseTime: Second }): Allowance {
  const x = (envelopeMode(circuit).angularFrequency * riseTime) / 2;
  if (x < 3) return allowances.shortRamp;
  return x < 10 ? allowances.ramp : allowances.longRamp;
}

/** Overshoot of the rail from which its ringing back brings both switches on. */
const deepRinging: Ratio = 0.5;

/** Why a rail that rings far past its voltage leaves the envelope's range: it swings back as far. */
function ringingDown({ design, start }: { design: Design; start: Start }): string | undefined {
  const past = railPeakRatio(design) - 1;
  if (design.gates.pullUp.hold || start.kind === 'step' || past <= deepRinging) return undefined;
  return `leads and bulk capacitor ring: the rail goes ${Math.round(past * 100)} % past its voltage and back as far, where both switches may come on`;
}

/** What damps the envelope: everything for a nominal figure, only what is sure for a judged one. */
type Damping = 'nominal' | 'least';

function envelopeOf({
  design,
  point,
  damping,
  load,
}: {
  design: Design;
  point: OperatingPoint;
  damping: Damping;
  load: 'own' | 'lightest';
}): EnvelopeCircuit {
  const { tank } = point;
  const { arrangement } = design.chokes;
  const chokeInductance = seenChokeInductance({ arrangement, chokeInductance: tank.chokeInductance });
  const on = point.running !== undefined && isKnown(point.running.onResistance) ? point.running.onResistance : 0;
  const own = damping === 'nominal' ? tank.parallelResistance : tank.leastDampedResistance;
  return {
    chokeInductance,
    capacitance: tank.capacitance,
    parallelResistance: load === 'own' ? own : tank.lightestResistance,
    dropResistance: chokeResistanceOf(design) + (damping === 'nominal' ? on : 0),
  };
}

function transientOf({
  design,
  running,
  peaks,
  allowance,
  doubt,
}: {
  design: Design;
  running: Running;
  peaks: Pick<EnvelopePeaks, 'voltage' | 'current'>;
  allowance: Allowance;
  doubt?: string | undefined;
}): Transient {
  const on = isKnown(running.onResistance) ? running.onResistance : 0;
  const tankPeak = peaks.voltage * (1 + allowance.voltage);
  const more = 1 + allowance.current;
  const supplyPeak = more * (peaks.current + running.supplyRipple / 2);
  const share = design.chokes.arrangement === 'two' ? 2 : 1;
  return {
    tankPeak,
    supplyPeak,
    chokePeak: more * (peaks.current / share + running.chokeRipple / 2),
    drainPeak: tankPeak + supplyPeak * on,
    ...(doubt === undefined ? {} : { doubt }),
  };
}

/**
 * Peaks at switch-on, from rest.
 *
 * A ramp's overshoot has nulls that no real rail hits; a judged ramp takes the worst of rise times down to half an envelope period
 * shorter.
 */
export function switchOn({ design, point, damping }: { design: Design; point: OperatingPoint; damping: Damping }): Transient | Unknown {
  const start = startOf(design);
  if ('unknown' in start) return start;
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const circuit = envelopeOf({ design, point, damping, load: 'own' });
  const voltage = design.supply.voltage * point.corner.supply;
  const highest = design.gates.pullUp.hold ? voltage : voltage * railPeakRatio(design);
  const doubt =
    startStall({ design, point, start, voltage: highest, seenInductance: circuit.chokeInductance }) ?? ringingDown({ design, start });
  const initial = { current: 0, voltage: 0 };
  const judged = damping === 'least';
  if (start.kind === 'step') {
    const before: RailBefore = design.gates.pullUp.hold ? { kind: 'up' } : { kind: 'off', riseTime: 0 };
    const peaks = peaksOnRail({ design, circuit, initial, voltage, before });
    return transientOf({ design, running, peaks, allowance: judged ? allowances.step : allowances.none, doubt });
  }
  const peaksFor = (riseTime: Second): EnvelopePeaks =>
    peaksOnRail({ design, circuit, initial, voltage, before: { kind: 'off', riseTime } });
  const period = (2 * Math.PI) / envelopeMode(circuit).angularFrequency;
  const rings = judged && start.riseTime < ringingPeriods * period;
  const riseTimes = rings ? [0, 1 / 4, 1 / 2].map((share) => Math.max(0, start.riseTime - share * period)) : [start.riseTime];
  const all = riseTimes.map(peaksFor);
  const peaks = { voltage: Math.max(...all.map(({ voltage }) => voltage)), current: Math.max(...all.map(({ current }) => current)) };
  return transientOf({
    design,
    running,
    peaks,
    allowance: judged ? rampAllowance({ circuit, riseTime: start.riseTime }) : allowances.none,
    doubt,
  });
}

/** Peaks when the load is taken away at once: from the running state to coil and bank alone, with the supply as it is. */
export function loadRemoval({ design, point, damping }: { design: Design; point: OperatingPoint; damping: Damping }): Transient | Unknown {
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const peaks = peaksOnRail({
    design,
    circuit: envelopeOf({ design, point, damping, load: 'lightest' }),
    initial: { current: running.supplyCurrent, voltage: running.tankPeak },
    voltage: running.supplyVoltage,
    before: { kind: 'up' },
  });
  const lift = damping === 'least' ? railLift({ design, point, running }) : 1;
  const lifted = { voltage: peaks.voltage * lift, current: peaks.current * lift };
  return transientOf({ design, running, peaks: lifted, allowance: damping === 'least' ? allowances.loadRemoval : allowances.none });
}

/** By running state: the transient and the rail's own check ask for the same. */
const returned = new WeakMap<Running, Coulomb>();

/** Charge that comes back to the supply when the load is taken away. */
export function returnedAtLoadRemoval({ design, point, running }: { design: Design; point: OperatingPoint; running: Running }): Coulomb {
  const found =
    returned.get(running) ??
    returnedCharge({
      circuit: envelopeOf({ design, point, damping: 'least', load: 'lightest' }),
      initial: { current: running.supplyCurrent, voltage: running.tankPeak },
      voltage: running.supplyVoltage,
    });
  returned.set(running, found);
  return found;
}

/** How far the charge that comes back lifts the rail of a supply that takes none of it, over its voltage; 1 without a bulk capacitor. */
export function railLift({ design, point, running }: { design: Design; point: OperatingPoint; running: Running }): Ratio {
  const { bulkCapacitance } = design.supply;
  if (bulkCapacitance === undefined) return 1;
  return Math.sqrt(1 + (2 * returnedAtLoadRemoval({ design, point, running })) / (bulkCapacitance * running.supplyVoltage));
}
