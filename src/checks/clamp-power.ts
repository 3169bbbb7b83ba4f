import { assumedAmbient } from '../driver/ambient.ts';
import { isKnown, lacks } from '../driver/known.ts';
import type { Zener } from '../parts/part.ts';
import type { Kelvin, Watt } from '../units/si.ts';
import { preferredValue } from '../physics/preferred-values.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, noLessThan, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'gates.clamp';

export default defineCheck({
  id: 'clamp-power',
  part: 'gates',
  title: 'mean power in a gate clamp, against what it can lose in this air',
  since: '0.1.0',
  dimension: 'power',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares the mean power in each gate clamp with its rating, and with what its junction can lose at the ambient temperature on plain leads.',
    why: 'A clamp that burns open leaves the gate to the rail; one that burns short stops the driver with the other switch on.',
    formula: 'P = ½·Vz·max(0, (Vg − Vz)/Rg − Vz/Rpd), at the worst Vz of its tolerance; limit min(P_rated, (Tj,max − Ta)/R_th)',
    source: 'Ohm’s law; rating and thermal resistance from the part',
    remedy: 'a clamp of higher power, a larger pull-up, or a gate rail just above the clamp voltage',
    rated: 'what it can lose here',
  },
  subject: subjects.clamp,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { clamp } = design.gates;
    const { clampPower, feed } = point.gate;
    if (clamp === undefined || clampPower === undefined) return [];
    const rating = clamp.ratings.power;
    if (!isKnown(clampPower)) return [unassessed({ unknown: clampPower.unknown, path })];
    if (rating === undefined) return [lacking({ part: clamp.name, key: 'power', path })];
    const inAir = powerInAir({ clamp, ambient: design.environment.ambient ?? assumedAmbient });
    const notGiven = (['tolerance', 'junctionTemperature', 'junctionToAmbient'] as const).find((key) => clamp.ratings[key] === undefined);
    const missing = notGiven === undefined ? undefined : lacks({ part: clamp.name, key: notGiven }).unknown;
    if (inAir !== undefined && inAir <= 0) {
      const reason = 'the air is as warm as its junction may be';
      return [{ kind: 'hopeless', reason, path, remedy: () => 'cooler air, or a gate rail below the clamp voltage' }];
    }
    const limiting = inAir !== undefined && inAir < rating.value ? inAir : rating.value;
    return [
      measured({
        value: clampPower,
        rating: limiting,
        doubt: clampPower > 0 ? missing : undefined,
        path,
        basis: () => [
          `fed from ${formatQuantity({ value: feed, dimension: 'voltage' })} through ${formatQuantity({ value: design.gates.pullUp.resistance, dimension: 'resistance' })}`,
          `${formatQuantity({ value: 2 * clampPower, dimension: 'power' })} without end if the oscillation stops with this gate high`,
          ratedBasis({ what: 'rated', rating, dimension: 'power' }),
          ...(limiting < rating.value ? [`on plain leads at this ambient ${formatQuantity({ value: limiting, dimension: 'power' })}`] : []),
        ],
        remedy: ({ warnAt }) =>
          `a clamp that loses ${noLessThan({ value: (clampPower * limiting) / warnAt, dimension: 'power', digits: 2 })} or more in this air, ` +
          `a pull-up of ${formatQuantity({ value: preferredValue({ value: (design.gates.pullUp.resistance * clampPower) / warnAt, side: 'above' }), dimension: 'resistance' })} or more, or a gate rail just above the clamp voltage`,
      }),
    ];
  },
});

/** What the junction can lose without a heatsink; undefined where the part does not tell. */
function powerInAir({ clamp, ambient }: { clamp: Zener; ambient: Kelvin }): Watt | undefined {
  const { junctionTemperature, junctionToAmbient } = clamp.ratings;
  if (junctionTemperature === undefined || junctionToAmbient === undefined) return undefined;
  return Math.max(0, junctionTemperature.value - ambient) / junctionToAmbient.value;
}
