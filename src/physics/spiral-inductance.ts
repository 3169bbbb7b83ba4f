import type { Metre, Ratio } from '../units/si.ts';
import type { InductanceEstimate } from './inductance-estimate.ts';
import type { Turn } from './mutual-inductance.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { turnsEstimate } from './turns-inductance.ts';

/** A flat coil in one plane. */
export interface Spiral {
  /** Radius, to the middle of the wire, at which the innermost turn begins. */
  readonly innerRadius: Metre;
  /** Centre to centre of neighbouring turns. */
  readonly pitch: Metre;
  readonly turns: number;
  readonly wireRadius: Metre;
}

/**
 * Circles that stand for the turns of a flat spiral: each of the mean radius of its turn.
 *
 * @param innerRadius  r, to the middle of the wire where the winding begins, in m, above zero
 * @param pitch        in m, above zero
 * @param turns        N, above zero, up to 1000; the last circle stands for a part turn
 * @param wireRadius   not used; part of a spiral
 * @returns the circles, radius in m, height 0, from the inside out: r + p/2, r + 3p/2, …
 *
 * Valid for: pitch below the radius.
 * Errors: RangeError where an argument is out of range.
 * Source: geometry
 *
 * @example spiralTurns({ innerRadius: 1, pitch: 0.5, turns: 1.5, wireRadius: 0.1 }) // [{ radius: 1.25, height: 0, share: 1 }, { radius: 1.625, height: 0, share: 0.5 }]
 */
export function spiralTurns({ innerRadius, pitch, turns: N }: Spiral): readonly Turn[] {
  requirePositive({ 'inner radius': innerRadius, pitch, turns: N });
  requireWithin({ named: { turns: N }, from: 0, to: 1000 });
  return Array.from({ length: Math.ceil(N) }, (_, i) => {
    const share = Math.min(1, N - i);
    return { radius: innerRadius + (i + share / 2) * pitch, height: 0, share };
  });
}

/**
 * Why a flat spiral cannot be wound as described.
 *
 * @param innerRadius  r, in m
 * @param pitch        p, in m
 * @param turns        N
 * @param wireRadius   a, in m
 * @returns a sentence, or undefined if it can be wound
 *
 * Valid for: round wire or tube.
 * Source: geometry
 *
 * @example spiralProblem({ innerRadius: 0.03, pitch: 8e-3, turns: 5, wireRadius: 1e-3 }) // undefined
 * @example spiralProblem({ innerRadius: 0.03, pitch: 8e-3, turns: 5, wireRadius: 5e-3 }) // 'the turns overlap: the conductor is thicker than the pitch'
 */
export function spiralProblem({ innerRadius: r, pitch: p, turns: N, wireRadius: a }: Spiral): string | undefined {
  if (!(r > 0 && r < Infinity)) return 'the inner diameter of the coil must be above zero';
  if (!(p > 0 && p < Infinity)) return 'the pitch must be above zero';
  if (!(N > 0 && N < Infinity)) return 'the number of turns must be above zero';
  if (!(a > 0 && a < Infinity)) return 'the thickness of the conductor must be above zero';
  if (2 * a > p && N > 1) return 'the turns overlap: the conductor is thicker than the pitch';
  if (a > r) return 'the innermost turn overlaps itself: the conductor is thicker than the inner diameter';
  return undefined;
}

/**
 * Inductance of a flat spiral of round wire or tube with its error.
 *
 *     L = Σ L_i + Σ_i Σ_j≠i M_ij over circles, less the crowding of the current in a thin skin
 *
 * @param innerRadius     r, to the middle of the wire where the winding begins, in m
 * @param pitch           p, in m
 * @param turns           N, 1 to 48, part turns allowed
 * @param wireRadius      a, in m
 * @param internalFactor  Y of the conductor at the frequency, a ratio from 0 to 1
 * @param crowdingShare   s of the conductor at the frequency, a ratio from 0 (also litz wire) to 1
 * @returns L, in H, with its error, or why not
 *
 * Valid for: inner radius at least half the pitch; leads come on top. The error contains: circles against a spiral by Neumann integrals, at most
 * 0.5 % + 2 %·(p/(r + p/2))²; a part turn 1 %/N; what is open about crowding.
 * Errors: RangeError where the coil cannot be wound or Y or s is out of range.
 * Source: Maxwell's circles, `surfaceCurrent`, `turnsInductance`
 *
 * @example spiralEstimate({ innerRadius: 1e-3, pitch: 8e-3, turns: 5, wireRadius: 1e-3, internalFactor: 0, crowdingShare: 1 }) // { outside: 'the coil begins closer to its middle than half a pitch' }
 */
export function spiralEstimate(given: Spiral & { internalFactor: Ratio; crowdingShare: Ratio }): InductanceEstimate {
  const problem = spiralProblem(given);
  if (problem !== undefined) throw new RangeError(problem);
  const { innerRadius: r, pitch: p, turns: N, wireRadius, internalFactor, crowdingShare } = given;
  if (N < 1) return { outside: 'less than one turn' };
  if (N > 48) return { outside: 'more than 48 turns' };
  if (r < p / 2) return { outside: 'the coil begins closer to its middle than half a pitch' };
  const shapeError = 0.005 + 0.02 * (p / (r + p / 2)) ** 2 + (N % 1 === 0 ? 0 : 0.01 / N);
  return turnsEstimate({ turns: spiralTurns(given), wireRadius, internalFactor, crowdingShare, shapeError });
}
