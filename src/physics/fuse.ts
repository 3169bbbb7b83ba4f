import type { Ampere, Ratio } from '../units/si.ts';
import { requirePositive } from './preconditions.ts';

/** Families of fuses by their rated currents: cartridge fuses of equipment, blade fuses of vehicles. */
export type FuseSeries = 'miniature' | 'blade';

const decades = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

/** Rated currents in A, ascending. */
const ratedCurrents: Readonly<Record<FuseSeries, readonly Ampere[]>> = {
  miniature: [0.032, 0.04, 0.05, 0.063, 0.08, ...decades.map((step) => step / 10), ...decades, 10],
  blade: [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40],
};

/**
 * Rated current of the fuse for a supply lead: the next one of a series at or above a multiple of the running current.
 *
 *     In = next rated current ≥ multiple·I
 *
 * @param runningCurrent  I, mean or rms in the lead, in A, above zero
 * @param multiple        a ratio, 1 or more; 1.25 to 1.5 keeps a fuse from ageing, slow blow where a start draws more
 * @param series          miniature (R10, 32 mA to 10 A) | blade (1 A to 40 A)
 * @returns In, in A; undefined where the series has none large enough
 *
 * Valid for: air near 23 °C, at which fuses are rated; warmer air takes a larger multiple. Whether the fuse clears a fault before the lead or a switch fails is another matter.
 * Errors: RangeError where the current is not above zero or the multiple below 1.
 * Source: rated currents of IEC 60127, R10, read in GOST IEC 60127-1, Table A.1, down to 315 mA, below from memory; blade fuses ISO 8820-3 from memory;
 *   the multiple is common practice, no source
 *
 * @example fuseRating({ runningCurrent: 4.5, multiple: 1.25, series: 'miniature' }) // 6.3
 * @example fuseRating({ runningCurrent: 50, multiple: 1.25, series: 'blade' }) // undefined
 */
export function fuseRating({
  runningCurrent: I,
  multiple,
  series,
}: {
  runningCurrent: Ampere;
  multiple: Ratio;
  series: FuseSeries;
}): Ampere | undefined {
  requirePositive({ runningCurrent: I, multiple });
  if (multiple < 1) throw new RangeError(`a fuse of ${multiple} times the running current opens`);
  const needed = multiple * I;
  return ratedCurrents[series].find((rated) => rated >= needed * (1 - 1e-9));
}
