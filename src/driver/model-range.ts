import type { Ratio } from '../units/si.ts';
import type { Tank } from './tank.ts';

/** How far the closed forms hold for a tank. */
export type ModelRange =
  /** Confirmed in the time domain to 0.7 %. */
  | { readonly kind: 'inside' }
  /** Usable with an allowance on the value. */
  | { readonly kind: 'wide'; readonly note: string }
  /** Not a basis for a pass. */
  | { readonly kind: 'outside'; readonly note: string };

/** Loaded Q and choke ratio from which the closed forms were confirmed, and down to which they are used with an allowance. */
const confirmed = { quality: 5, chokeRatio: 20 } as const;
const usable = { quality: 2, chokeRatio: 10 } as const;

/** Added to running voltages and currents in the wide range: the largest error measured against the exact periodic solution. */
export const wideAllowance: Ratio = 0.05;

const inside: ModelRange = { kind: 'inside' };

/** Where a tank stands against the range of the closed forms. */
export function modelRangeOf({ quality, chokeRatio }: Pick<Tank, 'quality' | 'chokeRatio'>): ModelRange {
  if (quality >= confirmed.quality && chokeRatio >= confirmed.chokeRatio) return inside;
  const where = `loaded Q ${quality.toPrecision(3)}, choke ${chokeRatio.toPrecision(3)} times the coil`;
  if (quality >= usable.quality && chokeRatio >= usable.chokeRatio) {
    return {
      kind: 'wide',
      note: `${where}: outside the confirmed range (Q 5, choke 20 times)`,
    };
  }
  return { kind: 'outside', note: `${where}: outside the range of the closed form (Q 2, choke 10 times)` };
}
