import { envelopePeaks, type EnvelopePeaks } from '../physics/envelope-peaks.ts';
import { envelopeMode, type EnvelopeCircuit } from '../physics/envelope.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Ratio, Second, Volt } from '../units/si.ts';
import type { Unknown } from './known.ts';
import { isKnown } from './known.ts';
import { sourceResistanceOf, type OperatingPoint, type Running } from './operating-point.ts';
import { startOf } from './start.ts';
import { startStall } from './start-stall.ts';

/** Highest values of a transient. */
export interface Transient {
  readonly drainPeak: Volt;
  readonly tankPeak: Volt;
  /** All chokes together, half their ripple included. */
  readonly supplyPeak: Ampere;
  /** One choke, half its ripple included. */
  readonly chokePeak: Ampere;
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

/** Overshoot of the rail itself when leads and bulk capacitor ring on a live rail: 1 without leads or bulk capacitance given. */
export function railOvershoot(design: Design): Ratio {
  const { bulkCapacitance: C, leadInductance: L, resistance = 0 } = design.supply;
  if (C === undefined || L === undefined) return 1;
  const damping = (resistance / 2) * Math.sqrt(C / L);
  return damping >= 1 ? 1 : 1 + Math.exp((-Math.PI * damping) / Math.sqrt(1 - damping * damping));
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
  const chokeInductance = design.chokes.arrangement === 'two' ? tank.chokeInductance / 2 : tank.chokeInductance;
  const on = point.running !== undefined && isKnown(point.running.onResistance) ? point.running.onResistance : 0;
  const own = damping === 'nominal' ? tank.parallelResistance : tank.leastDampedResistance;
  return {
    chokeInductance,
    capacitance: tank.capacitance,
    parallelResistance: load === 'own' ? own : tank.lightestResistance,
    dropResistance: sourceResistanceOf(design) + (damping === 'nominal' ? on : 0),
  };
}

function transientOf({
  design,
  running,
  peaks,
  allowance,
}: {
  design: Design;
  running: Running;
  peaks: Pick<EnvelopePeaks, 'voltage' | 'current'>;
  allowance: Allowance;
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
  const to = design.supply.voltage * point.corner.supply * (start.kind === 'step' && !design.gates.pullUp.hold ? railOvershoot(design) : 1);
  const stall = startStall({ design, point, start, voltage: to, seenInductance: circuit.chokeInductance });
  if (stall !== undefined) return stall;
  const peaksFor = (time: Second): EnvelopePeaks =>
    envelopePeaks({ circuit, initial: { current: 0, voltage: 0 }, rail: { from: 0, to, time } });
  const judged = damping === 'least';
  if (start.kind === 'step') {
    return transientOf({ design, running, peaks: peaksFor(0), allowance: judged ? allowances.step : allowances.none });
  }
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
  });
}

/** Peaks when the load is taken away at once: from the running state to coil and bank alone, at a constant rail. */
export function loadRemoval({ design, point, damping }: { design: Design; point: OperatingPoint; damping: Damping }): Transient | Unknown {
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const rail = { from: running.supplyVoltage, to: running.supplyVoltage, time: 0 };
  const initial = { current: running.supplyCurrent, voltage: running.tankPeak };
  const peaks = envelopePeaks({ circuit: envelopeOf({ design, point, damping, load: 'lightest' }), initial, rail });
  return transientOf({ design, running, peaks, allowance: damping === 'least' ? allowances.loadRemoval : allowances.none });
}
