import type { AmperePerMetre, Hertz, Metre, OhmMetre, Ratio } from '../units/si.ts';
import { besselRatio } from './bessel.ts';
import { loopField } from './magnetic-field.ts';
import type { Turn } from './mutual-inductance.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { closestSurfaceTurns, mostSurfaceTurns, surfaceCurrent } from './surface-current.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/** Orders of the neighbours' field over a turn that are summed: even field, gradient, … */
const orders = [1, 2, 3, 4, 5, 6] as const;

/** Thinnest wall, in skin depths, whose inner side carries so little that the tube counts as solid, within 1 %. */
const thickWall = 2.5;

/**
 * Loss of a round wire in a field across it, as a share of what that field would cost at thin skin, against the wire's own loss.
 *
 *     g_n = u²·(−Im w_n)/Re(1/2w_1),  w_n = I_n(z)/(z·I_(n−1)(z)),  z = (1 + j)·u;  P_n/P_own = 8π²·a²·g_n·(H_n/I)²
 *
 * @param order       n: 1 an even field, 2 a gradient, …
 * @param depthRatio  u = a/δ, a ratio, from 1e-100 to 1e8
 * @returns g_n, a ratio from 0 at direct current to 1 at thin skin
 *
 * Valid for: the stated range.
 * Errors: RangeError where an argument is out of range.
 * Source: round cylinder in a field of cos nθ, own derivation by the method of Smythe, Static and Dynamic Electricity
 *
 * @example transverseShare({ order: 1, depthRatio: 1e6 }) // 0.9999990000002519
 */
export function transverseShare({ order, depthRatio: u }: { order: number; depthRatio: Ratio }): Ratio {
  const own = besselRatio({ order: 1, depthRatio: u });
  const skin = own.re / (own.re ** 2 + own.im ** 2) / 2;
  return (u * u * -besselRatio({ order, depthRatio: u }).im) / skin;
}

/** Square of the even field over turn i for 1 A: of the other circles, and of its own curvature. */
function evenFieldSquared({ turns, index, wireRadius: a }: { turns: readonly Turn[]; index: number; wireRadius: Metre }): number {
  const { radius: R, height: h } = turns[index]!;
  let [radial, axial] = [0, Math.log((8 * R) / a) / (4 * Math.PI * R)];
  for (const { radius, height } of turns.filter((_, i) => i !== index)) {
    const field = loopField({ loop: { radius, position: height, current: 1 / µ0 }, radius: R, height: h });
    radial += field.radial;
    axial += field.axial;
  }
  return radial * radial + axial * axial;
}

/**
 * Field across the conductor of a coil from its own turns, for 1 A, root mean square over the length: what strands of litz wire lie in.
 *
 *     H² = Σ R_i·H_i²/Σ R_i,  H_i of the other circles and of the turn's own curvature, ln(8R/a)/(4π·R)
 *
 * @param turns       on one axis, radius and height in m, 1 or more
 * @param wireRadius  a, outer, of the wire or bundle, in m, above zero
 * @returns H, in (A/m)/A
 *
 * Valid for: conductors that do not push the field away: litz wire, or thin wire; the field even over the conductor.
 * Errors: RangeError where there are no turns, an argument is not above zero or two turns are the same circle.
 * Source: superposition of circles; curvature from the thin ring, on the high side
 *
 * @example ownField({ turns: [{ radius: 1, height: 0 }], wireRadius: 8 * Math.exp(-4 * Math.PI) }) // 1
 */
export function ownField({ turns, wireRadius }: { turns: readonly Turn[]; wireRadius: Metre }): AmperePerMetre {
  requirePositive({ turns: turns.length, 'wire radius': wireRadius });
  let [weighted, length] = [0, 0];
  for (const [index, { radius }] of turns.entries()) {
    weighted += radius * evenFieldSquared({ turns, index, wireRadius });
    length += radius;
  }
  return Math.sqrt(weighted / length);
}

/** Σ g_n·(H_n/I)² over turn i: even field, and gradients from neighbours taken as straight. */
function fieldTerms({
  turns,
  index,
  wireRadius: a,
  shares,
}: {
  turns: readonly Turn[];
  index: number;
  wireRadius: Metre;
  /** g_n, by order. */
  shares: readonly Ratio[];
}): number {
  const { radius: R, height: h } = turns[index]!;
  const others = turns.filter((_, i) => i !== index);
  let sum = shares[0]! * evenFieldSquared({ turns, index, wireRadius: a });
  for (const n of orders.slice(1)) {
    let [re, im] = [0, 0];
    for (const { radius, height } of others) {
      const size = (a / Math.hypot(radius - R, height - h)) ** n / (2 * Math.PI * a);
      const angle = -n * Math.atan2(height - h, radius - R);
      re += size * Math.cos(angle);
      im += size * Math.sin(angle);
    }
    sum += shares[n - 1]! * (re * re + im * im);
  }
  return sum;
}

