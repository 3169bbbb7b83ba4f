import type { Henry, HenryPerMetre, Metre, Ratio } from '../units/si.ts';
import type { InductanceEstimate } from './inductance-estimate.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/**
 * Inductance of a length of go-and-return pair of round wires.
 *
 *     L_skin = (µ0/π)·arcosh(D/2a);  L_uniform = (µ0/π)·[ln(D/a) + 1/4];  L' = L_skin + Y·(L_uniform − L_skin)
 *
 * @param spacing         D, between centres, in m, above 2a
 * @param wireRadius      a, in m, above zero
 * @param internalFactor  Y, a ratio: 0 high frequency, 1 direct current
 * @returns L', of both wires together, in H/m
 *
 * Valid for: a pair much longer than its spacing; both limits of Y are exact.
 * Errors: RangeError where an argument is out of range.
 * Source: Ramo, Whinnery & Van Duzer, from memory (check-values B-twowire)
 *
 * @example pairInductance({ spacing: 0.02, wireRadius: 2e-3, internalFactor: 0 }) // 9.16972667824e-7
 */
export function pairInductance({
  spacing: D,
  wireRadius: a,
  internalFactor: Y,
}: {
  spacing: Metre;
  wireRadius: Metre;
  internalFactor: Ratio;
}): HenryPerMetre {
  requirePositive({ spacing: D, 'wire radius': a });
  requireWithin({ named: { 'spacing over wire diameter': D / (2 * a) }, from: 1 });
  requireWithin({ named: { 'internal factor': Y }, from: 0, to: 1.01 });
  const skin = (µ0 / Math.PI) * Math.acosh(D / (2 * a));
  const uniform = (µ0 / Math.PI) * (Math.log(D / a) + 1 / 4);
  return skin + Y * (uniform - skin);
}

/**
 * Inductance of a straight round wire, as part of a circuit whose other parts are far away.
 *
 *     L = (µ0·l/2π)·[ln(2l/a) − 1 + Y/4]
 *
 * @param length          l, in m, above zero, at least 2a
 * @param wireRadius      a, in m, above zero
 * @param internalFactor  Y, a ratio: 0 high frequency, 1 direct current
 * @returns L, in H
 *
 * Valid for: l far above a; terms of a/l are left out: 1 % at l = 50a.
 * Errors: RangeError where an argument is out of range.
 * Source: E. B. Rosa, Bull. Bureau of Standards 4, 1908, from memory (check-values B-wire-*)
 *
 * @example straightWireInductance({ length: 0.1, wireRadius: 0.5e-3, internalFactor: 0 }) // 9.98292909422e-8
 */
export function straightWireInductance({
  length: l,
  wireRadius: a,
  internalFactor: Y,
}: {
  length: Metre;
  wireRadius: Metre;
  internalFactor: Ratio;
}): Henry {
  requirePositive({ length: l, 'wire radius': a });
  requireWithin({ named: { 'length over wire diameter': l / (2 * a) }, from: 1 });
  requireWithin({ named: { 'internal factor': Y }, from: 0, to: 1.01 });
  return ((µ0 * l) / (2 * Math.PI)) * (Math.log((2 * l) / a) - 1 + Y / 4);
}

/** Two leads side by side from the board to the coil. */
export interface Leads {
  /** Of each lead. */
  readonly length: Metre;
  /** Between centres. */
  readonly spacing: Metre;
  readonly wireRadius: Metre;
}

/**
 * Why leads cannot be laid as described.
 *
 * @param length      l, of each, in m
 * @param spacing     D, between centres, in m
 * @param wireRadius  a, in m
 * @returns a sentence, or undefined if they can be laid
 *
 * Valid for: two round wires side by side.
 * Source: geometry
 *
 * @example leadsProblem({ length: 0.1, spacing: 5e-3, wireRadius: 1e-3 }) // undefined
 * @example leadsProblem({ length: 0.1, spacing: 1e-3, wireRadius: 1e-3 }) // 'the leads overlap: they are thicker than their spacing'
 */
export function leadsProblem({ length: l, spacing: D, wireRadius: a }: Leads): string | undefined {
  if (!(l > 0 && l < Infinity)) return 'the length of the leads must be above zero';
  if (!(D > 0 && D < Infinity)) return 'the spacing of the leads must be above zero';
  if (!(a > 0 && a < Infinity)) return 'the thickness of the leads must be above zero';
  if (D < 2 * a) return 'the leads overlap: they are thicker than their spacing';
  return undefined;
}

/**
 * Inductance of two leads side by side with its error.
 *
 *     L = L'·l
 *
 * @param length          l, of each, in m
 * @param spacing         D, in m
 * @param wireRadius      a, in m
 * @param internalFactor  Y of the conductor at the frequency, a ratio from 0 to 1
 * @returns L, of both together, in H, with its error, or why not
 *
 * Valid for: leads at least twice as long as their spacing. The ends are left open: a part D/l of L, which is the error, with 1 % for uneven laying.
 * Errors: RangeError where the leads cannot be laid or Y is out of range.
 * Source: `pairInductance`; Rosa 1908 for the ends: L' is less by (µ0/π)·D/l
 *
 * @example leadsEstimate({ length: 0.1, spacing: 0.1, wireRadius: 1e-3, internalFactor: 0 }) // { outside: 'the leads are shorter than twice their spacing' }
 */
export function leadsEstimate(given: Leads & { internalFactor: Ratio }): InductanceEstimate {
  const problem = leadsProblem(given);
  if (problem !== undefined) throw new RangeError(problem);
  const { length: l, spacing: D } = given;
  if (l < 2 * D) return { outside: 'the leads are shorter than twice their spacing' };
  const perMetre = pairInductance(given);
  if (!(perMetre > 0)) return { outside: 'the leads touch: no field is left between them' };
  return { inductance: perMetre * l, error: 0.01 + (µ0 / Math.PI / perMetre) * (D / l) };
}
