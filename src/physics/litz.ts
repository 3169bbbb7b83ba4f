import type { AmperePerMetre, Hertz, Metre, OhmMetre, OhmPerMetre, Ratio } from '../units/si.ts';
import { wireImpedance } from './conductor-resistance.ts';
import { requirePositive, requireWithin } from './preconditions.ts';
import { vacuumPermeability as µ0 } from './vacuum.ts';
import { transverseFieldLoss } from './winding-loss.ts';

/** Strands twisted so that each takes every place in the section in turn. */
export interface Litz {
  /** Of one strand's metal. */
  readonly strandRadius: Metre;
  readonly strands: number;
  /** Of the whole bundle of strands. */
  readonly bundleRadius: Metre;
}

/**
 * Why litz wire cannot be made as described.
 *
 * @param strandRadius  in m
 * @param strands       number of strands
 * @param bundleRadius  in m
 * @returns a sentence, or undefined if it can
 *
 * Valid for: round strands in a round section.
 * Source: geometry; round strands fill 90.7 % of a section at most
 *
 * @example litzProblem({ strandRadius: 50e-6, strands: 100, bundleRadius: 0.7e-3 }) // undefined
 * @example litzProblem({ strandRadius: 50e-6, strands: 100, bundleRadius: 0.5e-3 }) // 'the strands do not fit into the bundle'
 */
export function litzProblem({ strandRadius: a, strands: n, bundleRadius: b }: Litz): string | undefined {
  if (!(a > 0 && a < Infinity)) return 'the thickness of a strand must be above zero';
  if (!Number.isInteger(n) || n < 1) return 'the number of strands must be a whole number, 1 or more';
  if (!(b > 0 && b < Infinity)) return 'the thickness of the bundle must be above zero';
  if (a > b || (n > 1 && n * a * a > (Math.PI / (2 * Math.sqrt(3))) * b * b)) return 'the strands do not fit into the bundle';
  return undefined;
}

/**
 * Resistance of litz wire: skin effect in each strand, and its loss in the field of the other strands and of neighbouring turns.
 *
 *     R' = R'_strand/n + n·2P'(H)/I²,  H² = (I²/(8π²·b²))·(1 − 1/n) + H_ext²
 *
 * @param strandRadius  a, in m, above zero
 * @param strands       n, a whole number
 * @param bundleRadius  b, in m, above zero
 * @param externalField  H_ext, rms over the wire's length, for 1 A in the wire, in (A/m)/A, 0 for a lonely wire
 * @param resistivity   ρ, in Ω·m, above zero
 * @param frequency     f, in Hz, above zero
 * @returns R', in Ω/m, or why not
 *
 * Valid for: strand radius up to the skin depth; beyond, the strands push the field out of the bundle and the sum is too high. Perfect twisting: real litz wire
 * of several hundred strands bundled without care loses more. Length of the strands that the twist adds (2 to 10 %) not included.
 * Errors: RangeError where the strands do not fit or an argument is out of range.
 * Source: J. A. Ferreira, IEEE Trans. Power Electronics 9, 1994, from memory; mean square of the field I·r/(2π·b²) over a round section
 *
 * @example litzResistance({ strandRadius: 50e-6, strands: 1, bundleRadius: 50e-6, externalField: 0, resistivity: 1 / 58e6, frequency: 1e3 }) // { resistance: 2.1952406093573376 }
 */
export function litzResistance({
  strandRadius: a,
  strands: n,
  bundleRadius: b,
  externalField,
  resistivity,
  frequency,
}: Litz & {
  externalField: AmperePerMetre;
  resistivity: OhmMetre;
  frequency: Hertz;
}): { readonly resistance: OhmPerMetre } | { readonly outside: string } {
  const problem = litzProblem({ strandRadius: a, strands: n, bundleRadius: b });
  if (problem !== undefined) throw new RangeError(problem);
  requirePositive({ resistivity, frequency });
  requireWithin({ named: { 'external field': externalField }, from: 0 });
  if (a * Math.sqrt((Math.PI * frequency * µ0) / resistivity) > 1) return { outside: 'a strand is thicker than two skin depths' };
  const fieldSquared = (1 - 1 / n) / (8 * (Math.PI * b) ** 2) + externalField ** 2;
  // per 1 A of rms current; the loss takes the peak field
  const P = transverseFieldLoss({ wireRadius: a, fluxDensity: µ0 * Math.sqrt(2 * fieldSquared), resistivity, frequency });
  return { resistance: wireImpedance({ radius: a, resistivity, frequency }).resistance / n + n * P };
}

/**
 * Resistance of a winding of litz wire in a core's window over that to direct current.
 *
 *     F = 1 + (π·n·N)²·ω²·µ0²·d⁶·k/(768·ρ²·b²)
 *
 * @param strandRadius   d/2, in m, above zero
 * @param strands        n, 1 or more
 * @param turns          N, 1 or more
 * @param windowBreadth  b, along the layers, in m, above zero
 * @param fieldFactor    k, a ratio: 1 for a winding of one section in a window
 * @param resistivity    ρ, in Ω·m, above zero
 * @param frequency      f, in Hz, 0 or more
 * @returns F, a ratio
 *
 * Valid for: strands well below two skin depths thick; the closed window of a core, not coils in air.
 * Errors: RangeError where an argument is out of range.
 * Source: C. R. Sullivan, IEEE Trans. Power Electronics 14, 1999, from memory (check-values C-litz-sullivan)
 *
 * @example litzWindingRatio({ strandRadius: 50e-6, strands: 100, turns: 10, windowBreadth: 0.02, fieldFactor: 1, resistivity: 1 / 58e6, frequency: 100e3 }) // 1.06737735932
 */
export function litzWindingRatio({
  strandRadius,
  strands: n,
  turns: N,
  windowBreadth: b,
  fieldFactor: k,
  resistivity: ρ,
  frequency: f,
}: {
  strandRadius: Metre;
  strands: number;
  turns: number;
  windowBreadth: Metre;
  fieldFactor: Ratio;
  resistivity: OhmMetre;
  frequency: Hertz;
}): Ratio {
  requirePositive({ 'strand radius': strandRadius, 'window breadth': b, 'field factor': k, resistivity: ρ });
  requireWithin({ named: { strands: n, turns: N }, from: 1 });
  requireWithin({ named: { frequency: f }, from: 0 });
  const d = 2 * strandRadius;
  return 1 + ((Math.PI * n * N * 2 * Math.PI * f * µ0 * d ** 3) / (ρ * b)) ** 2 * (k / 768);
}
