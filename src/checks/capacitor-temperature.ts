import { isKnown } from '../driver/known.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import { currentShareFactor } from '../driver/bank-heat.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, noMoreThan, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'environment.ambient';

export default defineCheck({
  id: 'capacitor-temperature',
  part: 'bank',
  title: 'case temperature of the most loaded capacitor, against the part’s limit',
  since: '0.2.0',
  dimension: 'temperature',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Adds the rise by its own loss to the ambient temperature and compares the case of the most loaded capacitor with the part’s limit.',
    why: 'Polypropylene softens: above 85 °C its voltage must be derated, at 105 °C it ends, and the loss grows on the way.',
    formula: 'Tc = Ta + P·R_th',
    source: 'thermal Ohm’s law (check-values D-thermal); limit from the part',
    remedy: 'cooler air at the bank, or less loss in each capacitor',
    rated: 'the part’s own maxTemperature',
  },
  subject: subjects.capacitor,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { capacitor } = design.tank.bank;
    const { running } = point;
    const rating = capacitor.ratings.maxTemperature;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    if (rating === undefined) return [lacking({ part: capacitor.name, key: 'maxTemperature', path: 'tank.bank.part' })];
    if (!isKnown(running.bankRise)) return [unassessed({ unknown: running.bankRise.unknown, path: 'tank.bank.part' })];
    const ambient = design.environment.ambient ?? assumedAmbient;
    const rise = running.bankRise * currentShareFactor(design) ** 2;
    return [
      measured({
        value: ambient + rise,
        rating: rating.value,
        path,
        basis: () => [
          `${formatQuantity({ value: ambient, dimension: 'temperature' })} ambient and ${formatQuantity({ value: rise, dimension: 'temperatureRise' })} of its own; a hot coil near by adds to it`,
          ratedBasis({ what: 'case limit', rating, dimension: 'temperature' }),
        ],
        remedy: ({ warnAt, passingBank }) =>
          warnAt > ambient ? passingBank() : `air of ${noMoreThan({ value: warnAt - rise, dimension: 'temperature' })} or less at the bank`,
      }),
    ];
  },
});
