import { isKnown } from '../driver/known.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck, type Finding } from './check.ts';
import { measured, noLessThan, subjects, unassessed } from './words.ts';

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
    formula: 'P = ½·[(Vg − Vf)² + (Vg − Vhigh)²]/Rg; Vg²/Rg while the gates are held low before the start',
    source: 'Ohm’s law (check-values A-pullup-loss)',
    remedy: 'a resistor of higher power, or a gate rail of 12 to 15 V',
  },
  subject: subjects.pullUp,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { power } = design.gates.pullUp;
    if (power === undefined) return [unassessed({ unknown: 'gates.pullUp.power is not given', path: 'gates.pullUp' })];
    const { gate } = point;
    const finding = ({ value, moment, basis }: { value: number; moment?: string; basis: () => string }): Finding =>
      measured({
        value,
        rating: power,
        path,
        moment,
        basis: () => [
          `fed from ${formatQuantity({ value: gate.feed, dimension: 'voltage' })}, ${basis()}`,
          `rating ${formatQuantity({ value: power, dimension: 'power' })} (project)`,
        ],
        remedy: ({ warnAt }) =>
          `a resistor of ${noLessThan({ value: (value * power) / warnAt, dimension: 'power', digits: 2 })} or more${gate.feed > 15 ? ', or a gate rail of 12 V to 15 V' : ''}`,
      });
    // one gate then stays low, or high on its clamp
    const drop = isKnown(gate.diodeDrop) ? gate.diodeDrop : 0;
    const stopped = Math.max(gate.feed - drop, gate.feed - gate.high) ** 2 / design.gates.pullUp.resistance;
    return [
      finding({
        value: gate.pullUpPower,
        basis: () =>
          `gate high at ${formatQuantity({ value: gate.high, dimension: 'voltage' })} half of each period; ${formatQuantity({ value: stopped, dimension: 'power' })} without end if the oscillation stops`,
      }),
      ...(gate.heldPullUpPower === undefined
        ? []
        : [finding({ value: gate.heldPullUpPower, moment: 'while held', basis: () => 'the gate held low all the time before the start' })]),
    ];
  },
});
