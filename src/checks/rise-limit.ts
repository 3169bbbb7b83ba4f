import type { Capacitor } from '../parts/part.ts';
import type { KelvinRise } from '../units/si.ts';

/** Rise that the policy's kelvins for polypropylene are written for. */
export const usualRise: KelvinRise = 10;

/** A polypropylene part's loss is judged up to half more than its own maxRise: the policy's 15 K for the usual 10 K. */
const toFail = 1.5;

/** Rise of its case by its own loss at which a capacitor fails; undefined where neither dielectric nor rating tells. */
export function failingRise(capacitor: Capacitor): KelvinRise | undefined {
  const rated = capacitor.ratings.maxRise?.value;
  if (capacitor.dielectric === 'polypropylene') return toFail * Math.min(usualRise, rated ?? usualRise);
  return rated;
}
