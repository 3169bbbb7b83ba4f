import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { drawnCurrent } from './drawn-current.ts';
import { noLessThan, notOscillating, subjects, unassessed } from './words.ts';

export default defineCheck({
  id: 'supply-current',
  part: 'supply',
  title: 'supply current while running, against the current limit',
  since: '0.1.0',
  dimension: 'current',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the running supply current, pull-ups included, with the current limit of the supply.',
    why: 'At its limit the supply sags, and a sagging rail brings both switches on; one that folds back never comes up again.',
    formula: 'I = g·V/(1 + g·r), g = k·π²/(2R), plus what the pull-ups and the switches’ slow-gate and leak losses take',
    source: 'power balance; Kazimierczuk & Czarkowski, Resonant Power Converters, from memory (check-values A-power, A-res)',
    remedy: 'a supply of two to three times the running current without fold-back, or less load',
  },
  subject: subjects.supply,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { running } = point;
    const limit = design.supply.currentLimit;
    if (running === undefined) return [unassessed({ ...notOscillating, path: 'loads' })];
    if (limit === undefined) return [unassessed({ unknown: 'supply.currentLimit is not given', path: 'supply' })];
    const { pullUps, extra, total: value } = drawnCurrent({ design, point, running });
    return [
      {
        kind: 'measured',
        value,
        rating: limit.current,
        path: 'supply.currentLimit',
        basis: () => [
          `tank ${formatQuantity({ value: running.supplyCurrent, dimension: 'current' })}, pull-ups ${formatQuantity({ value: pullUps, dimension: 'current' })}, slow gates and leak ${formatQuantity({ value: extra, dimension: 'current' })}`,
          `limit ${formatQuantity({ value: limit.current, dimension: 'current' })}, ${limit.kind} (project)`,
        ],
        remedy: ({ warnAt }) =>
          `a supply for ${noLessThan({ value: (value * limit.current) / warnAt, dimension: 'current' })} or more, or less load`,
      },
    ];
  },
});
