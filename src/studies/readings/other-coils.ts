import { coilOf } from '../../driver/coil.ts';
import { DesignError } from '../../driver/design-error.ts';
import type { Design } from '../../project/design.ts';
import type { Ratio } from '../../units/si.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import type { Fault } from './faults.ts';

/** Turns that are miscounted, and inductances of a coil whose turns are not known over the stated one. */
const miscounted = [-2, -1, 1, 2] as const;
const inductances: readonly Ratio[] = [0.7, 0.8, 0.88, 1.14, 1.25, 1.4];

/** Coils that are wound otherwise than the project says: by their turns where it tells them, else by their inductance. */
export function otherCoils(original: Design): readonly Fault[] {
  const { geometry } = original.tank.coil;
  if (geometry === undefined) {
    const { inductance } = coilOf(original);
    return inductances.map((factor): Fault => ({
      id: 'other-coil',
      words: `a coil of ${formatQuantity({ value: factor * inductance, dimension: 'inductance' })}`,
      // L grows with the square of the turns, the length of the wire with them
      change: scaledCoil({ inductance: factor, resistance: Math.sqrt(factor) }),
    }));
  }
  const { turns } = geometry;
  // a spiral of more turns may wind into its own middle, a bundle of more may not hold them
  const counts = miscounted.filter((more) => turns + more >= 1 && (more < 0 || geometry.shape === 'solenoid'));
  return counts.flatMap((more): readonly Fault[] => {
    const inductance = inductanceOver({ original, turns: turns + more });
    if (inductance === undefined) return [];
    const change = scaledCoil({ inductance, resistance: (turns + more) / turns });
    return [{ id: 'other-coil', words: `a coil of ${turns + more} turns in place of ${turns}`, change }];
  });
}

/** Inductance of the geometry with other turns over that with its own, as the formula has both; undefined where it has not. */
function inductanceOver({ original, turns }: { original: Design; turns: number }): Ratio | undefined {
  const { inductance: _measured, ...coil } = original.tank.coil;
  const withTurns = (count: number): number =>
    coilOf({ ...original, tank: { ...original.tank, coil: { ...coil, geometry: { ...coil.geometry!, turns: count } } } }).inductance;
  try {
    return withTurns(turns) / withTurns(coil.geometry!.turns);
  } catch (error) {
    if (error instanceof DesignError) return undefined;
    throw error;
  }
}

/** A design whose coil, given by its values, has so many times of them. */
export function scaledCoil(factors: { inductance: Ratio; resistance: Ratio }): Fault['change'] {
  return (design) => {
    const { coil } = design.tank;
    const { inductance, resistance } = coil;
    if (inductance === undefined || resistance === undefined) return design;
    const scaled = { inductance: factors.inductance * inductance, resistance: factors.resistance * resistance };
    return { ...design, tank: { ...design.tank, coil: { ...coil, ...scaled } } };
  };
}
