import { isKnown } from '../driver/known.ts';
import { switchModelOf } from '../driver/switch-model.ts';
import { plateauVoltage } from '../physics/mosfet.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { gateReach } from './enhancement.ts';
import { measured, noLessThan, notOscillating, subjects, unassessed } from './words.ts';

const path = 'gates.pullUp';

export default defineCheck({
  id: 'gate-drive-voltage',
  part: 'gates',
  title: 'gate voltage while on, against what the switch needs to be fully on',
  since: '0.2.0',
  dimension: 'voltage',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Compares the lowest gate voltage of a switch that is on with the one its on-resistance is stated at, and with the one at which it carries the current at all.',
    why: 'A half-open switch has a multiple of its on-resistance, heats, and lifts the gate of the switch that should be off.',
    formula:
      'min(Vz·(1 − tol), Vg·Rpd/(Rg + Rpd), Vt/2 + Vf); warns below 0.95 of the voltage R_DS(on) is stated at, fails at Vth,max + √(2I/K)',
    source: 'square-law MOSFET; gate and drain tied by the cross diode; ratings from the part',
    remedy: 'a gate rail or clamp of higher voltage, or a switch whose on-resistance is stated at a lower gate voltage',
  },
  subject: subjects.switch,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { mosfet } = design.switches;
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const statedAt = mosfet.ratings.onResistance?.at?.['gateVoltage'];
    if (statedAt === undefined) return [unassessed({ unknown: `${mosfet.name} gives no onResistanceAt`, path: 'switches.part' })];
    const model = switchModelOf(design);
    const { thresholdMax, channelConstant } = model;
    if (!isKnown(thresholdMax)) return [unassessed({ unknown: thresholdMax.unknown, path: 'switches.part' })];
    if (!isKnown(channelConstant)) return [unassessed({ unknown: channelConstant.unknown, path: 'switches.part' })];
    const plateau = plateauVoltage({ threshold: thresholdMax, current: running.supplyCurrent, channelConstant });
    const { value, why } = gateReach(point);
    const warnAt = Math.max(0.95 * statedAt, plateau);
    return [
      measured({
        value,
        levels: { warnAt, limit: plateau, failAt: plateau },
        path,
        basis: () => [
          why(),
          `R_DS(on) stated at ${formatQuantity({ value: statedAt, dimension: 'voltage' })}; ${formatQuantity({ value: plateau, dimension: 'voltage' })} carries the current at the highest threshold`,
        ],
        remedy: () =>
          `a gate that reaches ${noLessThan({ value: warnAt, dimension: 'voltage' })} or more: gate rail, clamp and pull-down, or a supply that swings the drains further`,
      }),
    ];
  },
});
