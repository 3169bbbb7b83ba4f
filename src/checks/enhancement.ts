import type { GateNetwork } from '../driver/gate-network.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** How far below the gate voltage of its on-resistance a gate may stay. */
const slack = 0.95;

/**
 * Why the stated on-resistance may be too low in this driver: the gate stays below the voltage it was measured at, or the part does
 * not say at which. Undefined where it holds.
 */
export function enhancementDoubt({ design, gate }: { design: Design; gate: GateNetwork }): string | undefined {
  const { mosfet } = design.switches;
  const measuredAt = mosfet.ratings.onResistance?.at?.['gateVoltage'];
  if (measuredAt === undefined) return `${mosfet.name} does not say at which gate voltage its onResistance holds (onResistanceAt)`;
  if (gate.high >= slack * measuredAt) return undefined;
  const volt = (value: number): string => formatQuantity({ value, dimension: 'voltage' });
  return `the gate reaches ${volt(gate.high)}, the onResistance of ${mosfet.name} is stated at ${volt(measuredAt)}`;
}
