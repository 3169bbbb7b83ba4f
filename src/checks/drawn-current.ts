import { isKnown } from '../driver/known.ts';
import type { OperatingPoint, Running } from '../driver/operating-point.ts';
import type { Design } from '../project/design.ts';
import type { Ampere } from '../units/si.ts';

/** What the supply gives while running: the tank's share, the pull-ups that hang on it, and what the closed form's tank current leaves out. */
export interface DrawnCurrent {
  readonly pullUps: Ampere;
  /** Slow gates and leak. */
  readonly extra: Ampere;
  readonly total: Ampere;
}

/** The whole current from the supply with a load at a corner. */
export function drawnCurrent({
  design,
  point: { gate },
  running,
}: {
  design: Design;
  point: OperatingPoint;
  running: Running;
}): DrawnCurrent {
  const { from, resistance } = design.gates.pullUp;
  const low = isKnown(gate.diodeCurrent) ? gate.diodeCurrent : gate.feed / resistance;
  const pullUps = from === 'supply' ? low + Math.max(0, gate.feed - gate.high) / resistance : 0;
  const { losses, supplyVoltage } = running;
  const extra = losses === 'latched' || 'unknown' in losses ? 0 : (2 * (losses.slowGate + losses.leak)) / supplyVoltage;
  return { pullUps, extra, total: running.supplyCurrent + pullUps + extra };
}
