import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, noLessThan, subjects } from './words.ts';

export default defineCheck({
  id: 'choke-ratio',
  part: 'chokes',
  title: 'choke inductance over coil inductance',
  since: '0.1.0',
  dimension: 'count',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Compares the inductance of one choke with that of the tank coil.',
    why: 'Small chokes send their ripple through switches and tank, and the driver may not start at all.',
    formula: 'Lc/L',
    source: 'common practice, no source; the closed forms were compared with the time domain from 20 up',
    remedy: 'chokes of more inductance at the same saturation current',
  },
  subject: subjects.choke,
  run: ({ instance: { point } }) => [
    measured({
      value: point.tank.chokeRatio,
      path: 'chokes',
      basis: () => [
        `${formatQuantity({ value: point.tank.chokeInductance, dimension: 'inductance' })} against a coil of ${formatQuantity({ value: point.tank.chokeInductance / point.tank.chokeRatio, dimension: 'inductance' })}`,
      ],
      remedy: ({ warnAt }) =>
        `chokes of ${noLessThan({ value: (point.tank.chokeInductance * warnAt) / point.tank.chokeRatio, dimension: 'inductance' })} or more`,
    }),
  ],
});
