import { recommendedFuse } from './recommended-fuse.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import { leadCrossSectionForCurrent } from '../physics/lead-cross-section.ts';
import type { Ampere, Kelvin } from '../units/si.ts';
import { defineCheck } from './check.ts';
import { drawnCurrent } from './drawn-current.ts';
import { measured, noLessThan, notOscillating, subjects, unassessed } from './words.ts';

/** Air in which PVC leads carry nothing more, less a margin. */
const warmestForLeads: Kelvin = 341;

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
    rated: 'the current limit',
  },
  subject: subjects.supply,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { running } = point;
    const limit = design.supply.currentLimit;
    if (running === undefined) return [unassessed({ ...notOscillating, path: 'loads' })];
    if (limit === undefined) return [unassessed({ unknown: 'supply.currentLimit is not given', path: 'supply' })];
    const { pullUps, extra, total: value } = drawnCurrent({ design, point, running });
    return [
      measured({
        value,
        rating: limit.current,
        path: 'supply.currentLimit',
        basis: () => [
          `tank ${formatQuantity({ value: running.supplyCurrent, dimension: 'current' })}, pull-ups ${formatQuantity({ value: pullUps, dimension: 'current' })}, slow gates and leak ${formatQuantity({ value: extra, dimension: 'current' })}`,
          `limit ${formatQuantity({ value: limit.current, dimension: 'current' })}, ${limit.kind} (project)`,
          fuseAndLeads({ current: value, ambient: design.environment.ambient ?? assumedAmbient }),
        ],
        remedy: ({ warnAt }) =>
          `a supply for ${noLessThan({ value: (value * limit.current) / warnAt, dimension: 'current' })} or more, or less load`,
      }),
    ];
  },
});

/** A fuse of one and a half times the current and leads that carry the fuse. */
function fuseAndLeads({ current, ambient }: { current: Ampere; ambient: Kelvin }): string {
  const fuse = recommendedFuse(current);
  if (fuse === undefined) return 'no fuse of the usual series is large enough';
  const section = ambient < warmestForLeads ? leadCrossSectionForCurrent({ current: fuse, ambient }) : undefined;
  const leads =
    section === undefined
      ? 'leads by the local code'
      : `copper leads of ${(section * 1e6).toPrecision(2)} mm² or more (DIN VDE 0298-4, one core free in air)`;
  return `fuse: ${formatQuantity({ value: fuse, dimension: 'current' })}, slow (1.5 times the current and up, common practice); ${leads}`;
}
