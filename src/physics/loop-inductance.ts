import type { Metre, Ratio } from '../units/si.ts';
import type { InductanceEstimate } from './inductance-estimate.ts';
import { turnsEstimate } from './turns-inductance.ts';

/**
 * Why a circular loop cannot be built as described.
 *
 * @param meanRadius  R, in m
 * @param wireRadius  a, in m
 * @returns a sentence, or undefined if it can be built
 *
 * Valid for: round wire or tube.
 * Source: geometry
 *
 * @example loopProblem({ meanRadius: 0.1, wireRadius: 3e-3 }) // undefined
 * @example loopProblem({ meanRadius: 2e-3, wireRadius: 3e-3 }) // 'the conductor is thicker than the loop is wide: no opening is left'
 */
export function loopProblem({ meanRadius: R, wireRadius: a }: { meanRadius: Metre; wireRadius: Metre }): string | undefined {
  if (!(R > 0 && R < Infinity)) return 'the diameter of the loop must be above zero';
  if (!(a > 0 && a < Infinity)) return 'the thickness of the conductor must be above zero';
  if (a >= R) return 'the conductor is thicker than the loop is wide: no opening is left';
  return undefined;
}

/**
 * Inductance of a circular loop with its error.
 *
 *     L = L_even + Y·(L_uniform − L_even) − s·(L_even − L_skin)
 *
 * @param meanRadius      R, in m
 * @param wireRadius      a, in m
 * @param internalFactor  Y of the conductor at the frequency, a ratio from 0 to 1
 * @param crowdingShare   s of the conductor at the frequency, a ratio from 0 (also litz wire) to 1
 * @returns L, in H, with its error, or why not
 *
 * Valid for: a/R up to 0.5; a loop closed but for a narrow gap. L_skin, with the current crowded to the inner side, is exact.
 * Errors: RangeError where the loop cannot be built or Y or s is out of range.
 * Source: `surfaceCurrent`, `ringInductance`
 *
 * @example loopEstimate({ meanRadius: 0.1, wireRadius: 60e-3, internalFactor: 0, crowdingShare: 1 }) // { outside: 'the conductor is thicker than half the mean diameter of the loop' }
 */
export function loopEstimate(given: {
  meanRadius: Metre;
  wireRadius: Metre;
  internalFactor: Ratio;
  crowdingShare: Ratio;
}): InductanceEstimate {
  const { meanRadius: R, wireRadius: a } = given;
  const problem = loopProblem(given);
  if (problem !== undefined) throw new RangeError(problem);
  if (a > 0.5 * R) return { outside: 'the conductor is thicker than half the mean diameter of the loop' };
  const { internalFactor, crowdingShare } = given;
  return turnsEstimate({ turns: [{ radius: R, height: 0 }], wireRadius: a, internalFactor, crowdingShare, shapeError: 0.003 });
}
