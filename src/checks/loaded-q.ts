import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, noLessThan, subjects } from './words.ts';

export default defineCheck({
  id: 'loaded-q',
  part: 'oscillation',
  title: 'quality of the loaded tank',
  since: '0.1.0',
  dimension: 'count',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Compares the quality factor of the tank with everything that loads it with what a driver needs to start and to keep running.',
    why: 'A heavily damped tank does not build up the swing that turns the switches over; below ½ it does not ring at all.',
    formula: 'Q = R·√(C/L), R all loss and load across the tank',
    source: 'any circuits text (check-values F-parallel, F-coil-r); levels common practice, no source',
    remedy: 'more capacitance with less inductance, weaker coupling, or start without the load',
  },
  subject: subjects.tank,
  run: ({ analysis: { design }, instance: { point } }) => [
    measured({
      value: point.tank.quality,
      path: `loads.${design.loads.indexOf(point.load)}`,
      basis: () => [
        `${formatQuantity({ value: point.tank.parallelResistance, dimension: 'resistance' })} across the tank, Z0 ${formatQuantity({ value: point.tank.impedance, dimension: 'resistance' })}`,
      ],
      remedy: ({ warnAt }) =>
        `a load of ${noLessThan({ value: point.tank.impedance * warnAt, dimension: 'resistance', digits: 2 })} or more across the tank, all loss included, or more capacitance with less inductance`,
    }),
  ],
});
