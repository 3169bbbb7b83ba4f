import type { Metre, Radian, Tesla } from '../units/si.ts';
import { bracketedRoot } from './bracketed-root.ts';
import { coaxialLoopsField, type CurrentLoop } from './magnetic-field.ts';
import { vacuumPermeability } from './vacuum.ts';
import { finite, requireFinite, requirePositive } from './preconditions.ts';

/** Points of a ray that are looked at outside the sphere around the loops, and inside it. */
const pointsOutside = 96;
const pointsInside = 96;

/**
 * Distance along a ray from the middle of a coil beyond which its field stays within a level, found from outside: the outermost crossing.
 *
 *     |B(s)| ≤ level for every s beyond the distance
 *
 * @param loops        radius, position on the axis and current of each turn, in m, m and A; the middle of the coil is position 0
 * @param fluxDensity  the level, in T, above zero; rms if the currents are
 * @param direction    angle between axis and ray, in rad, from 0 (along the axis) over π/2 (in the plane of the loops) to π
 * @returns the distance from position 0 on the axis, in m; 0 where the field is nowhere on the ray above the level
 *
 * Valid for: thin wires in free space, as the field of a loop. A peak narrower than 1 % of the coil, off its wires, may be passed over.
 * Errors: RangeError where an argument breaks its bounds, or the distance is not finite.
 * Source: bracketed search inwards from where |B| ≤ μ0·Σ|I|·R/(2·(s − s0)²) guarantees the level, s0 the sphere around all loops
 *   (check-values G-dist-*)
 *
 * @example distanceToLevel({ loops: [{ radius: 0.1, position: 0, current: 50 }], fluxDensity: 27e-6, direction: 0 }) // 0.203342233255
 * @example distanceToLevel({ loops: [{ radius: 0.1, position: 0, current: 1 }], fluxDensity: 27e-6, direction: 0 }) // 0
 */
export function distanceToLevel({
  loops,
  fluxDensity,
  direction,
}: {
  loops: readonly CurrentLoop[];
  fluxDensity: Tesla;
  direction: Radian;
}): Metre {
  requirePositive({ fluxDensity });
  return outermostCrossing({ loops, fluxDensity, direction, atLeast: 0 });
}

/**
 * Distance from the middle of a coil beyond which its field stays within a level in every direction.
 *
 *     max over θ of the distance along the ray at θ
 *
 * @param loops        radius, position on the axis and current of each turn, in m, m and A; the middle of the coil is position 0
 * @param fluxDensity  the level, in T, above zero; rms if the currents are
 * @param directions   rays between the two ends of the axis, 2 or more; 37 (every 5°) if left out
 * @returns the distance from position 0 on the axis, in m, and the direction of the ray it was found on, in rad
 *
 * Valid for: as along one ray; the largest of the rays, at every 5° within 0.1 % of the largest of all directions.
 * Errors: RangeError where an argument breaks its bounds, or the distance is not finite.
 * Source: bracketed search along each ray; near a loop the worst direction is neither its axis nor its plane
 *
 * @example largestDistanceToLevel({ loops: [{ radius: 0.1, position: 0, current: 50 }], fluxDensity: 27e-6 }) // { distance: 0.206640429189797, direction: 0.872664625997165 }
 */
export function largestDistanceToLevel({
  loops,
  fluxDensity,
  directions = 37,
}: {
  loops: readonly CurrentLoop[];
  fluxDensity: Tesla;
  directions?: number;
}): { distance: Metre; direction: Radian } {
  requirePositive({ fluxDensity });
  if (!(Number.isInteger(directions) && directions >= 2)) throw new RangeError(`${directions} directions`);
  let found = { distance: 0, direction: 0 };
  for (let i = 0; i < directions; i++) {
    const direction = (Math.PI * i) / (directions - 1);
    const distance = outermostCrossing({ loops, fluxDensity, direction, atLeast: found.distance });
    if (distance > found.distance * (1 + 1e-9)) found = { distance, direction };
  }
  return found;
}

/** The outermost crossing beyond `atLeast`, or `atLeast` if there is none. */
function outermostCrossing({
  loops,
  fluxDensity,
  direction,
  atLeast,
}: {
  loops: readonly CurrentLoop[];
  fluxDensity: Tesla;
  direction: Radian;
  atLeast: Metre;
}): Metre {
  if (!(direction >= 0 && direction <= Math.PI)) throw new RangeError(`direction ${direction} is not from 0 to π`);
  let [sphere, strength] = [0, 0];
  for (const { radius, position, current } of loops) {
    requirePositive({ 'loop radius': radius });
    requireFinite({ 'loop position': position, current });
    sphere = Math.max(sphere, Math.hypot(radius, position));
    strength += Math.abs(current) * radius;
  }
  const reach = Math.sqrt((vacuumPermeability * strength) / (2 * fluxDensity));
  finite({ name: 'distance', value: sphere + reach });
  if (reach === 0) return atLeast;
  const excess = (s: Metre): number => Math.log(fieldOnRay({ loops, direction, distance: s }) / fluxDensity);
  let beyond = (sphere + reach) * (1 + 1e-9);
  for (const s of pointsInwards({ loops, sphere, reach, direction })) {
    if (s <= atLeast) break;
    if (excess(s) > 0) return bracketedRoot({ of: excess, from: s, to: beyond });
    beyond = s;
  }
  return excess(atLeast) > 0 ? bracketedRoot({ of: excess, from: atLeast, to: beyond }) : atLeast;
}

/** Points of a ray from outside to the middle: dense near the sphere, and where the ray passes each wire. */
function pointsInwards({
  loops,
  sphere,
  reach,
  direction,
}: {
  loops: readonly CurrentLoop[];
  sphere: Metre;
  reach: Metre;
  direction: Radian;
}): readonly Metre[] {
  const [sine, cosine] = [Math.sin(direction), Math.cos(direction)];
  const nearest = Math.min((1e-3 * sphere) / reach, 0.5);
  const outside = Array.from({ length: pointsOutside }, (_, i) => sphere + reach * nearest ** (i / (pointsOutside - 1)));
  const inside = Array.from({ length: pointsInside }, (_, i) => (sphere * i) / (pointsInside - 1));
  const passing = loops.map(({ radius, position }) => Math.max(0, radius * sine + position * cosine));
  return [...outside, ...inside, ...passing].toSorted((a, b) => b - a);
}

/** Magnitude of the field on a ray; infinite on a wire. */
function fieldOnRay({ loops, direction, distance: s }: { loops: readonly CurrentLoop[]; direction: Radian; distance: Metre }): Tesla {
  const [radius, height] = [s * Math.sin(direction), s * Math.cos(direction)];
  const onWire = loops.some((loop) => loop.current !== 0 && radius === loop.radius && height === loop.position);
  return onWire ? Infinity : coaxialLoopsField({ loops, radius, height }).magnitude;
}
