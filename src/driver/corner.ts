import type { Design } from '../project/design.ts';
import { capacitorToleranceOf } from './capacitor-tolerance.ts';
import { coilOf } from './coil.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ratio } from '../units/si.ts';

/** One combination of tolerances. Each factor multiplies the nominal value. */
export interface Corner {
  readonly supply: Ratio;
  readonly coil: Ratio;
  readonly capacitor: Ratio;
  readonly choke: Ratio;
}

export const nominalCorner: Corner = { supply: 1, coil: 1, capacitor: 1, choke: 1 };

/** Every combination of the low and high ends of the tolerances that the design states; only the nominal one where it states none. */
export function cornersOf(design: Design): readonly Corner[] {
  const ends = (tolerance: Ratio | undefined): readonly Ratio[] => (tolerance ? [1 - tolerance, 1 + tolerance] : [1]);
  const { supply, chokes } = design;
  const corners: Corner[] = [];
  for (const s of ends(supply.tolerance))
    for (const coil of ends(coilOf(design).tolerance))
      for (const capacitor of ends(capacitorToleranceOf(design)))
        for (const choke of ends(chokes.choke.ratings.tolerance?.value)) corners.push({ supply: s, coil, capacitor, choke });
  return corners;
}

/**
 * The corner at which the choke current peaks most when a driver starts: all up that feeds or stores it, the choke down. A pair latches there
 * first, while the drains go highest with a small bank.
 */
export function strongestCorner(corners: readonly Corner[]): Corner {
  const strength = ({ supply, coil, capacitor, choke }: Corner): Ratio => (supply * coil * capacitor) / choke;
  return corners.reduce((a, b) => (strength(b) > strength(a) ? b : a));
}

/** Whether two corners are the same. */
export function isSameCorner(a: Corner, b: Corner): boolean {
  return cornerKeys.every((key) => a[key] === b[key]);
}

/** Every key of a corner. */
export const cornerKeys = Object.keys(nominalCorner) as readonly (keyof Corner)[];

/**
 * The tolerances of a corner in words; empty for the nominal one.
 *
 * @param corner  factors
 * @param keys    the tolerances to name; the others made no difference
 *
 * @example cornerName({ corner: { supply: 1.05, coil: 0.97, capacitor: 1, choke: 1 }, keys: cornerKeys }) // 'supply +5 %, coil −3 %'
 */
export function cornerName({ corner, keys }: { corner: Corner; keys: readonly (keyof Corner)[] }): string {
  const names: Record<keyof Corner, string> = { supply: 'supply', coil: 'coil', capacitor: 'bank', choke: 'choke' };
  return keys
    .filter((key) => corner[key] !== 1)
    .map((key) => `${names[key]} ${signedPercent(corner[key] - 1)}`)
    .join(', ');
}

function signedPercent(share: Ratio): string {
  return `${share < 0 ? '−' : '+'}${formatQuantity({ value: Math.abs(share), dimension: 'ratio' })}`;
}
