import { isKnown } from '../driver/known.ts';
import { switchModelOf } from '../driver/switch-model.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, noLessThan, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'gates.crossDiode';

export default defineCheck({
  id: 'cross-diode-current',
  part: 'gates',
  title: 'mean forward current of a cross diode, against its rating',
  since: '0.2.0',
  dimension: 'current',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares the mean current of each cross diode, pull-up and gate charge, with its rated mean forward current.',
    why: 'While its switch is off the diode takes the whole pull-up current, and once a period the charge of the gate.',
    formula: 'I = ½·(Vg − Vf)/Rg + (Qg + Qrr)·f',
    source: 'Kirchhoff’s current law; rating from the part',
    remedy: 'a diode for more current, or a larger pull-up',
  },
  subject: subjects.crossDiode,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { crossDiode } = design.gates;
    const { running, gate } = point;
    const rating = crossDiode.ratings.averageCurrent;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    if (rating === undefined) return [lacking({ part: crossDiode.name, key: 'averageCurrent', path })];
    const { gateCharge, gateCapacitance } = switchModelOf(design);
    const charge = isKnown(gateCharge) ? gateCharge : isKnown(gateCapacitance) ? gateCapacitance * gate.high : undefined;
    if (charge === undefined) return [lacking({ part: design.switches.mosfet.name, key: 'gateCharge', path: 'switches.part' })];
    const pullUp = isKnown(gate.diodeCurrent) ? gate.diodeCurrent : gate.feed / design.gates.pullUp.resistance;
    const recovered = crossDiode.ratings.recoveryCharge?.value ?? 0;
    const value = pullUp / 2 + (charge + recovered) * running.frequency;
    return [
      measured({
        value,
        rating: rating.value,
        path,
        basis: () => [
          `half of a pull-up current of ${formatQuantity({ value: pullUp, dimension: 'current' })}, and ${formatQuantity({ value: charge, dimension: 'charge' })} each period`,
          ratedBasis({ what: 'mean current', rating, dimension: 'current' }),
        ],
        remedy: ({ warnAt }) =>
          `a fast diode rated ${noLessThan({ value: (value * rating.value) / warnAt, dimension: 'current' })} or more, or a larger pull-up`,
      }),
    ];
  },
});
