import { isKnown } from '../driver/known.ts';
import { startConditions } from '../driver/start-conditions.ts';
import { preferredValue } from '../physics/preferred-values.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, subjects, unassessed } from './words.ts';

const path = 'gates.pullUp.resistance';

export default defineCheck({
  id: 'start-gate-swing',
  part: 'oscillation',
  title: 'swing that the pull-ups give the gates, over what turns the pair over',
  since: '0.2.0',
  dimension: 'count',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Compares the voltage by which a pull-up can lift its gate within a cycle with the swing that moves the whole current from one switch to the other.',
    why: 'Slow gates smother a growing oscillation: the pair then stays half on.',
    formula: '(Vg − Vp)/(Rg·ω·C) over I/gm, Vp = Vth,max + √(2I/K), C = 2·C_iss, gm = √(2·K·I)',
    source: 'first-order RC response and square-law MOSFET; levels common practice, no source',
    remedy: 'a smaller pull-up, a higher gate rail, or a switch of lower input capacitance',
  },
  subject: subjects.pullUp,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { swing } = startConditions({ design, point });
    if (!isKnown(swing)) return [unassessed({ unknown: swing.unknown, path })];
    return [
      measured({
        value: swing,
        path,
        basis: () => [
          `fed from ${formatQuantity({ value: point.gate.feed, dimension: 'voltage' })} through ${formatQuantity({ value: design.gates.pullUp.resistance, dimension: 'resistance' })} at ${formatQuantity({ value: point.running?.frequency ?? 0, dimension: 'frequency' })}`,
        ],
        remedy: ({ warnAt }) =>
          swing > 0
            ? `a pull-up of ${formatQuantity({ value: preferredValue({ value: (design.gates.pullUp.resistance * swing) / warnAt, side: 'below' }), dimension: 'resistance' })} or less, or a switch of lower input capacitance`
            : 'a higher gate rail or a switch of lower threshold: the gate never carries the current',
      }),
    ];
  },
});
