import type { Henry, Metre, Ratio } from '../units/si.ts';
import { loopField } from './magnetic-field.ts';
import { solveLinear } from './linear-equations.ts';
import type { Turn } from './mutual-inductance.ts';
import { circleMutualInductance } from './mutual-inductance.ts';
import { requirePositive } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/** Where the current of each turn settles when all of it flows in a thin skin, and what follows. */
export interface SurfaceCurrent {
  readonly inductance: Henry;
  /** Resistance over that of the same length of straight, lonely wire with thin skin; of all turns together. */
  readonly proximityRatio: Ratio;
}

/** Filaments within each turn that stand for its surface current, by number of turns, and their circle over the wire's. */
const filaments = (turns: number): number => (turns <= 24 ? 16 : 12);
const filamentCircle = 0.6;

/** Most turns that `surfaceCurrent` takes. */
export const mostSurfaceTurns = 48;

/** Largest thickness over spacing of turns at which its filaments are close enough. */
export const closestSurfaceTurns = 0.92;

interface Point {
  readonly radius: Metre;
  readonly height: Metre;
}

/** Points evenly round the section of a turn. */
function round({ turn, by, count }: { turn: Point; by: Metre; count: number }): readonly Point[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return { radius: turn.radius + by * Math.cos(angle), height: turn.height + by * Math.sin(angle) };
  });
}

/**
 * Inductance and proximity factor of turns in series whose current flows in a thin skin, exactly: the current settles so that no field enters the metal.
 *
 *     filaments q_k inside each turn with Σ q_k = 1;  Σ q_k·M(k, s) = Φ_i on every point s of turn i;  L = Σ Φ_i
 *     F = Σ ∮ H²·2πr ds / Σ R_i/a_i
 *
 * @param turns       on one axis, whole ones, radius and height in m, 1 to 48
 * @param wireRadius  a, outer, in m, above zero, the same for all
 * @returns L, in H, and F, a ratio, 1 or more
 *
 * Valid for: skin depth far below a; turns as closed circles, apart by a·2/0.92 or more between centres, mean radius above a. Measured against twice as
 * many filaments: L within 2e-4, F within 1e-3, up to 24 turns; L within 5e-4, F within 4e-3 beyond. Time grows with the cube of the turns: some 0.3 s at 24.
 * Errors: RangeError where turns are too many, too close, or reach the axis.
 * Source: method of auxiliary sources for a perfect conductor; limits are Maxwell's two circles and the thin loop (own derivation)
 *
 * @example surfaceCurrent({ turns: [{ radius: 1, height: 0 }], wireRadius: 0.01 }).inductance // 0.0000058858872163316634
 */
export function surfaceCurrent({ turns, wireRadius: a }: { turns: readonly Turn[]; wireRadius: Metre }): SurfaceCurrent {
  // inductance and resistance of a coil ask for the same, and so does every other bank that the coil is tried with
  const asked = [a, ...turns.flatMap(({ radius, height }) => [radius, height])].join(' ');
  const found = lately.get(asked) ?? solved({ turns, wireRadius: a });
  if (lately.size >= mostKept) lately.clear();
  lately.set(asked, found);
  return found;
}

/** Results by their arguments, a few at a time. */
const lately = new Map<string, SurfaceCurrent>();
const mostKept = 16;

function solved({ turns, wireRadius: a }: { turns: readonly Turn[]; wireRadius: Metre }): SurfaceCurrent {
  requirePositive({ 'wire radius': a, turns: turns.length });
  if (turns.length > mostSurfaceTurns) throw new RangeError(`${turns.length} turns are more than ${mostSurfaceTurns}`);
  requireApart({ turns, wireRadius: a });
  const count = filaments(turns.length);
  const sources = turns.flatMap((turn) => round({ turn, by: filamentCircle * a, count }));
  const surface = turns.flatMap((turn) => round({ turn, by: a, count }));
  const size = sources.length;
  // in units of µ0, so that no row outweighs another
  const matrix = surface.map((point, s) => [
    ...sources.map((source) => mutual(source, point)),
    ...turns.map((_, i) => (Math.floor(s / count) === i ? -1 : 0)),
  ]);
  for (let i = 0; i < turns.length; i++)
    matrix.push(Array.from({ length: size + turns.length }, (_, k) => (k < size && Math.floor(k / count) === i ? 1 : 0)));
  const solution = solveLinear({ matrix, right: [...surface.map(() => 0), ...turns.map(() => 1)] });
  const inductance = µ0 * solution.slice(size).reduce((sum, flux) => sum + flux, 0);
  let loss = 0;
  for (const turn of turns)
    for (const point of round({ turn, by: a, count: 2 * count })) loss += fieldSquared({ point, sources, solution }) * point.radius;
  const alone = turns.reduce((sum, { radius }) => sum + radius, 0) / (2 * Math.PI * a) ** 2;
  return { inductance, proximityRatio: loss / (2 * count) / alone };
}

function mutual(source: Point, point: Point): number {
  const distance = Math.abs(source.height - point.height);
  return circleMutualInductance({ firstRadius: source.radius, secondRadius: point.radius, distance }) / µ0;
}

function fieldSquared({ point, sources, solution }: { point: Point; sources: readonly Point[]; solution: readonly number[] }): number {
  let [radial, axial] = [0, 0];
  for (const [k, { radius, height }] of sources.entries()) {
    const field = loopField({ loop: { radius, position: height, current: solution[k]! / µ0 }, radius: point.radius, height: point.height });
    radial += field.radial;
    axial += field.axial;
  }
  return radial * radial + axial * axial;
}

function requireApart({ turns, wireRadius: a }: { turns: readonly Turn[]; wireRadius: Metre }): void {
  for (const [i, { radius, height }] of turns.entries()) {
    if (!(radius > a && radius < Infinity)) throw new RangeError(`a turn of radius ${radius} m and thickness ${2 * a} m reaches the axis`);
    for (const other of turns.slice(i + 1)) {
      const apart = Math.hypot(radius - other.radius, height - other.height);
      if (!(apart * closestSurfaceTurns >= 2 * a && apart < Infinity))
        throw new RangeError(`turns ${apart} m apart are too close for a thickness of ${2 * a} m`);
    }
  }
}
