import { rampStallTime, stepStallRatio } from '../physics/start-stall.ts';
import type { Design } from '../project/design.ts';
import type { Henry, Second, Volt } from '../units/si.ts';
import { isKnown, type Unknown } from './known.ts';
import type { OperatingPoint } from './operating-point.ts';
import type { Start } from './start.ts';
import { switchModelOf } from './switch-model.ts';

/** Stalls were seen from 0.8 up with the switch's own K; a data sheet's K is a minimum and is taken to be up to 1.5 times higher. */
const stallFrom = 0.8 / Math.sqrt(1.5);
const steepest = 1.5;

const possible: Unknown = {
  unknown:
    'a one-sided start is possible: one switch may hold on while the chokes charge through the coil, and let go at up to three times the computed peak; ' +
    'larger chokes, a smaller coil inductance or a slower rail with the gates on their own rail avoid it',
};

/**
 * Shortest rise of the rail, with the gates on their own rail, from which a one-sided start is not expected.
 *
 * @returns s; undefined where the switch's K is unknown or nothing oscillates; 0 for one choke into the centre tap
 */
export function shortestCleanRise({
  design,
  point: { tank },
  voltage,
  seenInductance,
}: {
  design: Design;
  point: OperatingPoint;
  voltage: Volt;
  seenInductance: Henry;
}): Second | undefined {
  if (design.chokes.arrangement !== 'two') return 0;
  const { channelConstant } = switchModelOf(design);
  if (!isKnown(channelConstant) || tank.frequency === undefined) return undefined;
  const { inductance: tankInductance, chokeInductance } = tank;
  const stall = steepest * rampStallTime({ voltage, tankInductance, chokeInductance, seenInductance, channelConstant });
  return Math.max(stall, 1 / tank.frequency);
}

/** Whether the start may stall with one switch on, so that the envelope from rest is no bound; undefined where it is one. */
export function startStall({
  design,
  point,
  start,
  voltage,
  seenInductance,
}: {
  design: Design;
  point: OperatingPoint;
  start: Start;
  voltage: Volt;
  seenInductance: Henry;
}): Unknown | undefined {
  const { tank } = point;
  if (design.chokes.arrangement !== 'two' || tank.frequency === undefined) return undefined;
  const { channelConstant } = switchModelOf(design);
  if (!isKnown(channelConstant)) return channelConstant;
  const { inductance: tankInductance, chokeInductance, quality } = tank;
  const period = 1 / tank.frequency;
  if (start.kind === 'ramp') {
    return start.riseTime < (shortestCleanRise({ design, point, voltage, seenInductance }) ?? Infinity) ? possible : undefined;
  }
  const ratio = stepStallRatio({ voltage, tankInductance, chokeInductance, seenInductance, quality, period, channelConstant });
  return ratio > stallFrom ? possible : undefined;
}
