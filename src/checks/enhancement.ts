import { isKnown } from '../driver/known.ts';
import type { OperatingPoint } from '../driver/operating-point.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Volt } from '../units/si.ts';

/** How far below the gate voltage of its on-resistance a gate may stay. */
const slack = 0.95;

/** Part of the tank's peak that the gates may need: the drains reach half of it within the first sixth of their half period. */
const swingShare = 0.5;

/**
 * Lowest voltage that a gate reaches early in its half period, and what ends it: clamp and rail, or the other drain, which the cross
 * diode ties it to.
 */
export function gateReach({ gate, running }: OperatingPoint): { value: Volt; why: () => string } {
  const volt = (value: number): string => formatQuantity({ value, dimension: 'voltage' });
  const drop = isKnown(gate.diodeDrop) ? gate.diodeDrop : 0;
  const followed = running === undefined ? Infinity : swingShare * running.tankPeak + drop;
  if (followed < gate.lowestHigh) {
    return {
      value: followed,
      why: () => `the drains swing to ${volt(running?.tankPeak ?? 0)}, and each gate follows the other drain through its cross diode`,
    };
  }
  return { value: gate.lowestHigh, why: () => `fed from ${volt(gate.feed)}, clamp at the bottom of its tolerance` };
}

/**
 * Why the stated on-resistance may be too low in this driver: the gate stays below the voltage it was measured at, or the part does
 * not say at which. Undefined where it holds.
 */
export function enhancementDoubt({ design, point }: { design: Design; point: OperatingPoint }): string | undefined {
  const { mosfet } = design.switches;
  const measuredAt = mosfet.ratings.onResistance?.at?.['gateVoltage'];
  if (measuredAt === undefined) return `${mosfet.name} does not say at which gate voltage its onResistance holds (onResistanceAt)`;
  const { value, why } = gateReach(point);
  if (value >= slack * measuredAt) return undefined;
  const volt = (number: number): string => formatQuantity({ value: number, dimension: 'voltage' });
  return `the gate reaches ${volt(value)} (${why()}), the onResistance of ${mosfet.name} is stated at ${volt(measuredAt)}`;
}
