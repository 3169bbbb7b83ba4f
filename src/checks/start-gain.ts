import { isKnown } from '../driver/known.ts';
import { startConditions } from '../driver/start-conditions.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, noLessThan, subjects, unassessed } from './words.ts';

export default defineCheck({
  id: 'start-gain',
  part: 'oscillation',
  title: 'small-signal gain of the loop with both switches half on',
  since: '0.2.0',
  dimension: 'count',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Computes the gain of the cross-coupled pair at the point where both switches share the supply current.',
    why: 'Below 1 no oscillation grows out of that state: both switches stay half on and the supply stands across the chokes.',
    formula: 'gm·R/2, gm = √(2·K·I), I the running supply current',
    source: 'small-signal square-law MOSFET, any electronics text; levels common practice, no source',
    remedy: 'less load at the start, or a switch of higher transconductance',
  },
  subject: subjects.pair,
  run: ({ analysis: { design }, instance: { point } }) => {
    const path = `loads.${design.loads.indexOf(point.load)}`;
    const { gain } = startConditions({ design, point });
    if (!isKnown(gain)) return [unassessed({ unknown: gain.unknown, path })];
    return [
      measured({
        value: gain,
        path,
        basis: () => [
          `${formatQuantity({ value: point.tank.parallelResistance, dimension: 'resistance' })} across the tank, ${formatQuantity({ value: point.running?.supplyCurrent ?? 0, dimension: 'current' })} through the pair`,
        ],
        remedy: ({ warnAt }) =>
          `a load of ${noLessThan({ value: (point.tank.parallelResistance * warnAt) / gain, dimension: 'resistance', digits: 2 })} or more across the tank at the start`,
      }),
    ];
  },
});
