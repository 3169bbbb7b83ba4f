import type { Design } from '../project/design.ts';
import type { Second } from '../units/si.ts';
import { coilOf } from './coil.ts';
import type { Unknown } from './known.ts';
import { riseAtDriver } from './rail.ts';

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
 * long that lasts the closed form cannot tell, so the start is unknown. Leads and a bulk capacitor make a rising rail of a live one.
 */
export function startOf(design: Design): Start | Unknown {
  const { pullUp } = design.gates;
  const { riseTime } = design.supply;
  if (pullUp.hold) return { kind: 'step', why: 'gates released when the rail is up' };
  const rise = riseAtDriver(design);
  if (pullUp.from !== 'supply') {
    const own = 'gates on their own rail, up before the supply';
    if (rise > 0 && riseTime !== undefined) return { kind: 'ramp', riseTime, why: own };
    if (rise > 0) return { kind: 'ramp', riseTime: 0, why: `${own}; no supply.riseTime given: plugged onto a live one` };
    if (riseTime === 0) return { kind: 'step', why: 'switched onto a live rail' };
    return { kind: 'step', why: 'no supply.riseTime given: a live rail is taken, the worst for gates on their own rail' };
  }
  if (riseTime === undefined) return { unknown: 'no supply.riseTime given' };
  if (riseTime === 0 && rise <= periodOf(design)) return { kind: 'step', why: 'switched onto a live rail' };
  const rising = riseTime > 0 ? 'gates fed from a rising supply' : 'gates fed from a rail that comes up through leads and bulk capacitor';
  return {
    unknown: `${rising}: both switches may hang half on while the chokes charge, and the closed form cannot tell for how long`,
  };
}

/** Nominal period of the tank. */
function periodOf(design: Design): Second {
  const { bank } = design.tank;
  const capacitance = ((bank.capacitor.ratings.capacitance?.value ?? 0) * bank.parallel) / bank.series;
  return 2 * Math.PI * Math.sqrt(coilOf(design).inductance * capacitance);
}
