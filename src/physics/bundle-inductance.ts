import type { Henry, Metre, Ratio } from '../units/si.ts';
import type { InductanceEstimate } from './inductance-estimate.ts';
import type { Turn } from './mutual-inductance.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { blend, crowding, noCrowding } from './turns-inductance.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/** Turns laid together in a ring of round section. */
export interface Bundle {
  /** Of the ring, to the middle of the bundle. */
  readonly meanRadius: Metre;
  /** Of the bundle's section. */
  readonly bundleRadius: Metre;
  readonly turns: number;
  readonly wireRadius: Metre;
}

/** Share of a section that round wires can fill. */
const densest = Math.PI / (2 * Math.sqrt(3));

/** Turns up to which the crowding of the current is calculated. */
const enough = 24;

/**
 * Geometric mean distance of a rectangle from itself.
 *
 *     ln g = ½·ln(b² + c²) − (x²·ln(1 + 1/x²) + ln(1 + x²)/x²)/12 + (2/3)·[x·atan(1/x) + atan(x)/x] − 25/12,  x = b/c
 *
 * @param height  b, in m, above zero
 * @param width   c, in m, above zero
 * @returns g, in m: 0.44705 of the side of a square
 *
 * Valid for: any rectangle whose sides differ by a factor below 1e3.
 * Errors: RangeError where a side is not above zero, or they differ more.
 * Source: J. C. Maxwell, Treatise vol. 2, art. 692, from memory (check-values B-gmd)
 *
 * @example rectangleMeanDistance({ height: 1, width: 1 }) // 0.447049155904
 */
export function rectangleMeanDistance({ height: b, width: c }: { height: Metre; width: Metre }): Metre {
  requirePositive({ height: b, width: c });
  const x = b / c;
  requireWithin({ named: { 'ratio of sides': x }, from: 1e-3, to: 1e3 });
  const squares = (x * x * Math.log1p(1 / (x * x)) + Math.log1p(x * x) / (x * x)) / 12;
  const angles = (2 / 3) * (x * Math.atan(1 / x) + Math.atan(x) / x);
  return Math.hypot(b, c) * Math.exp(angles - squares - 25 / 12);
}

/**
 * Inductance of turns laid together, of any section, from the geometric mean distance of the section.
 *
 *     L = µ0·N²·R·[ln(8R/g) − 2]
 *
 * @param meanRadius    R, of the ring, in m, above zero
 * @param meanDistance  g, of the section from itself, in m, above zero, below R: 0.7788 of the radius of a circle
 * @param turns         N, above zero
 * @returns L, in H
 *
 * Valid for: current uniform over the section, section well below R: 0.3 % low for a square of side R/5, 5 % low for one of 2R/3.
 * Errors: RangeError where an argument is out of range.
 * Source: Maxwell; Grover, Inductance Calculations, from memory (check-values B-bundle, B-rect-*, B-brooks)
 *
 * @example meanDistanceInductance({ meanRadius: 0.1, meanDistance: 5e-3 * Math.exp(-0.25), turns: 7 }) // 2.04748295945e-5
 */
export function meanDistanceInductance({
  meanRadius: R,
  meanDistance: g,
  turns: N,
}: {
  meanRadius: Metre;
  meanDistance: Metre;
  turns: number;
}): Henry {
  requirePositive({ 'mean radius': R, 'mean distance': g, turns: N });
  requireWithin({ named: { 'mean distance over mean radius': g / R }, from: 0, to: 1 });
  return µ0 * N * N * R * (Math.log((8 * R) / g) - 2);
}

/**
 * Inductance of turns of round wire laid together in a ring of round section.
 *
 *     L = µ0·R·{N²·[(1 + b²/8R²)·ln(8R/b) + b²/24R² − 7/4] + N·[ln(s/2a) − 0.1119 + Y/4]},  s = b·√(π/N)
 *
 * @param meanRadius      R, of the ring, in m, above zero
 * @param bundleRadius    b, in m, above zero, below R
 * @param turns           N, 1 or more
 * @param wireRadius      a, in m, above zero
 * @param internalFactor  Y, a ratio: 0 with all current on the surface of each wire, 1 uniform
 * @returns L, in H
 *
 * Valid for: turns spread evenly over the section, current even around each. Against circles in a hexagonal pack of 7 and 19: within 0.7 %.
 * Errors: RangeError where an argument is out of range.
 * Source: Rayleigh & Niven for the bundle; J. C. Maxwell, Treatise vol. 2, art. 693 for the wires, from memory (check-values B-bundle, B-gmd)
 *
 * @example bundleInductance({ meanRadius: 0.1, bundleRadius: 5e-3, turns: 7, wireRadius: 1e-3, internalFactor: 1 }) // 0.000021060315045014976
 */
export function bundleInductance({
  meanRadius: R,
  bundleRadius: b,
  turns: N,
  wireRadius: a,
  internalFactor: Y,
}: Bundle & { internalFactor: Ratio }): Henry {
  requirePositive({ 'mean radius': R, 'bundle radius': b, 'wire radius': a });
  requireWithin({ named: { turns: N }, from: 1 });
  requireWithin({ named: { 'bundle radius over mean radius': b / R }, from: 0, to: 1 });
  requireWithin({ named: { 'internal factor': Y }, from: 0, to: 1.01 });
  const x = (b / R) ** 2;
  const s = b * Math.sqrt(Math.PI / N);
  const wire = Math.log((2 * rectangleMeanDistance({ height: 1, width: 1 }) * s) / (2 * a)) + Y / 4;
  return µ0 * R * (N * N * ((1 + x / 8) * Math.log((8 * R) / b) + x / 24 - 7 / 4) + N * wire);
}

