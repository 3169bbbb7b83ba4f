import { nominalCorner } from '../../src/driver/corner.ts';
import { isKnown } from '../../src/driver/known.ts';
import { operatingPoint, type OperatingPoint } from '../../src/driver/operating-point.ts';
import { holdOffAt, holdOffLatch } from '../../src/driver/switch-heat.ts';
import { switchModelOf } from '../../src/driver/switch-model.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import type { Design } from '../../src/project/design.ts';
import { nominal, type RandomDesign } from './random-design.ts';

/** Numbers from 0 to 1 that a seed determines (mulberry32). */
export function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * A design whose pair latches, by the closed form, near a voltage between 8 and 60 V: the on-resistance is chosen for that. The rail
 * takes 40 periods of the envelope.
 */
export function drawn(random: () => number): RandomDesign {
  const even = (a: number, b: number): number => a + (b - a) * random();
  const log = (a: number, b: number): number => Math.exp(even(Math.log(a), Math.log(b)));
  const [L, C, V, quality] = [log(0.5e-6, 50e-6), log(0.1e-6, 10e-6), log(8, 60), log(2, 60)];
  const impedance = Math.sqrt(L / C);
  const own = quality * even(1.1, 4);
  const load = 1 / (1 / (quality * impedance) - 1 / (own * impedance));
  const current = (Math.PI ** 2 * V) / (2 * quality * impedance);
  const arrangement = random() < 0.5 ? 'two' : 'centre-tap';
  const choke = L * log(10, 100);
  const [threshold, forwardVoltage, constantTimesOn] = [even(1.8, 4), even(0.6, 1.1), log(0.4, 1.5)];
  const onResistance = (threshold + 1 / (2 * constantTimesOn) - forwardVoltage + 0.15) / current;
  const ciss = Math.min(15e-9, Math.max(0.2e-9, log(60e-12, 200e-12) / onResistance));
  const period = 2 * Math.PI * Math.sqrt(L * C);
  const seen = arrangement === 'two' ? choke / 2 : choke;
  const values = {
    L,
    C,
    V,
    coilResistance: impedance / own,
    load,
    riseTime: 40 * 2 * Math.PI ** 2 * Math.sqrt(seen * C),
    sourceResistance: (log(0.002, 0.02) * V) / current,
    choke,
    chokeResistance: (log(0.002, 0.02) * V) / current,
    onResistance,
    constant: constantTimesOn / onResistance,
    threshold,
    ciss,
    crss: ciss * log(0.01, 0.08),
    coss: ciss * log(0.08, 0.3),
    mismatch: log(0.005, 0.05),
    pullUp: Math.min(2000, Math.max(22, (log(0.005, 0.3) * period) / (2 * ciss))),
    forwardVoltage,
  };
  const rounded = Object.fromEntries(Object.entries(values).map(([key, value]) => [key, Number(value.toPrecision(3))]));
  return {
    ...(rounded as unknown as typeof values),
    arrangement,
    pullDown: 10e3,
    clamp: 12,
    clampResistance: 10,
    rail: random() < 0.5 ? null : 12,
    hold: false,
    limit: null,
    bulk: null,
    lead: null,
  };
}

/** A random design whose supply voltage can be changed. */
export interface Latching {
  readonly at: (voltage: number) => { readonly design: Design; readonly point: OperatingPoint };
  readonly starts: (voltage: number) => 'runs' | 'latches' | 'stalls' | 'undecided';
  /** (I + Ig)·Ron over the Vth + 1/(2·K·Ron) − Vf at which the closed form has it latch. */
  readonly share: (voltage: number) => number;
  /** Where that is 1, in V. */
  readonly closedForm: number;
}

/** A random design at any voltage, in the time domain and by the closed form. */
export function latching(d: RandomDesign): Latching {
  const { design: given } = nominal(d);
  const at: Latching['at'] = (voltage) => {
    const design = { ...given, supply: { ...given.supply, voltage } };
    return { design, point: operatingPoint({ design, load: design.loads[0]!, corner: nominalCorner }) };
  };
  const starts: Latching['starts'] = (voltage) => {
    const end = timedStart({ ...at(voltage), pair: { mismatch: d.mismatch, strength: 1, junction: 298.15 } });
    if ('unknown' in end) throw new Error(end.unknown);
    return end.outcome;
  };
  const share: Latching['share'] = (voltage) => {
    const { design, point } = at(voltage);
    const { gate, running } = point;
    if (running === undefined || !isKnown(gate.diodeDrop)) throw new Error('it does not oscillate');
    const of = { model: switchModelOf(design), junction: 298.15 };
    const [holdOff, latch] = [holdOffAt({ ...of, gate, current: running.supplyCurrent }), holdOffLatch(of)];
    if ('unknown' in holdOff || !isKnown(latch)) throw new Error('a rating is missing');
    return (holdOff.value - gate.diodeDrop) / (latch - gate.diodeDrop);
  };
  return { at, starts, share, closedForm: bisected({ low: 1, high: 200, isPast: (voltage) => share(voltage) > 1, within: 1e-6 }) };
}

/** Where something that holds above a value begins to hold. */
export function bisected({
  low,
  high,
  isPast,
  within,
}: {
  low: number;
  high: number;
  isPast: (value: number) => boolean;
  within: number;
}): number {
  while (high / low > 1 + within) {
    const middle = Math.sqrt(low * high);
    if (isPast(middle)) high = middle;
    else low = middle;
  }
  return Math.sqrt(low * high);
}

/** Where the time domain has it latch, to 0.5 %: the lowest voltage, from 0.6 times the closed form's in steps of 10 %; undefined where it does not start there. */
export function latchVoltage({ starts, closedForm }: Latching): number | undefined {
  let low = 0.6 * closedForm;
  if (starts(low) !== 'runs') return undefined;
  while (starts(low * 1.1) === 'runs') {
    low *= 1.1;
    if (low > 3 * closedForm) return Infinity;
  }
  return bisected({ low, high: low * 1.1, isPast: (voltage) => starts(voltage) !== 'runs', within: 0.005 });
}
