import { currentShareFactor } from '../driver/bank-heat.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

export default defineCheck({
  id: 'capacitor-current',
  part: 'bank',
  title: 'effective current of one capacitor, against its rating',
  since: '0.1.0',
  dimension: 'current',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the rms current of the most loaded capacitor of the bank with its rated rms current.',
    why: 'The whole circulating current, often ten to fifty times the supply current, flows through the bank; end contacts and leads fail by current density.',
    formula: 'I = Vt/(√2·Z0·n), times (1 + tolerance) for the largest of the set',
    source: 'textbook LC resonance (check-values A-tank); equal leads to each capacitor assumed',
    remedy: 'spread the same capacitance over more, smaller capacitors',
  },
  subject: subjects.capacitor,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { capacitor, parallel } = design.tank.bank;
    const path = 'tank.bank.parallel';
    if (point.running === undefined) return [unassessed({ ...notOscillating, path })];
    const rating = capacitor.ratings.currentRms;
    if (rating === undefined) return [lacking({ part: capacitor.name, key: 'currentRms', path: 'tank.bank.part' })];
    const factor = currentShareFactor(design);
    const value = point.running.currentPerCapacitor * factor;
    const { tankCurrentPeak, frequency } = point.running;
    return [
      measured({
        value,
        rating: rating.value,
        path,
        basis: () => [
          `circulating ${formatQuantity({ value: tankCurrentPeak / Math.SQRT2, dimension: 'current' })} at ${formatQuantity({ value: frequency, dimension: 'frequency' })} over ${parallel}, the largest capacitor ${formatQuantity({ value: factor - 1, dimension: 'ratio' })} above its share`,
          ratedBasis({ what: 'rms current', rating, dimension: 'current' }),
        ],
        remedy: ({ passingBank }) => passingBank(),
      }),
    ];
  },
});
