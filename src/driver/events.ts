import type { EnvelopePeaks } from '../physics/envelope-peaks.ts';
import { envelopeMode, type EnvelopeCircuit, type EnvelopeState } from '../physics/envelope.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Henry, Ratio, Second, Volt } from '../units/si.ts';
import { envelopeCircuitOf } from './envelope-circuit.ts';
import { isKnown, type Unknown } from './known.ts';
import type { OperatingPoint, Running } from './operating-point.ts';
import { isRailSlow, peaksOnRail, railPeakRatio, type RailBefore } from './rail.ts';
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
  readonly timed?: boolean | undefined;
  /** What the envelope says of the drains, where this is from the time domain. */
  readonly closedFormDrainPeak?: Volt;
  /** Why the peaks may be higher than this: good for a fail only. */
  readonly doubt?: string | undefined;
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
const atSwitchOn: readonly Allowance[] = [allowances.step, allowances.shortRamp, allowances.ramp, allowances.longRamp];

const largestAtSwitchOn: Allowance = {
  voltage: Math.max(...atSwitchOn.map(({ voltage }) => voltage)),
  current: Math.max(...atSwitchOn.map(({ current }) => current)),
};

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
  const { tank, running } = point;
  const own = damping === 'nominal' ? tank.parallelResistance : tank.leastDampedResistance;
  const circuit = envelopeCircuitOf({ design, tank, parallelResistance: load === 'own' ? own : tank.lightestResistance });
  if (damping === 'least' || running === undefined || !isKnown(running.onResistance)) return circuit;
  return { ...circuit, dropResistance: circuit.dropResistance + running.onResistance };
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
    doubt,
  };
}

/** Why the peaks at switch-on may be higher than the envelope's. */
function startDoubt({
  design,
  point,
  start,
  seenInductance,
}: {
  design: Design;
  point: OperatingPoint;
  start: Start;
  seenInductance: Henry;
}): string | undefined {
  const voltage = design.supply.voltage * point.corner.supply;
  const highest = design.gates.pullUp.hold ? voltage : voltage * railPeakRatio(design);
  return startStall({ design, point, start, voltage: highest, seenInductance }) ?? ringingDown({ design, start });
}

/** Whether the envelope tells the peaks at switch-on without a doubt. */
export function isSureAtSwitchOn({ design, point }: { design: Design; point: OperatingPoint }): boolean {
  const start = startOf(design);
  if ('unknown' in start || point.running === undefined) return false;
  const { chokeInductance: seenInductance } = envelopeOf({ design, point, damping: 'least', load: 'own' });
  return startDoubt({ design, point, start, seenInductance }) === undefined;
}

/** Tank and chokes before they are switched on. */
const atRest: EnvelopeState = { current: 0, voltage: 0 };

/** What sampling may take off the crest of a step: 0.05 %, doubled. */
const sampledShare: Ratio = 0.001;

/**
 * Drain voltage that no rise time of the supply exceeds at switch-on as judged, the start without a doubt: the envelope is linear and at rest before, so that
 * what follows a ramp is a mean of what follows a step.
 *
 * @returns V; Infinity where nothing bounds it
 */
export function drainBoundAtSwitchOn({ design, point }: { design: Design; point: OperatingPoint }): Volt {
  const { running } = point;
  const circuit = envelopeOf({ design, point, damping: 'least', load: 'own' });
  if (running === undefined || isRailSlow({ design, circuit })) return Infinity;
  const voltage = design.supply.voltage * point.corner.supply;
  const peaks = peaksOnRail({ design, circuit })({ initial: atRest, voltage, before: { kind: 'off', riseTime: 0 } });
  return transientOf({ design, running, peaks, allowance: largestAtSwitchOn }).drainPeak * (1 + sampledShare);
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
  const doubt = startDoubt({ design, point, start, seenInductance: circuit.chokeInductance });
  const peaksAt = peaksOnRail({ design, circuit });
  const judged = damping === 'least';
  if (start.kind === 'step') {
    const before: RailBefore = design.gates.pullUp.hold ? { kind: 'up' } : { kind: 'off', riseTime: 0 };
    const peaks = peaksAt({ initial: atRest, voltage, before });
    return transientOf({ design, running, peaks, allowance: judged ? allowances.step : allowances.none, doubt });
  }
  const period = (2 * Math.PI) / envelopeMode(circuit).angularFrequency;
  const rings = judged && start.riseTime < ringingPeriods * period;
  const riseTimes = rings ? [0, 1 / 4, 1 / 2].map((share) => Math.max(0, start.riseTime - share * period)) : [start.riseTime];
  const all = [...new Set(riseTimes)].map((riseTime) => peaksAt({ initial: atRest, voltage, before: { kind: 'off', riseTime } }));
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
  const peaks = peaksOnRail({ design, circuit: envelopeOf({ design, point, damping, load: 'lightest' }) })({
    initial: { current: running.supplyCurrent, voltage: running.tankPeak },
    voltage: running.supplyVoltage,
    before: { kind: 'up' },
  });
  const lift = damping === 'least' ? railLift({ design, running }) : 1;
  const lifted = { voltage: peaks.voltage * lift, current: peaks.current * lift };
  return transientOf({ design, running, peaks: lifted, allowance: damping === 'least' ? allowances.loadRemoval : allowances.none });
}

/** How far the charge that comes back lifts the rail of a supply that takes none of it, over its voltage; 1 without a bulk capacitor. */
export function railLift({ design, running }: { design: Design; running: Running }): Ratio {
  const { bulkCapacitance } = design.supply;
  if (bulkCapacitance === undefined) return 1;
  return Math.sqrt(1 + (2 * running.returnedCharge()) / (bulkCapacitance * running.supplyVoltage));
}
