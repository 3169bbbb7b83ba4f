import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { drawnCurrent } from './drawn-current.ts';
import { measured, noMoreThan, notOscillating, subjects, unassessed } from './words.ts';

const path = 'supply.resistance';

export default defineCheck({
  id: 'supply-sag',
  part: 'supply',
  title: 'fall of the rail in source and leads, as a share of the supply voltage',
  since: '0.2.0',
  dimension: 'ratio',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares what the running current loses in the resistance of source and leads with the supply voltage.',
    why: 'A rail that gives way under load pulls the gates down with it where they hang on it, and a sagging rail brings both switches on.',
    formula: 'share = I·rs/V',
    source: 'Ohm’s law; levels common practice, no source',
    remedy: 'thicker or shorter leads, a stiffer supply, or less load',
  },
  subject: subjects.supply,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { running } = point;
    const { resistance } = design.supply;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    if (resistance === undefined) return [unassessed({ unknown: 'supply.resistance is not given', path: 'supply' })];
    const { total } = drawnCurrent({ design, point, running });
    return [
      measured({
        value: (total * resistance) / running.supplyVoltage,
        path,
        basis: () => [
          `${formatQuantity({ value: total, dimension: 'current' })} through ${formatQuantity({ value: resistance, dimension: 'resistance' })}`,
        ],
        remedy: ({ warnAt }) =>
          `source and leads of ${noMoreThan({ value: (warnAt * running.supplyVoltage) / total, dimension: 'resistance', digits: 2 })} or less, or less load`,
      }),
    ];
  },
});
