import { assumedAmbient } from './ambient.ts';
import type { OperatingPoint } from './operating-point.ts';
import type { Pair } from './time-domain/circuit-of.ts';

/** Difference of the thresholds that is taken as usual, and those that must not change an outcome. */
export const usualMismatch = 0.02;
export const mismatchRange = [0.005, 0.05] as const;

/** The pair that an event is run with: thresholds apart as usual, the stated strength, at the junction temperature of the running driver. */
export function usualPair({ running }: OperatingPoint): Pair {
  return { mismatch: usualMismatch, strength: 1, junction: running?.electricalJunction ?? assumedAmbient };
}
