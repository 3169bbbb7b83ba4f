import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { noLessThan, subjects, unassessed } from './words.ts';

const path = 'gates.pullUp.power';

export default defineCheck({
  id: 'pull-up-power',
  part: 'gates',
  title: 'mean power in a pull-up resistor, against its rating',
  since: '0.1.0',
  dimension: 'power',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares the mean power in each pull-up resistor with its rating.',
    why: 'The resistor feeds the clamp for half of each period and is tied to zero for the other half; above 24 V it burns up before anything else.',
    formula: 'P = ½·[(Vg − Vf)² + (Vg − Vhigh)²]/Rg',
    source: 'Ohm’s law (check-values A-pullup-loss)',
    remedy: 'a resistor of higher power, or a gate rail of 12 to 15 V',
  },
  subject: subjects.pullUp,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { power } = design.gates.pullUp;
    if (power === undefined) return [unassessed({ unknown: 'gates.pullUp.power is not given', path: 'gates.pullUp' })];
    const value = point.gate.pullUpPower;
    return [
      {
        kind: 'measured',
        value,
        rating: power,
        path,
        basis: () => [
          `fed from ${formatQuantity({ value: point.gate.feed, dimension: 'voltage' })}, gate high at ${formatQuantity({ value: point.gate.high, dimension: 'voltage' })}`,
          `rating ${formatQuantity({ value: power, dimension: 'power' })} (project)`,
        ],
        remedy: ({ warnAt }) =>
          `a resistor of ${noLessThan({ value: (value * power) / warnAt, dimension: 'power', digits: 2 })} or more, or a gate rail of 12 V to 15 V`,
      },
    ];
  },
});
