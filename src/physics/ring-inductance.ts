import type { Henry, Metre, Ratio } from '../units/si.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';

/**
 * Inductance of a circular loop of round wire or tube.
 *
 *     L_surface = µ0·R·[(1 + a²/4R²)·ln(8R/a) − 2];  L_uniform = µ0·R·[(1 + a²/8R²)·ln(8R/a) + a²/24R² − 7/4]
 *     L = L_surface + Y·(L_uniform − L_surface)
 *
 * @param meanRadius      R, of the loop to the middle of the wire, in m, above zero
 * @param wireRadius      a, outer, in m, above zero, below R
 * @param internalFactor  Y, a ratio: 0 with all current on the surface (high frequency, or a thin tube), 1 uniform over a solid wire
 * @returns L, in H
 *
 * Valid for: a closed loop; feed gap and leads come on top. With Y 0 the current is taken as even around the wire; true high-frequency current crowds to
 * the inner side and L is smaller: by 0.02 % at a/R 0.01, 0.2 % at 0.03, 1.6 % at 0.1, 6 % at 0.2, 13 % at 0.3 (own exact solution).
 * Errors: RangeError where an argument is out of range.
 * Source: Kirchhoff, Maxwell; Rayleigh & Niven and hollow ring in Rosa & Grover, Bull. Bureau of Standards 8, 1911, from memory
 * (check-values B-loop-*, B-maxwell-1865)
 *
 * @example ringInductance({ meanRadius: 0.1, wireRadius: 3e-3, internalFactor: 0 }) // 4.50787920147e-7
 * @example ringInductance({ meanRadius: 0.1, wireRadius: 3e-3, internalFactor: 1 }) // 4.82129588865e-7
 */
export function ringInductance({
  meanRadius: R,
  wireRadius: a,
  internalFactor: Y,
}: {
  meanRadius: Metre;
  wireRadius: Metre;
  internalFactor: Ratio;
}): Henry {
  requirePositive({ 'mean radius': R, 'wire radius': a });
  requireWithin({ named: { 'wire radius over mean radius': a / R }, from: 0, to: 1 });
  requireWithin({ named: { 'internal factor': Y }, from: 0, to: 1.01 });
  const x = (a / R) ** 2;
  const log = Math.log((8 * R) / a);
  const surface = µ0 * R * ((1 + x / 4) * log - 2);
  const uniform = µ0 * R * ((1 + x / 8) * log + x / 24 - 7 / 4);
  return surface + Y * (uniform - surface);
}
