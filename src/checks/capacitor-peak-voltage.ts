import { capacitorToleranceOf } from '../driver/capacitor-tolerance.ts';
import { largestVoltageShare } from '../physics/capacitor.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { momentFindings } from './peak-moments.ts';
import { lacking, measured, noLessThan, ratedBasis, subjects } from './words.ts';

export default defineCheck({
  id: 'capacitor-peak-voltage',
  part: 'bank',
  title: 'peak voltage across one capacitor, against its dc rating',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the highest voltage across one capacitor of the bank, running, at switch-on and at load removal, with its rated dc voltage.',
    why: 'Film life falls steeply with voltage, and one overshoot can short a capacitor. The dc rating says nothing of heating: see capacitor-self-heating.',
    formula: 'Vc = Vt,peak·share; share = 1/n for n equal capacitors in series, more for the smallest of a ± tolerance set',
    source: 'volt-second balance and charge balance of a string (check-values A-vpk, A-start)',
    remedy: 'capacitors of higher rated voltage, or more in series',
  },
  subject: subjects.capacitor,
  run: (input) => {
    const { capacitor, series } = input.analysis.design.tank.bank;
    const rating = capacitor.ratings.voltageDc;
    const path = 'tank.bank.part';
    if (rating === undefined) return [lacking({ part: capacitor.name, key: 'voltageDc', path })];
    const share = largestVoltageShare({ series, tolerance: capacitorToleranceOf(input.analysis.design) });
    return momentFindings({
      input,
      moments: ['running', 'switch-on', 'load removal'],
      finding: ({ tankPeak, moment, basis }) =>
        measured({
          value: tankPeak * share,
          rating: rating.value,
          path,
          basis: () => [
            basis(),
            ...(series > 1 ? [`largest share of ${series} in series ${formatQuantity({ value: share, dimension: 'ratio' })}`] : []),
            ratedBasis({ what: 'dc voltage', rating, dimension: 'voltage' }),
          ],
          remedy: ({ warnAt, passingBank }) =>
            `${passingBank()}; or capacitors rated ${noLessThan({ value: (tankPeak * share * rating.value) / warnAt, dimension: 'voltage' })} dc or more`,
          moment,
        }),
    });
  },
});
