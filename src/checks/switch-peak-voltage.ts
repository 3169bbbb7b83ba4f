import { breakdownAt } from './breakdown.ts';
import { defineCheck } from './check.ts';
import { lowerSupplyWords } from './lower-supply.ts';
import { momentFindings } from './peak-moments.ts';
import { lacking, measured, noLessThan, ratedBasis, subjects } from './words.ts';

export default defineCheck({
  id: 'switch-peak-voltage',
  part: 'switches',
  title: 'drain peak while running, against the rated drain voltage',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the highest drain voltage of the running driver with the rated drain-source voltage of the switch.',
    why: 'Above its rating a switch avalanches in every cycle and overheats within seconds.',
    formula: 'Vd = k(Q)·π·(V − I·r) + I·Ron; use = Vd/V_DSS',
    source:
      'volt-second balance of the chokes, Baxandall 1959 (check-values A-vpk, A-res, A-finiteQ); rating from the part, 0.1 %/K less below 25 °C (class)',
    remedy: 'lower the supply voltage, or choose a switch of higher drain voltage',
  },
  subject: subjects.switch,
  run: (input) => {
    const { mosfet } = input.analysis.design.switches;
    const rating = mosfet.ratings.drainVoltage;
    return momentFindings({
      input,
      moments: ['running'],
      finding: ({ drainPeak, path, basis }) =>
        rating === undefined
          ? lacking({ part: mosfet.name, key: 'drainVoltage', path: 'switches.part' })
          : measured({
              value: drainPeak,
              rating: breakdownAt({ design: input.analysis.design, rated: rating.value }),
              path,
              basis: () => [basis(), ratedBasis({ what: 'V_DSS', rating, dimension: 'voltage' })],
              remedy: ({ warnAt }) =>
                `${lowerSupplyWords({ design: input.analysis.design, share: warnAt / drainPeak })}, ` +
                `or a switch rated ${noLessThan({ value: (drainPeak * rating.value) / warnAt, dimension: 'voltage' })} or more`,
            }),
    });
  },
});
