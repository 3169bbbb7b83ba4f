import { coilOf } from '../driver/coil.ts';
import { isKnown } from '../driver/known.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, noLessThan, notOscillating, subjects, thickerWords, unassessed } from './words.ts';

const path = 'tank.coil';

export default defineCheck({
  id: 'coil-current-density',
  part: 'coil',
  title: 'current over the area of the conductor that carries it at this frequency',
  since: '0.2.0',
  dimension: 'currentDensity',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the effective current density of the coil, at the depth that the current reaches, with what cooling by air or by water stands.',
    why: 'At 100 kHz the current flows in the outer fifth of a millimetre: a thick wire is a thin tube.',
    formula: 'J = I·R′ac/ρ, R′ac of the conductor by itself',
    source: 'round wire and tube by Bessel functions (check-values C-round-table, C-tube-*); levels common practice, no source',
    remedy: 'a conductor of more circumference, litz wire, or water',
    others: 'water in a tube',
  },
  subject: subjects.coil,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { winding } = coilOf(design);
    const { densityPerAmpere } = point.coil;
    if (!isKnown(densityPerAmpere)) return [unassessed({ unknown: densityPerAmpere.unknown, path })];
    if (point.running === undefined) return [unassessed({ ...notOscillating, path })];
    const current = point.running.tankCurrentPeak / Math.SQRT2;
    const isWater = winding?.geometry.cooling === 'water';
    const outer = winding?.geometry.conductor.outerDiameter ?? 0;
    const value = current * densityPerAmpere;
    return [
      measured({
        value,
        other: isWater,
        path: 'tank.coil.conductor',
        basis: () => [
          `${formatQuantity({ value: current, dimension: 'current' })} rms in a conductor of ${formatQuantity({ value: outer, dimension: 'length' })}, cooled by ${isWater ? 'water' : 'air'}`,
        ],
        remedy: ({ warnAt }) =>
          `${thickerWords(winding?.geometry.conductor.shape)}: ${noLessThan({ value: value / warnAt, dimension: 'count', digits: 2 })} times what carries the current now; the inductance then changes too`,
      }),
    ];
  },
});
