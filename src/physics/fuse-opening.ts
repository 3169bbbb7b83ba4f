import type { Ratio, Second } from '../units/si.ts';
import { requirePositive } from './preconditions.ts';

/** Pre-arcing times of slow miniature fuses of more than 100 mA, by multiples of the rated current. */
const gates: readonly { readonly multiple: Ratio; readonly earliest: Second; readonly latest: Second }[] = [
  { multiple: 2.75, earliest: 0.6, latest: 10 },
  { multiple: 4, earliest: 0.15, latest: 3 },
  { multiple: 10, earliest: 0.02, latest: 0.3 },
];

/** Within which time a fuse opens. */
export interface FuseOpening {
  readonly earliest: Second;
  readonly latest: Second;
}

/**
 * Within which time a slow miniature fuse opens at a multiple of its rated current.
 *
 *     log t linear in log m between the gates; above ten times t ∝ m^−2, which is a constant I²t
 *
 * @param multiple  m, current over rated current, a ratio
 * @returns times in s; undefined below 2.75, where a fuse may take minutes or stay whole
 *
 * Valid for: slow (T) fuses of IEC 60127; an estimate for others.
 * Errors: RangeError where the multiple is not above zero.
 * Source: gates of IEC 60127-2, standard sheet 3, from memory
 *
 * @example fuseOpening({ multiple: 10 }) // { earliest: 0.02, latest: 0.3 }
 * @example fuseOpening({ multiple: 2 }) // undefined
 */
export function fuseOpening({ multiple: m }: { multiple: Ratio }): FuseOpening | undefined {
  requirePositive({ multiple: m });
  const [first, last] = [gates[0]!, gates.at(-1)!];
  if (m < first.multiple) return undefined;
  if (m >= last.multiple) {
    const less = (last.multiple / m) ** 2;
    return { earliest: last.earliest * less, latest: last.latest * less };
  }
  const above = gates.findIndex(({ multiple }) => multiple > m);
  const [a, b] = [gates[above - 1]!, gates[above]!];
  const share = Math.log(m / a.multiple) / Math.log(b.multiple / a.multiple);
  const between = (from: Second, to: Second): Second => from * (to / from) ** share;
  return { earliest: between(a.earliest, b.earliest), latest: between(a.latest, b.latest) };
}
