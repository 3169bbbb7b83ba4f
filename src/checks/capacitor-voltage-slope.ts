import { capacitorToleranceOf } from '../driver/capacitor-tolerance.ts';
import { largestVoltageShare, sineSlope } from '../physics/capacitor.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { momentFindings } from './peak-moments.ts';
import { lacking, measured, noLessThan, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'tank.bank.part';

export default defineCheck({
  id: 'capacitor-voltage-slope',
  part: 'bank',
  title: 'steepest voltage slope of one capacitor, against its pulse rating',
  since: '0.2.0',
  dimension: 'voltagePerTime',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the steepest slope of the tank voltage, running, at switch-on and at load removal, with the rated pulse slope of the capacitor.',
    why: 'The slope times the capacitance is the peak current through the end contacts.',
    formula: 'dV/dt = 2π·f·Vt·share',
    source: 'slope of a sine (check-values D-sine-dvdt); rating from the part',
    remedy: 'a pulse type, film and foil, or more capacitors in series',
  },
  subject: subjects.capacitor,
  run: (input) => {
    const { running } = input.instance.point;
    const { design } = input.analysis;
    const { capacitor, series } = design.tank.bank;
    const rating = capacitor.ratings.voltageSlope;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    if (rating === undefined) return [lacking({ part: capacitor.name, key: 'voltageSlope', path })];
    const share = largestVoltageShare({ series, tolerance: capacitorToleranceOf(design) });
    return momentFindings({
      input,
      moments: ['running', 'switch-on', 'load removal'],
      finding: ({ tankPeak, moment }) => {
        const value = sineSlope({ peakVoltage: tankPeak * share, frequency: running.frequency });
        return measured({
          value,
          rating: rating.value,
          path,
          basis: () => [
            `${formatQuantity({ value: tankPeak * share, dimension: 'voltage' })} peak at ${formatQuantity({ value: running.frequency, dimension: 'frequency' })}`,
            ratedBasis({ what: 'slope', rating, dimension: 'voltagePerTime' }),
          ],
          remedy: ({ warnAt, passingBank }) =>
            `${passingBank()}; or capacitors rated ${noLessThan({ value: (value * rating.value) / warnAt, dimension: 'voltagePerTime' })} or more`,
          moment,
        });
      },
    });
  },
});
