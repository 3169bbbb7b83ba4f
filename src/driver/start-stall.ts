import { rampStallTime, stepStallRatio } from '../physics/start-stall.ts';
import type { Design } from '../project/design.ts';
import type { Henry, Second, Volt } from '../units/si.ts';
import { isKnown } from './known.ts';
import type { OperatingPoint } from './operating-point.ts';
import { riseAtDriver } from './rail.ts';
import type { Start } from './start.ts';
import { statesTransconductance, switchModelOf } from './switch-model.ts';

/** Stalls were seen from 0.8 up with the switch's own K. */
const stallFrom = 0.8;

const possible =
  'a one-sided start is possible: one switch may hold on while the chokes charge through the coil, and let go at up to three times the computed peak; ' +
  'larger chokes, a smaller coil inductance or a slower rail with the gates on their own rail avoid it';

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
  const { channelConstantMost: channelConstant } = switchModelOf(design);
  if (!isKnown(channelConstant) || tank.frequency === undefined) return undefined;
  const { inductance: tankInductance, chokeInductance } = tank;
  const stall = rampStallTime({ voltage, tankInductance, chokeInductance, seenInductance, channelConstant });
  return Math.max(stall, 1 / tank.frequency);
}

/** Why the start may stall with one switch on, so that the envelope from rest is no bound; undefined where it is one. */
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
}): string | undefined {
  const { tank } = point;
  if (design.chokes.arrangement !== 'two' || tank.frequency === undefined) return undefined;
  const { channelConstantMost: channelConstant } = switchModelOf(design);
  if (!isKnown(channelConstant)) return channelConstant.unknown;
  const { inductance: tankInductance, chokeInductance, quality } = tank;
  const period = 1 / tank.frequency;
  const isPossible =
    start.kind === 'ramp'
      ? riseAtDriver(design) < (shortestCleanRise({ design, point, voltage, seenInductance }) ?? Infinity)
      : stepStallRatio({ voltage, tankInductance, chokeInductance, seenInductance, quality, period, channelConstant }) > stallFrom;
  if (!isPossible) return undefined;
  return statesTransconductance(design)
    ? possible
    : `${possible}; ${design.switches.mosfet.name} gives no transconductance, without which the worst is taken`;
}
