import { isKnown } from '../driver/known.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import type { Running } from '../driver/operating-point.ts';
import { totalLoss } from '../driver/switch-heat.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ampere, Kelvin } from '../units/si.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, noLessThan, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'switches.part';

export default defineCheck({
  id: 'switch-current',
  part: 'switches',
  title: 'drain current of one device while on, against its rating at this case temperature',
  since: '0.2.0',
  dimension: 'current',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the current that one device carries while it is on, ripple and pull-up current included, with its continuous rating at the case temperature it reaches.',
    why: 'The on switch carries the whole supply current; bond wires and package set a limit of their own that no heatsink lifts.',
    formula: 'I + Ig + ΔI/2 over the devices in parallel, against I_D·√((Tj,max − Tc)/(Tj,max − Tc0)), Tc0 of the rating',
    source: 'Kirchhoff’s current law; derating by constant dissipation, as data sheets draw it, common practice, no source',
    remedy: 'a switch for more current, more in parallel, or a better heatsink',
    rated: 'the rating at this case temperature',
  },
  subject: subjects.switch,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { mosfet, parallel } = design.switches;
    const { running, gate } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const rating = mosfet.ratings.drainCurrent;
    if (rating === undefined) return [lacking({ part: mosfet.name, key: 'drainCurrent', path })];
    const pullUp = isKnown(gate.diodeCurrent) ? gate.diodeCurrent : gate.feed / design.gates.pullUp.resistance;
    const value = (running.supplyCurrent + pullUp + running.supplyRipple / 2) / parallel;
    const limit = deratedCurrent({ design, running, rated: rating.value });
    return [
      measured({
        value,
        rating: limit?.current ?? rating.value,
        doubt: limit === undefined ? 'the case temperature is not known: see switch-temperature' : undefined,
        path,
        basis: () => [
          `supply ${formatQuantity({ value: running.supplyCurrent, dimension: 'current' })}, ripple and the other gate's pull-up included${parallel > 1 ? `, over ${parallel} devices` : ''}`,
          `${ratedBasis({ what: 'I_D', rating, dimension: 'current' })}, ${limit === undefined ? 'not derated, the case temperature being unknown' : `derated to a case of ${formatQuantity({ value: limit.caseTemperature, dimension: 'temperature' })}`}`,
        ],
        remedy: ({ warnAt }) =>
          `a switch rated ${noLessThan({ value: (value * rating.value) / warnAt, dimension: 'current' })} or more, or ${Math.ceil((parallel * value) / warnAt)} in parallel`,
      }),
    ];
  },
});

/** Rated current at the case temperature that the device reaches; undefined where that is not known. */
function deratedCurrent({
  design,
  running,
  rated,
}: {
  design: Design;
  running: Running;
  rated: Ampere;
}): { current: Ampere; caseTemperature: Kelvin } | undefined {
  const { junctionTemperature, junctionToCase, drainCurrent } = design.switches.mosfet.ratings;
  const { junction, losses } = running;
  if (junctionTemperature === undefined || junctionToCase === undefined) return undefined;
  if ('unknown' in junction || !junction.found || losses === 'latched' || 'unknown' in losses) return undefined;
  const ambient = design.environment.ambient ?? assumedAmbient;
  const caseTemperature = Math.max(ambient, junction.temperature - (totalLoss(losses) * junctionToCase.value) / design.switches.parallel);
  const statedCase = drainCurrent?.at?.['caseTemperature'] ?? 298.15;
  const share = (junctionTemperature.value - caseTemperature) / (junctionTemperature.value - statedCase);
  return { current: rated * Math.sqrt(Math.min(1, Math.max(1e-6, share))), caseTemperature };
}
