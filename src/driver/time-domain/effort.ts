import type { Circuit } from './circuit.ts';
import type { Accuracy } from './solver.ts';

/** How exactly an event is followed. */
export interface Effort {
  /** Of the tank, at least. */
  readonly stepsPerPeriod: number;
  /** Error of a step, see Accuracy. */
  readonly tolerance: number;
  /** Steps at most. */
  readonly mostSteps: number;
}

export const usualEffort: Effort = { stepsPerPeriod: 70, tolerance: 1e-3, mostSteps: 150_000 };

/** Q up to which the steps of an effort will do. */
const usualQuality = 30;

/**
 * Tolerance and longest step for a circuit. What the method takes out of a swinging tank grows with the third power of the step, and weighs
 * the more the less the tank loses itself: at 70 steps a period and Q 30, 0.08 % of that, and the step is shorter at a higher Q to keep it there.
 */
export function accuracyOf({ circuit: { tank }, effort }: { circuit: Circuit; effort: Effort }): Accuracy {
  const { inductance, capacitance, coilResistance, load, loadAfter } = tank;
  const impedance = Math.sqrt(inductance / capacitance);
  const quality = 1 / (impedance / Math.max(load, loadAfter) + coilResistance / impedance);
  const steps = effort.stepsPerPeriod * Math.max(1, Math.cbrt(quality / usualQuality));
  return { tolerance: effort.tolerance, longestStep: (2 * Math.PI * Math.sqrt(inductance * capacitance)) / steps };
}
