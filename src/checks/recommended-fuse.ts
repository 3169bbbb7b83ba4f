import { fuseRating } from '../physics/fuse.ts';
import type { Ampere } from '../units/si.ts';

/** A fuse of one and a half times the current or the next one up, of the first series that has one; undefined where none has. */
export function recommendedFuse(current: Ampere): Ampere | undefined {
  if (!(current > 0)) return undefined;
  return (
    fuseRating({ runningCurrent: current, multiple: 1.5, series: 'miniature' }) ??
    fuseRating({ runningCurrent: current, multiple: 1.5, series: 'blade' })
  );
}
