import { seenChokeInductance } from '../physics/push-pull.ts';
import { avalancheEnergy } from '../physics/avalanche.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { breakdownAt } from './breakdown.ts';
import { defineCheck, type CheckInput } from './check.ts';
import { gentleStart, gentleWords } from './gentle-start.ts';
import { lowerSupplyWords } from './lower-supply.ts';
import { momentFindings } from './peak-moments.ts';
import { lacking, measured, noLessThan, ratedBasis, subjects } from './words.ts';

export default defineCheck({
  id: 'switch-surge-voltage',
  part: 'switches',
  title: 'drain peak at switch-on and load removal, against the rated drain voltage',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the drain peaks at switch-on and when the load is taken away with the rated drain-source voltage of the switch.',
    why: 'Chokes and bank form a second, slow resonance: a step of the rail drives the drains up to twice the running peak, and the energy of the chokes lands on them when a load goes.',
    formula: 'Le·I′ = V(t) − Vt/π − I·r, C·Vt′ = I/π − Vt/(2R), exact for a step or a linear rise; a step without damping reaches 2π·V',
    source:
      'first-harmonic averaging, method of Sanders et al. 1991 (check-values A-start); 2 to 11 % added for what a time-domain model of 289 designs went past it, loss of the bank and of the switch not counted as damping',
    remedy:
      'feed the gates from their own rail and let the supply rise slowly, choose a switch of higher drain voltage, or lower the supply voltage',
  },
  subject: subjects.switch,
  run: (input) => {
    const { mosfet } = input.analysis.design.switches;
    const rating = mosfet.ratings.drainVoltage;
    return momentFindings({
      input,
      moments: ['switch-on', 'load removal'],
      finding: ({ drainPeak, moment, path, basis }) =>
        rating === undefined
          ? lacking({ part: mosfet.name, key: 'drainVoltage', path: 'switches.part' })
          : measured({
              value: drainPeak,
              rating: breakdownAt({ design: input.analysis.design, rated: rating.value }),
              path,
              basis: () => [
                basis(),
                `${(drainPeak / (Math.PI * input.instance.point.corner.supply * input.analysis.design.supply.voltage)).toPrecision(3)} times π·V`,
                ratedBasis({ what: 'V_DSS', rating, dimension: 'voltage' }),
                ...(drainPeak > rating.value ? [avalancheWords(input, rating.value)] : []),
              ],
              remedy: ({ warnAt }) =>
                remedyWords({ input, drainPeak, rating: rating.value, warnAt, atSwitchOn: path === 'supply.riseTime' }),
              moment,
            }),
    });
  },
});

/** Energy of the chokes in one breakdown against the single-pulse rating; it is no licence to avalanche. */
function avalancheWords({ analysis: { design }, instance }: CheckInput, breakdown: number): string {
  const { avalancheEnergy: rating } = design.switches.mosfet.ratings;
  const transients = [instance.switchOn, instance.loadRemoval].flatMap((transient) =>
    transient === undefined || 'unknown' in transient ? [] : [transient.supplyPeak],
  );
  const supply = design.supply.voltage * instance.point.corner.supply;
  if (breakdown <= supply) return 'the supply alone exceeds V_DSS';
  const inductance = seenChokeInductance({
    arrangement: design.chokes.arrangement,
    chokeInductance: instance.point.tank.chokeInductance,
  });
  const energy = avalancheEnergy({ inductance, current: Math.max(...transients), breakdown, supply });
  const rated =
    rating === undefined
      ? 'the part gives no single-pulse rating'
      : `single-pulse rating ${formatQuantity({ value: rating.value, dimension: 'energy' })}`;
  return `avalanche: the chokes can put about ${formatQuantity({ value: energy, dimension: 'energy' })} into one switch; ${rated}`;
}

function remedyWords({
  input: { analysis },
  drainPeak,
  rating,
  warnAt,
  atSwitchOn,
}: {
  input: CheckInput;
  drainPeak: number;
  rating: number;
  warnAt: number;
  atSwitchOn: boolean;
}): string {
  const { design } = analysis;
  const part = `a switch rated ${noLessThan({ value: (drainPeak * rating) / warnAt, dimension: 'voltage' })} or more`;
  const supply = lowerSupplyWords({ design, share: warnAt / drainPeak });
  const gentle = atSwitchOn ? gentleStart({ design, highest: warnAt }) : undefined;
  return [...(gentle === undefined ? [] : [gentleWords({ analysis, riseTime: gentle.riseTime })]), supply, part].join(', or ');
}
