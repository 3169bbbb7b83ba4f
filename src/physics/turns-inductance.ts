import type { Henry, Metre, Ratio } from '../units/si.ts';
import type { InductanceEstimate } from './inductance-estimate.ts';
import { ringInductance } from './ring-inductance.ts';
import type { Turn } from './mutual-inductance.ts';
import { circleMutualInductance } from './mutual-inductance.ts';
import { finite, requireWithin } from './preconditions.ts';
import { closestSurfaceTurns, mostSurfaceTurns, surfaceCurrent } from './surface-current.ts';

/** A turn that ends part way round has more self-inductance than its share squared; fitted to Neumann integrals of 3- and 6-turn helices. */
const partTurnPower = 4 / 3;

/**
 * Inductance of turns in series on one axis, each with its current even around the wire.
 *
 *     L = Σ L_i + Σ_i Σ_j≠i M_ij
 *
 * @param turns           radius and height in m; the share of a part turn from 0 to 1
 * @param wireRadius      a, outer, in m, above zero, the same for all
 * @param internalFactor  Y, a ratio: 0 with all current on the surface, 1 uniform over a solid wire
 * @returns L, in H
 *
 * Valid for: uniform current (direct current, litz). Where current flows in a thin skin it crowds away from neighbours and L is smaller by up to some
 * 10 % for common tube coils: `turnsEstimate`. Pitch neglected.
 * Errors: RangeError where an argument is out of range or two turns are the same circle.
 * Source: J. C. Maxwell, Treatise vol. 2, a coil as a set of circles (check-values B-rings-sol, B-spiral-*)
 *
 * @example turnsInductance({ turns: [{ radius: 0.1, height: 0 }], wireRadius: 3e-3, internalFactor: 0 }) // 4.50787920147e-7
 */
export function turnsInductance({
  turns,
  wireRadius,
  internalFactor,
}: {
  turns: readonly Turn[];
  wireRadius: Metre;
  internalFactor: Ratio;
}): Henry {
  let sum = 0;
  for (const [i, { radius, height, share = 1 }] of turns.entries()) {
    requireWithin({ named: { share }, from: 0, to: 1 });
    sum += share ** partTurnPower * ringInductance({ meanRadius: radius, wireRadius, internalFactor });
    for (const other of turns.slice(i + 1)) {
      const distance = Math.abs(height - other.height);
      const M = circleMutualInductance({ firstRadius: radius, secondRadius: other.radius, distance });
      sum += 2 * share * (other.share ?? 1) * M;
    }
  }
  return finite({ name: 'inductance', value: sum });
}

/** What `crowding` gives for litz wire and direct current. */
export const noCrowding = { ratio: 1, tooClose: false } as const;

/** Least distance between centres of turns. */
function leastApart(turns: readonly Turn[]): Metre {
  let least = Infinity;
  for (const [i, a] of turns.entries())
    for (const b of turns.slice(i + 1)) least = Math.min(least, Math.hypot(a.radius - b.radius, a.height - b.height));
  return least;
}

/**
 * How much smaller the inductance of turns is with the current in a thin skin, where it crowds away from the neighbours, than with it even around the wire.
 *
 *     c = L_skin/L_even
 *
 * @param turns       up to 48, radius and height in m; part turns are taken as whole
 * @param wireRadius  a, outer, in m, above zero
 * @returns c, a ratio up to 1, and whether the turns are too close for it, so that it is that of thinner wire
 *
 * Valid for: skin depth far below a.
 * Errors: RangeError where turns are more than 48 or reach the axis.
 * Source: `surfaceCurrent` over `turnsInductance`
 *
 * @example crowding({ turns: [{ radius: 1, height: 0 }, { radius: 1, height: 1 }], wireRadius: 1e-3 }).tooClose // false
 */
export function crowding({ turns, wireRadius }: { turns: readonly Turn[]; wireRadius: Metre }): { ratio: Ratio; tooClose: boolean } {
  const whole = turns.map(({ radius, height }) => ({ radius, height }));
  const widest = (leastApart(whole) * closestSurfaceTurns) / 2;
  const tooClose = wireRadius > widest;
  const a = tooClose ? widest * (1 - 1e-9) : wireRadius;
  const { inductance } = surfaceCurrent({ turns: whole, wireRadius: a });
  return { ratio: inductance / turnsInductance({ turns: whole, wireRadius: a, internalFactor: 0 }), tooClose };
}

