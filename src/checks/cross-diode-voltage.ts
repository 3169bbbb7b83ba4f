import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { momentFindings } from './peak-moments.ts';
import { lacking, measured, noLessThan, ratedBasis, subjects } from './words.ts';

export default defineCheck({
  id: 'cross-diode-voltage',
  part: 'gates',
  title: 'reverse voltage of the cross diode, against its rating',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the highest reverse voltage of the cross diodes, running, at switch-on and at load removal, with their rating.',
    why: 'A cross diode that breaks down ties a gate to a drain peak and destroys gate and clamp.',
    formula: 'Vr = Vd,peak − Vhigh',
    source: 'Kirchhoff’s voltage law (check-values A-gate-diode-vr)',
    remedy: 'a fast diode of higher reverse voltage; 400 V types serve most drivers',
  },
  subject: subjects.crossDiode,
  run: (input) => {
    const { crossDiode } = input.analysis.design.gates;
    const rating = crossDiode.ratings.reverseVoltage;
    const { high } = input.instance.point.gate;
    if (rating === undefined) return [lacking({ part: crossDiode.name, key: 'reverseVoltage', path: 'gates.crossDiode' })];
    return momentFindings({
      input,
      moments: ['running', 'switch-on', 'load removal'],
      finding: ({ drainPeak, moment, basis }) => {
        const value = Math.max(0, drainPeak - high);
        return measured({
          value,
          rating: rating.value,
          path: 'gates.crossDiode',
          basis: () => [
            basis(),
            `drain peak ${formatQuantity({ value: drainPeak, dimension: 'voltage' })} less the gate's ${formatQuantity({ value: high, dimension: 'voltage' })}`,
            ratedBasis({ what: 'reverse voltage', rating, dimension: 'voltage' }),
          ],
          remedy: ({ warnAt }) =>
            `a fast diode rated ${noLessThan({ value: (value * rating.value) / warnAt, dimension: 'voltage' })} or more`,
          moment,
        });
      },
    });
  },
});
