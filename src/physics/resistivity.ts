import type { Kelvin, OhmMetre, PerKelvin } from '../units/si.ts';
import { requireWithin } from './preconditions.ts';

/** Conductors that coils are wound of. */
export type ConductorMaterial = 'copper' | 'phosphorus copper' | 'aluminium' | 'brass' | 'silver';

interface Conduction {
  /** ρ20, at 20 °C. */
  readonly resistivity: OhmMetre;
  /** α20, of ρ20. */
  readonly coefficient: PerKelvin;
  readonly source: string;
}

/** Resistivity at 20 °C and its temperature coefficient, each with where it comes from. */
export const conductors: Readonly<Record<ConductorMaterial, Conduction>> = {
  copper: { resistivity: 1 / 58e6, coefficient: 0.00393, source: 'IEC 60028:1925, annealed copper (check-values C-iacs)' },
  'phosphorus copper': {
    resistivity: 1 / (0.85 * 58e6),
    coefficient: 0.0033,
    source: 'CW024A, Cu-DHP, water and refrigeration tube: 85 % IACS, from memory (makers state 75 to 90 %)',
  },
  aluminium: { resistivity: 2.8264e-8, coefficient: 0.00403, source: 'IEC 60889:1987, hard-drawn aluminium wire, from memory' },
  brass: { resistivity: 6.4e-8, coefficient: 0.0015, source: 'CuZn37, CW508L: 27 % IACS, from memory (makers state 25 to 28 %)' },
  silver: { resistivity: 1.59e-8, coefficient: 0.0038, source: 'CRC Handbook of Chemistry and Physics, pure silver, from memory' },
};

/**
 * Resistivity of a conductor at a temperature.
 *
 *     ρ = ρ20·(1 + α20·(T − 293.15 K))
 *
 * @param material     copper | phosphorus copper | aluminium | brass | silver
 * @param temperature  T, in K, 200 to 600
 * @returns ρ, in Ω·m
 *
 * Valid for: annealed or drawn metal of the stated grade; the straight line holds within 1 % from 250 K to 450 K. Of a tube or rod whose alloy is not
 * known, the resistivity is uncertain by far more: 1.72 to 2.3 Ω·m·1e-8 for what is sold as copper tube.
 * Errors: RangeError where the temperature is outside 200 to 600 K.
 * Source: IEC 60028 and the sources named in `conductors` (check-values C-iacs, C-tempco)
 *
 * @example resistivityOf({ material: 'copper', temperature: 293.15 }) // 1.7241379310344828e-8
 * @example resistivityOf({ material: 'copper', temperature: 373.15 }) // 2.2662068965517241e-8
 */
export function resistivityOf({ material, temperature: T }: { material: ConductorMaterial; temperature: Kelvin }): OhmMetre {
  requireWithin({ named: { temperature: T }, from: 200, to: 600 });
  const { resistivity, coefficient } = conductors[material];
  return resistivity * (1 + coefficient * (T - 293.15));
}
