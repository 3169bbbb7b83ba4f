import type { Design } from '../project/design.ts';
import type { Second } from '../units/si.ts';
import type { Unknown } from './known.ts';

/** How the driver comes to life, as far as the closed form can tell. */
export type Start =
  /** Full rail at once: a live rail, or gates released on one. */
  | { readonly kind: 'step'; readonly why: string }
  /** Gates live on their own rail while the supply rises. */
  | { readonly kind: 'ramp'; readonly riseTime: Second; readonly why: string };

/**
 * How the project's driver starts.
 *
 * With the gates fed from a supply that rises over time, both gates hang half on while the rail climbs and the chokes charge; how
 * long that lasts the closed form cannot tell, so the start is unknown.
 */
export function startOf(design: Design): Start | Unknown {
  const { pullUp } = design.gates;
  const { riseTime } = design.supply;
  if (pullUp.hold) return { kind: 'step', why: 'gates released when the rail is up' };
  if (riseTime === 0) return { kind: 'step', why: 'switched onto a live rail' };
  if (pullUp.from !== 'supply') {
    if (riseTime === undefined)
      return { kind: 'step', why: 'no supply.riseTime given: a live rail is taken, the worst for gates on their own rail' };
    return { kind: 'ramp', riseTime, why: 'gates on their own rail, up before the supply' };
  }
  if (riseTime === undefined) return { unknown: 'no supply.riseTime given' };
  return {
    unknown:
      'gates fed from a rising supply: both switches may hang half on while the chokes charge, and the closed form cannot tell for how long',
  };
}