/** Resistance of a coil over that of the same length of lonely conductor. */
export type ProximityRatio =
  | {
      /** By the distribution of the current at thin skin, faded to lower frequencies. */
      readonly likely: Ratio;
      /** Upper bound. */
      readonly most: Ratio;
    }
  | { readonly outside: string };

/**
 * How much the neighbouring turns raise the resistance of a coil of round wire or tube.
 *
 *     likely = 1 + (F − 1)·g_1;  most = min{F, max{likely, 1 + 8π²·a²·Σ R_i·Σ g_n·(H_n/I)²/Σ R_i}},  F at thin skin from `surfaceCurrent`
 *
 * @param turns        on one axis, radius and height in m, 1 to 48; part turns count as whole
 * @param wireRadius   a, outer, in m, above zero, the same for all
 * @param wall         t, of a tube, in m, above 0 and up to a; a for a solid wire
 * @param resistivity  ρ, in Ω·m, above zero
 * @param frequency    f, in Hz, above zero
 * @returns the ratio, likely and most, or why not; multiply by the resistance of the lonely conductor, never below 1
 *
 * Valid for: one layer of turns in a cylinder, plane or small pack; centres apart by 2a/0.92 or more; wall 2.5 skin depths or more. Against the exact solution of
 * rows of 2 to 20 straight wires, a/δ from 0.3 to 200, spacing down to 2a/0.92: `most` is not below it by more than 1e-5, and above it by at most 18 % from a/δ 20,
 * 33 % from 10, 58 % from 5, a factor of 2.1 near 2; `likely` is above it by as much and below it by at most 3 %. Both meet
 * F, which is exact within 1 %, at thin skin.
 * Errors: RangeError where an argument is out of range or turns reach the axis.
 * Source: own, from both limits: perfect conductor, and round cylinders in the field of the others (check-values C-strand-transverse)
 *
 * @example proximityRatio({ turns: [{ radius: 0.1, height: 0 }], wireRadius: 1e-3, wall: 1e-3, resistivity: 1 / 58e6, frequency: 1e-3 }).most // 1
 * @example proximityRatio({ turns: [{ radius: 0.1, height: 0 }], wireRadius: 3e-3, wall: 0.2e-3, resistivity: 1 / 58e6, frequency: 1e5 }) // { outside: 'the wall is thinner than 2.5 skin depths' }
 */
export function proximityRatio({
  turns,
  wireRadius: a,
  wall: t,
  resistivity: ρ,
  frequency: f,
}: {
  turns: readonly Turn[];
  wireRadius: Metre;
  wall: Metre;
  resistivity: OhmMetre;
  frequency: Hertz;
}): ProximityRatio {
  requirePositive({ turns: turns.length, 'wire radius': a, wall: t, resistivity: ρ, frequency: f });
  requireWithin({ named: { wall: t }, from: 0, to: a });
  const depthRatio = a * Math.sqrt((Math.PI * f * µ0) / ρ);
  if (t < a && (t / a) * depthRatio < thickWall) return { outside: `the wall is thinner than ${thickWall} skin depths` };
  if (turns.length > mostSurfaceTurns) return { outside: `more than ${mostSurfaceTurns} turns` };
  const close = turns.some(({ radius, height }, i) =>
    turns.slice(i + 1).some((other) => Math.hypot(radius - other.radius, height - other.height) * closestSurfaceTurns < 2 * a),
  );
  if (close) return { outside: 'turns closer than 8 % of their spacing' };
  const { proximityRatio: F } = surfaceCurrent({ turns, wireRadius: a });
  const shares = orders.map((order) => transverseShare({ order, depthRatio }));
  const likely = Math.max(1, 1 + (F - 1) * shares[0]!);
  let [weighted, length] = [0, 0];
  for (const [index, { radius }] of turns.entries()) {
    weighted += radius * fieldTerms({ turns, index, wireRadius: a, shares });
    length += radius;
  }
  return { likely, most: Math.min(Math.max(1, F), Math.max(likely, 1 + (8 * Math.PI ** 2 * a * a * weighted) / length)) };
}