/**
 * Inductance of turns in series on one axis with its error, the crowding of current taken into account.
 *
 *     L = L_even + Y·(L_uniform − L_even) − s·(1 − c)·L_even
 *
 * @param turns           radius and height in m; up to 48
 * @param wireRadius      a, outer, in m
 * @param internalFactor  Y of the conductor at the frequency, a ratio from 0 to 1
 * @param crowdingShare   s of the conductor at the frequency, a ratio from 0 (also litz wire) to 1
 * @param shapeError      what closed circles differ from the real shape, a ratio
 * @returns L, in H, with its error, or why not
 *
 * Valid for: any Y and s of one conductor; both limits are exact, between them the error is widened.
 * Errors: RangeError where an argument is out of range.
 * Source: `surfaceCurrent`, `turnsInductance`
 *
 * @example turnsEstimate({ turns: [{ radius: 0.1, height: 0 }], wireRadius: 1e-3, internalFactor: 1, crowdingShare: 0, shapeError: 0.01 }) // { inductance: 6.201126218407073e-7, error: 0.01 }
 */
export function turnsEstimate({
  turns,
  wireRadius,
  internalFactor,
  crowdingShare,
  shapeError,
}: {
  turns: readonly Turn[];
  wireRadius: Metre;
  internalFactor: Ratio;
  crowdingShare: Ratio;
  shapeError: Ratio;
}): InductanceEstimate {
  const even = turnsInductance({ turns, wireRadius, internalFactor: 0 });
  const uniform = turnsInductance({ turns, wireRadius, internalFactor: 1 });
  if (turns.length > mostSurfaceTurns && crowdingShare > 0) return { outside: `more than ${mostSurfaceTurns} turns` };
  const known = crowdingShare > 0 ? crowding({ turns, wireRadius }) : noCrowding;
  return blend({ even, uniform, crowding: known, internalFactor, crowdingShare, shapeError });
}

/**
 * Inductance of a coil whose current is partly crowded away from the neighbours and partly inside the metal, with its error.
 *
 *     L = L_even + Y·(L_uniform − L_even) − s·(1 − c)·L_even
 *
 * @param even            L_even, current on the surface, even around the wire, in H
 * @param uniform         L_uniform, in H
 * @param crowding        c, and whether the turns were too close for it
 * @param internalFactor  Y, a ratio from 0 to 1
 * @param crowdingShare   s, a ratio from 0 to 1
 * @param shapeError      error of the shape, a ratio
 * @returns L, in H, with its error
 *
 * Valid for: Y and s from 0 to 1; the error is widened by the part of the crowding that s leaves open, s·(1 − s) of it.
 * Errors: RangeError where Y or s is out of range.
 * Source: own, limits exact
 *
 * @example blend({ even: 1e-6, uniform: 1.1e-6, crowding: { ratio: 1, tooClose: false }, internalFactor: 0, crowdingShare: 1, shapeError: 0.01 }) // { inductance: 1e-6, error: 0.01 }
 */
export function blend({
  even,
  uniform,
  crowding: { ratio, tooClose },
  internalFactor: Y,
  crowdingShare: s,
  shapeError,
}: {
  even: Henry;
  uniform: Henry;
  crowding: { ratio: Ratio; tooClose: boolean };
  internalFactor: Ratio;
  crowdingShare: Ratio;
  shapeError: Ratio;
}): InductanceEstimate {
  requireWithin({ named: { 'internal factor': Y }, from: 0, to: 1.01 });
  requireWithin({ named: { 'crowding share': s }, from: 0, to: 1 });
  const lost = (1 - ratio) * even;
  const inductance = even + Y * (uniform - even) - s * lost;
  const open = (s * (1 - s) + (tooClose ? 0.6 * s : 0)) * Math.max(0, lost / inductance);
  const result = { inductance, error: shapeError + open };
  return tooClose ? { ...result, validNote: 'turns closer than 8 % of their spacing: crowding of the current is underestimated' } : result;
}
