import type { Design } from '../project/design.ts';
import type { Ratio } from '../units/si.ts';

/** Of a film capacitor that does not state its own: ±20 %, letter M, the widest that is sold (IEC 60062, from memory; class). */
export const classCapacitorTolerance: Ratio = 0.2;

/** Tolerance of one capacitor of the bank. */
export function capacitorToleranceOf({ tank }: Pick<Design, 'tank'>): Ratio {
  return tank.bank.capacitor.ratings.tolerance?.value ?? classCapacitorTolerance;
}
