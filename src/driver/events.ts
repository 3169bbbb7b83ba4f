import { envelopePeaks, type EnvelopePeaks } from '../physics/envelope-peaks.ts';
import { envelopeMode, type EnvelopeCircuit } from '../physics/envelope.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Ratio, Second, Volt } from '../units/si.ts';
import type { Unknown } from './known.ts';
import { isKnown } from './known.ts';
import { sourceResistanceOf, type OperatingPoint } from './operating-point.ts';

/** How the driver comes to life, as far as the closed form can tell. */
export type Start =
  /** Full rail at once: a live rail, or gates released on one. */
  | { readonly kind: 'step'; readonly why: string }
  /** Gates live on their own rail while the supply rises. */
  | { readonly kind: 'ramp'; readonly riseTime: Second; readonly why: string };

/** Highest values of a transient; `settled` is what they are compared with. */
export interface Transient {
  readonly drainPeak: Volt;
  readonly tankPeak: Volt;
  /** All chokes together. */
  readonly chokeCurrent: Ampere;
}

/**
 * How sure the envelope is for chokes of 20 times the coil or more and Q of 5 or more, against the time domain: added to judged peaks,
 * not to nominal quantities.
 */
export const envelopeAllowance: { readonly voltage: Ratio; readonly current: Ratio } = { voltage: 0.02, current: 0.1 };

/**
 * How the project's driver starts.
 *
 * With the gates fed from a supply that rises over time, both gates hang half on while the rail climbs and the chokes charge; how
 * long that lasts the closed form cannot tell, so the start is unknown.
 */
export function startOf(design: Design): Start | Unknown {
  const { pullUp } = design.gates;
  const { riseTime } = design.supply;
  if (pullUp.hold) return { kind: 'step', why: 'gates released when the rail is up' };
  if (riseTime === 0) return { kind: 'step', why: 'switched onto a live rail' };
  if (pullUp.from !== 'supply') {
    if (riseTime === undefined)
      return { kind: 'step', why: 'no supply.riseTime given: a live rail is taken, the worst for gates on their own rail' };
    return { kind: 'ramp', riseTime, why: 'gates on their own rail, up before the supply' };
  }
  if (riseTime === undefined) return { unknown: 'no supply.riseTime given' };
  return {
    unknown:
      'gates fed from a rising supply: both switches may hang half on while the chokes charge, and the closed form cannot tell for how long',
  };
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

function transientOf({ point, peaks, damping }: { point: OperatingPoint; peaks: EnvelopePeaks; damping: Damping }): Transient {
  const [voltage, current] = damping === 'least' ? [1 + envelopeAllowance.voltage, 1 + envelopeAllowance.current] : [1, 1];
  const on = point.running !== undefined && isKnown(point.running.onResistance) ? point.running.onResistance : 0;
  const tankPeak = peaks.voltage * voltage;
  const chokeCurrent = peaks.current * current;
  return { tankPeak, chokeCurrent, drainPeak: tankPeak + chokeCurrent * on };
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
  const circuit = envelopeOf({ design, point, damping, load: 'own' });
  const to = design.supply.voltage * point.corner.supply * (start.kind === 'step' && !design.gates.pullUp.hold ? railOvershoot(design) : 1);
  const peaksFor = (time: Second): EnvelopePeaks =>
    envelopePeaks({ circuit, initial: { current: 0, voltage: 0 }, rail: { from: 0, to, time } });
  if (start.kind === 'step') return transientOf({ point, peaks: peaksFor(0), damping });
  const period = (2 * Math.PI) / envelopeMode(circuit).angularFrequency;
  const riseTimes =
    damping === 'nominal' ? [start.riseTime] : [0, 1 / 4, 1 / 2].map((share) => Math.max(0, start.riseTime - share * period));
  const all = riseTimes.map(peaksFor);
  const worst = all.reduce((a, b) => ({ ...a, voltage: Math.max(a.voltage, b.voltage), current: Math.max(a.current, b.current) }));
  return transientOf({ point, peaks: worst, damping });
}

/** Peaks when the load is taken away at once: from the running state to coil and bank alone, at a constant rail. */
export function loadRemoval({ design, point, damping }: { design: Design; point: OperatingPoint; damping: Damping }): Transient | Unknown {
  const { running } = point;
  if (running === undefined) return { unknown: 'it does not oscillate with this load' };
  const rail = { from: running.supplyVoltage, to: running.supplyVoltage, time: 0 };
  const initial = { current: running.supplyCurrent, voltage: running.tankPeak };
  const peaks = envelopePeaks({ circuit: envelopeOf({ design, point, damping, load: 'lightest' }), initial, rail });
  return transientOf({ point, peaks, damping });
}