/**
 * Why turns cannot be laid together as described.
 *
 * @param meanRadius    R, in m
 * @param bundleRadius  b, in m
 * @param turns         N
 * @param wireRadius    a, in m
 * @returns a sentence, or undefined if they can
 *
 * Valid for: round wires in a round section.
 * Source: geometry; round wires fill 90.7 % of a section at most
 *
 * @example bundleProblem({ meanRadius: 0.1, bundleRadius: 5e-3, turns: 7, wireRadius: 1e-3 }) // undefined
 * @example bundleProblem({ meanRadius: 0.1, bundleRadius: 5e-3, turns: 30, wireRadius: 1e-3 }) // 'the turns overlap: they do not fit into the bundle'
 */
export function bundleProblem({ meanRadius: R, bundleRadius: b, turns: N, wireRadius: a }: Bundle): string | undefined {
  if (!(R > 0 && R < Infinity)) return 'the diameter of the ring must be above zero';
  if (!(b > 0 && b < Infinity)) return 'the thickness of the bundle must be above zero';
  if (!Number.isInteger(N) || N < 1) return 'the number of turns must be a whole number, 1 or more';
  if (!(a > 0 && a < Infinity)) return 'the thickness of the conductor must be above zero';
  if (a > b || (N > 1 && N * a * a > densest * b * b)) return 'the turns overlap: they do not fit into the bundle';
  if (b >= R) return 'the bundle is thicker than the ring is wide: no opening is left';
  return undefined;
}

/**
 * Circles that stand for the turns of a bundle, in a hexagonal pack that fills the section.
 *
 * @param meanRadius    R, of the ring, in m, above zero
 * @param bundleRadius  b, in m, above zero, below R
 * @param turns         N, a whole number, 1 to 100
 * @param wireRadius    not used; part of a bundle
 * @returns the circles, radius and height in m
 *
 * Valid for: turns that lie in order; real ones lie less evenly.
 * Errors: RangeError where an argument is out of range.
 * Source: geometry
 *
 * @example bundleTurns({ meanRadius: 0.1, bundleRadius: 5e-3, turns: 1, wireRadius: 1e-3 }) // [{ radius: 0.1, height: 0 }]
 */
export function bundleTurns({ meanRadius: R, bundleRadius: b, turns: N }: Bundle): readonly Turn[] {
  requirePositive({ 'mean radius': R, 'bundle radius': b });
  requireWithin({ named: { turns: N }, from: 1, to: 100 });
  const step = b * Math.sqrt(Math.PI / N) * Math.sqrt(2 / Math.sqrt(3));
  const span = Array.from({ length: 13 }, (_, i) => i - 6);
  const places = span.flatMap((i) => span.map((j) => ({ x: step * (i + j / 2), y: (step * j * Math.sqrt(3)) / 2 })));
  // a point off all axes, so that no two places tie
  const nearest = places.toSorted((p, q) => Math.hypot(p.x - 1e-4 * b, p.y - 2e-4 * b) - Math.hypot(q.x - 1e-4 * b, q.y - 2e-4 * b));
  const chosen = nearest.slice(0, N);
  const middle = chosen.reduce((sum, { x }) => sum + x, 0) / N;
  return chosen.map(({ x, y }) => ({ radius: R + (x - middle), height: y }));
}

/**
 * Inductance of turns laid together in a ring of round section, with its error.
 *
 *     L = L_even + Y·(L_uniform − L_even) − s·(L_even − L_skin)
 *
 * @param meanRadius      R, of the ring, in m
 * @param bundleRadius    b, in m
 * @param turns           N, a whole number
 * @param wireRadius      a, in m
 * @param internalFactor  Y of the conductor at the frequency, a ratio from 0 to 1
 * @param crowdingShare   s of the conductor at the frequency, a ratio from 0 (also litz wire) to 1
 * @returns L, in H, with its error, or why not
 *
 * Valid for: b up to R/3. The error contains 4 % for a section that is not round (3 % at twice as wide as high) and turns that lie unevenly, and what is open
 * about crowding: all of it beyond 24 turns.
 * Errors: RangeError where the turns do not fit or Y or s is out of range.
 * Source: `bundleInductance`, `surfaceCurrent` of a hexagonal pack
 *
 * @example bundleEstimate({ meanRadius: 0.1, bundleRadius: 0.05, turns: 7, wireRadius: 1e-3, internalFactor: 1, crowdingShare: 0 }) // { outside: 'the bundle is thicker than a third of the ring' }
 */
export function bundleEstimate(given: Bundle & { internalFactor: Ratio; crowdingShare: Ratio }): InductanceEstimate {
  const problem = bundleProblem(given);
  if (problem !== undefined) throw new RangeError(problem);
  const { meanRadius: R, bundleRadius: b, turns: N, wireRadius, internalFactor, crowdingShare: s } = given;
  if (b > R / 3) return { outside: 'the bundle is thicker than a third of the ring' };
  const [even, uniform] = [bundleInductance({ ...given, internalFactor: 0 }), bundleInductance({ ...given, internalFactor: 1 })];
  const part = { ...given, turns: Math.min(N, enough), bundleRadius: b * Math.sqrt(Math.min(1, enough / N)) };
  const known = s > 0 ? crowding({ turns: bundleTurns(part), wireRadius }) : noCrowding;
  const beyond = N > enough ? (1 - known.ratio) * s : 0;
  return blend({ even, uniform, crowding: known, internalFactor, crowdingShare: s, shapeError: 0.04 + beyond });
}
