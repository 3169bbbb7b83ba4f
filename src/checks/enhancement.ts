import { isKnown } from '../driver/known.ts';
import type { OperatingPoint } from '../driver/operating-point.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** How far below the gate voltage of its on-resistance a gate may stay. */
const slack = 0.95;

/** Part of the tank's peak that the gates may need: the drains reach half of it within the first sixth of their half period. */
const swingShare = 0.5;

/**
 * Why the stated on-resistance may be too low in this driver: the gate stays below the voltage it was measured at, since its rail or
 * clamp ends there or since the cross diode ties it to a drain that swings too little, or the part does not say at which. Undefined
 * where it holds.
 */
export function enhancementDoubt({ design, point }: { design: Design; point: OperatingPoint }): string | undefined {
  const { mosfet } = design.switches;
  const { gate, running } = point;
  const measuredAt = mosfet.ratings.onResistance?.at?.['gateVoltage'];
  if (measuredAt === undefined) return `${mosfet.name} does not say at which gate voltage its onResistance holds (onResistanceAt)`;
  const volt = (value: number): string => formatQuantity({ value, dimension: 'voltage' });
  if (gate.lowestHigh < slack * measuredAt) {
    return `the gate reaches ${volt(gate.lowestHigh)}, the onResistance of ${mosfet.name} is stated at ${volt(measuredAt)}`;
  }
  if (running === undefined) return undefined;
  const drop = isKnown(gate.diodeDrop) ? gate.diodeDrop : 0;
  if (swingShare * running.tankPeak + drop >= slack * measuredAt) return undefined;
  return `the drains swing to ${volt(running.tankPeak)}, and each gate follows the other drain through its cross diode: too little for an onResistance stated at ${volt(measuredAt)}`;
}
