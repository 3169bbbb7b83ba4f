import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, noMoreThan, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'gates.crossDiode';

export default defineCheck({
  id: 'cross-diode-recovery',
  part: 'gates',
  title: 'recovery time of the cross diode, as a share of the period',
  since: '0.1.0',
  dimension: 'ratio',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares the reverse recovery time of the cross diodes with the period of the tank.',
    why: 'Until it has recovered the diode couples the rising drain into the other gate: it over-drives the gate, heats the clamp and delays the turn-off.',
    formula: 'share = t_rr·f',
    source: 'common practice, no source; recovery time as JEDEC JESD282-B defines it (check-values E-trr-def, E-trr-classes)',
    remedy: 'an ultrafast diode, 75 ns or less',
  },
  subject: subjects.crossDiode,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { crossDiode } = design.gates;
    const rating = crossDiode.ratings.recoveryTime;
    if (point.running === undefined) return [unassessed({ ...notOscillating, path })];
    if (rating === undefined) return [lacking({ part: crossDiode.name, key: 'recoveryTime', path })];
    const { frequency } = point.running;
    return [
      measured({
        value: rating.value * frequency,
        path,
        basis: () => [
          ratedBasis({ what: 'recovery time', rating, dimension: 'time' }),
          `at ${formatQuantity({ value: frequency, dimension: 'frequency' })}`,
          ...(crossDiode.ratings.recoveryCharge === undefined
            ? []
            : [
                `${formatQuantity({ value: crossDiode.ratings.recoveryCharge.value, dimension: 'charge' })} recovered each period: ${formatQuantity({ value: crossDiode.ratings.recoveryCharge.value * frequency, dimension: 'current' })} out of the other gate`,
              ]),
        ],
        remedy: ({ warnAt }) =>
          `a diode that recovers in ${noMoreThan({ value: warnAt / frequency, dimension: 'time', digits: 2 })} or less`,
      }),
    ];
  },
});
