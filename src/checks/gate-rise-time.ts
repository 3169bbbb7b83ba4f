import { isKnown } from '../driver/known.ts';
import { preferredValue } from '../physics/preferred-values.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, noLessThan, notOscillating, subjects, unassessed } from './words.ts';

const path = 'gates.pullUp.resistance';

export default defineCheck({
  id: 'gate-rise-time',
  part: 'gates',
  title: 'time for a gate to reach the plateau, as a share of the period',
  since: '0.1.0',
  dimension: 'ratio',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares the time in which the pull-up brings a gate to where its switch carries the whole current with the period of the tank.',
    why: 'Until then the current flows through a half-open channel or the body diode; with slow gates the switches heat at no load.',
    formula: 't = −(Rg ∥ Rpd)·C·ln(1 − Vp/V′), Vp = Vth,max + √(2I/K), C = 2·C_iss (drain at zero)',
    source: 'first-order RC response (check-values A-pullup-delay); C_iss at zero drain voltage 1.5 to 2 times the catalogue figure, class',
    remedy: 'a smaller pull-up, best from a gate rail of 12 to 15 V, or a switch of lower input capacitance',
  },
  subject: subjects.pullUp,
  run: ({ analysis: { design, corners }, instance: { point } }) => {
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const { gateRise, frequency } = running;
    if (gateRise === 'never') {
      const feed = formatQuantity({ value: point.gate.feed, dimension: 'voltage' });
      return [
        {
          kind: 'hopeless',
          reason: `the gate never reaches the voltage at which ${design.switches.mosfet.name} carries its current, from ${feed}`,
          path,

          remedy: () => 'a higher gate rail, a larger pull-down, or a switch of lower threshold',
        },
      ];
    }
    if (!isKnown(gateRise)) return [unassessed({ unknown: gateRise.unknown, path })];
    return [
      measured({
        value: gateRise * frequency,
        path,
        basis: () => [
          `gate up in ${formatQuantity({ value: gateRise, dimension: 'time' })} of a period of ${formatQuantity({ value: 1 / frequency, dimension: 'time' })}`,
          'highest threshold, gate capacitance at zero drain voltage (class: twice the catalogue figure)',
        ],
        remedy: ({ warnAt }) => {
          const present = design.gates.pullUp.resistance;
          const resistance = preferredValue({ value: (present * warnAt) / (gateRise * frequency), side: 'below' });
          const losses = corners.map(({ point: { gate } }) => Math.max(gate.pullUpPower, gate.heldPullUpPower ?? 0));
          const power = noLessThan({ value: (Math.max(...losses) * present) / resistance, dimension: 'power', digits: 2 });
          return `a pull-up of ${formatQuantity({ value: resistance, dimension: 'resistance' })} or less (it then loses ${power}, and wants twice that rating), or a switch of lower input capacitance`;
        },
      }),
    ];
  },
});
