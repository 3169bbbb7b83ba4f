import type { Ratio } from '../units/si.ts';
import type { InductanceEstimate } from './inductance-estimate.ts';
import type { Turn } from './mutual-inductance.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import type { Solenoid } from './solenoid-inductance.ts';
import { solenoidInductance } from './solenoid-inductance.ts';
import { blend, crowding, noCrowding, turnsInductance } from './turns-inductance.ts';

/** Turns beyond which the crowding of the current is taken from a solenoid of this many, which it hardly differs from. */
const enough = 24;

/** Steepest helix, pitch over mean radius, that closed circles stand for. */
const steepest = 0.6;

/**
 * Circles that stand for the turns of a solenoid.
 *
 * @param meanDiameter  D, to the middle of the wire, in m, above zero
 * @param pitch         in m, above zero
 * @param turns         N, above zero, up to 1000; the last circle stands for a part turn
 * @param wireRadius    not used; part of a solenoid
 * @returns the circles, radius and height in m, from the start of the winding up
 *
 * Valid for: pitch well below the diameter.
 * Errors: RangeError where an argument is out of range.
 * Source: geometry
 *
 * @example solenoidTurns({ meanDiameter: 2, pitch: 0.5, turns: 1.5, wireRadius: 0.1 }) // [{ radius: 1, height: 0.25, share: 1 }, { radius: 1, height: 0.625, share: 0.5 }]
 */
export function solenoidTurns({ meanDiameter: D, pitch, turns: N }: Solenoid): readonly Turn[] {
  requirePositive({ 'mean diameter': D, pitch, turns: N });
  requireWithin({ named: { turns: N }, from: 0, to: 1000 });
  return Array.from({ length: Math.ceil(N) }, (_, i) => {
    const share = Math.min(1, N - i);
    return { radius: D / 2, height: (i + share / 2) * pitch, share };
  });
}

/**
 * Why a solenoid cannot be wound as described.
 *
 * @param meanDiameter  D, in m
 * @param pitch         p, in m
 * @param turns         N
 * @param wireRadius    a, in m
 * @returns a sentence, or undefined if it can be wound
 *
 * Valid for: round wire or tube.
 * Source: geometry
 *
 * @example solenoidProblem({ meanDiameter: 0.06, pitch: 6e-3, turns: 10, wireRadius: 1e-3 }) // undefined
 * @example solenoidProblem({ meanDiameter: 0.06, pitch: 6e-3, turns: 10, wireRadius: 4e-3 }) // 'the turns overlap: the conductor is thicker than the pitch'
 */
export function solenoidProblem({ meanDiameter: D, pitch: p, turns: N, wireRadius: a }: Solenoid): string | undefined {
  if (!(D > 0 && D < Infinity)) return 'the diameter of the coil must be above zero';
  if (!(p > 0 && p < Infinity)) return 'the pitch must be above zero';
  if (!(N > 0 && N < Infinity)) return 'the number of turns must be above zero';
  if (!(a > 0 && a < Infinity)) return 'the thickness of the conductor must be above zero';
  if (2 * a > p && N > 1) return 'the turns overlap: the conductor is thicker than the pitch';
  if (2 * a >= D) return 'the conductor is thicker than the coil is wide: no opening is left';
  return undefined;
}

/**
 * Inductance of a solenoid of round wire or tube with its error.
 *
 *     up to 24 turns the sum of circles, beyond the current sheet with Rosa's corrections;
 *     L = L_even + Y·(L_uniform − L_even) − s·(L_even − L_skin)
 *
 * @param meanDiameter    D, to the middle of the wire, in m
 * @param pitch           p, in m
 * @param turns           N, 1 to 1000, part turns allowed
 * @param wireRadius      a, in m
 * @param internalFactor  Y of the conductor at the frequency, a ratio from 0 to 1
 * @param crowdingShare   s of the conductor at the frequency, a ratio from 0 (also litz wire) to 1
 * @returns L, in H, with its error, or why not
 *
 * Valid for: pitch up to 0.6 of the mean radius, wire up to 0.3 of it; leads come on top. The error contains: circles against a helix by Neumann integrals, at
 * most 0.3 % + 10 %·(2p/D)²; a part turn 1 %/N; what is open about crowding.
 * Errors: RangeError where the coil cannot be wound or Y or s is out of range.
 * Source: `surfaceCurrent`, `turnsInductance`, `solenoidInductance`
 *
 * @example solenoidEstimate({ meanDiameter: 0.06, pitch: 0.02, turns: 3, wireRadius: 1e-3, internalFactor: 0, crowdingShare: 1 }) // { outside: 'the pitch is more than 0.6 of the mean radius' }
 */
export function solenoidEstimate(given: Solenoid & { internalFactor: Ratio; crowdingShare: Ratio }): InductanceEstimate {
  const problem = solenoidProblem(given);
  if (problem !== undefined) throw new RangeError(problem);
  const { meanDiameter: D, pitch: p, turns: N, wireRadius, internalFactor, crowdingShare } = given;
  if (N < 1) return { outside: 'less than one turn' };
  if (N > 1000) return { outside: 'more than 1000 turns' };
  if (p > steepest * (D / 2)) return { outside: `the pitch is more than ${steepest} of the mean radius` };
  if (wireRadius > 0.3 * (D / 2)) return { outside: 'the conductor is thicker than 0.3 of the mean diameter' };
  const closed = N > enough;
  const at = (Y: Ratio): number =>
    closed
      ? solenoidInductance({ ...given, internalFactor: Y })
      : turnsInductance({ turns: solenoidTurns(given), wireRadius, internalFactor: Y });
  const turns = solenoidTurns({ ...given, turns: Math.min(enough, Math.ceil(N)) });
  const shapeError = 0.003 + 0.1 * ((2 * p) / D) ** 2 + (N % 1 === 0 ? 0 : 0.01 / N) + (closed ? 0.005 : 0);
  const known = crowdingShare > 0 ? crowding({ turns, wireRadius }) : noCrowding;
  return blend({ even: at(0), uniform: at(1), crowding: known, internalFactor, crowdingShare, shapeError });
}
