import { seenChokeInductance } from '../physics/push-pull.ts';
import { junctionRise, junctionToCaseTime } from '../physics/transient-thermal.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Kelvin, Second, Volt } from '../units/si.ts';
import { assumedAmbient } from './ambient.ts';
import { isKnown, type Unknown } from './known.ts';
import { chokeResistanceOf } from './envelope-circuit.ts';
import type { OperatingPoint } from './operating-point.ts';
import { switchModelOf } from './switch-model.ts';

/** What becomes of a pair that stays on. */
export interface LatchedPair {
  /** When the junction passes its limit; undefined where its case must warm up first, or never does. */
  readonly tooHotAt: Second | undefined;
  /** Supply current then, or in the end. */
  readonly current: Ampere;
  /** When the supply comes to its current limit; undefined where it has none or never does. */
  readonly limitAt: Second | undefined;
  readonly junctionLimit: Kelvin;
}

/** Share of its inductance that a choke keeps past saturation. */
const leftOfSaturated = 0.2;
const times = { first: 1e-6, last: 1, ratio: 1.05 } as const;

/**
 * The course of a pair whose switches both stay on: the supply across the chokes, each switch carrying half the current at the drain
 * voltage that keeps the other's gate up.
 *
 *     Le·I′ = V − I·r − Vds,  Vds = max(I/2·Ron, Vth − Vf + √(I/K)),  P = Vds·I/2
 *
 * @param design  the project
 * @param point   load and corner; its junction temperature is where it begins
 * @param from    I at the beginning, in A
 * @returns times from the beginning; unknown where a rating is missing
 *
 * Valid for: an estimate within a factor of two or three; see junctionRise.
 */
export function latchedPair({ design, point, from }: { design: Design; point: OperatingPoint; from: Ampere }): LatchedPair | Unknown {
  const { supply, chokes, switches } = design;
  const model = switchModelOf(design);
  const start = point.running?.electricalJunction ?? assumedAmbient;
  const [on, threshold, constant] = [model.onResistance(start), model.thresholdTypical(start), model.channelConstant];
  const [toCase, limit] = [switches.mosfet.ratings.junctionToCase?.value, switches.mosfet.ratings.junctionTemperature?.value];
  for (const value of [on, threshold, constant]) if (!isKnown(value)) return value;
  if (toCase === undefined || limit === undefined)
    return { unknown: `${switches.mosfet.name} gives no ${toCase === undefined ? 'junctionToCase' : 'junctionTemperature'}` };
  const drop = isKnown(point.gate.diodeDrop) ? point.gate.diodeDrop : 0.8;
  const drainVoltage = (current: Ampere): Volt =>
    Math.max((current / 2) * (on as number), (threshold as number) - drop + Math.sqrt(current / (constant as number)));
  const inductance = seenChokeInductance({ arrangement: chokes.arrangement, chokeInductance: point.tank.chokeInductance });
  const resistance = (supply.resistance ?? 0) + chokeResistanceOf(design);
  const saturation = (chokes.choke.ratings.saturationCurrent?.value ?? Infinity) * (chokes.arrangement === 'two' ? 2 : 1);
  const most = supply.currentLimit?.current ?? Infinity;
  const voltage = supply.voltage * point.corner.supply;
  const steps: { from: Second; loss: number }[] = [];
  let [current, before]: [Ampere, Second] = [Math.max(from, 0), 0];
  let limitAt: Second | undefined;
  for (let time: Second = times.first; time < times.last; time *= times.ratio) {
    const L = current < saturation ? inductance : leftOfSaturated * inductance;
    const step = time - before;
    const next = (current + (step * (voltage - drainVoltage(current))) / L) / (1 + (step * resistance) / L);
    if (next >= most) limitAt ??= time;
    current = Math.max(0, Math.min(next, most));
    steps.push({ from: before, loss: (drainVoltage(current) * current) / 2 / switches.parallel });
    before = time;
    const junction = start + junctionRise({ steps, time, junctionToCase: toCase, settling: junctionToCaseTime });
    if (junction > limit) return { tooHotAt: time, current, limitAt, junctionLimit: limit };
  }
  return { tooHotAt: undefined, current, limitAt, junctionLimit: limit };
}
