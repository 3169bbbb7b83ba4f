import { isKnown } from '../driver/known.ts';
import { latchErrorShare, type HoldOff } from '../driver/switch-heat.ts';
import { statesTransconductance } from '../driver/switch-model.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { enhancementDoubt } from './enhancement.ts';
import { holdOffFinding, latchErrorWords } from './hold-off-finding.ts';
import { lowerResistanceWords } from './hold-off-remedy.ts';
import { lowerSupplyWords } from './lower-supply.ts';
import { notOscillating, subjects, unassessed } from './words.ts';

const path = 'switches.part';

/** Of the present supply voltage; a remedy that leaves less is none. */
const leastShare = 0.5;

export default defineCheck({
  id: 'hold-off-running',
  part: 'oscillation',
  title: 'gate of the off switch while running, against its hot threshold',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the voltage at the gate of the switch that should be off with its threshold at the running junction temperature.',
    why: 'The off gate sits one diode drop above the drain of the on switch. Past its threshold the off switch leaks; past a further 1/(2·K·Ron) no such state exists and both latch on.',
    formula: `V_hold = (I + Ig)·Ron(Tj) + Vf, Ig of the pull-up; warns past the minimum threshold, fails past Vf + ${(1 - latchErrorShare).toFixed(2)}·(Vth + 1/(2·K·Ron) − Vf), Vth typical`,
    source: `own derivation; ${latchErrorWords}`,
    remedy: 'a switch of lower on-resistance or higher threshold, a cross diode of lower drop, or a better heatsink',
  },
  subject: subjects.pair,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { running, gate } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const { holdOff, onResistance, supplyCurrent, electricalJunction } = running;
    if ('unknown' in holdOff) return [unassessed({ unknown: holdOff.unknown, path })];
    const on = isKnown(onResistance) ? onResistance : 0;
    const drop = isKnown(gate.diodeDrop) ? gate.diodeDrop : 0;
    const pullUp = isKnown(gate.diodeCurrent) ? gate.diodeCurrent : 0;
    const ampere = (value: number): string => formatQuantity({ value, dimension: 'current' });
    const volt = (value: number): string => formatQuantity({ value, dimension: 'voltage' });
    return [
      holdOffFinding({
        holdOff,
        failAt: holdOff.latchesAt,
        doubt: enhancementDoubt({ design, point }) ?? weakModelDoubt({ design, holdOff }),
        path,
        basis: () => [
          `(${ampere(supplyCurrent)} + pull-up ${ampere(pullUp)}) × ${formatQuantity({ value: on, dimension: 'resistance' })} at ${formatQuantity({ value: electricalJunction, dimension: 'temperature' })} + diode ${volt(drop)}`,
          `latches from ${volt(holdOff.latchesAt)} by the closed form, ${Math.round(100 * latchErrorShare)} % taken off for its error (${latchErrorWords}): past that it fails, whatever is left to the threshold`,
        ],
        remedy: () => {
          const wanted = isKnown(holdOff.thresholdMin) ? holdOff.thresholdMin : holdOff.thresholdTypical;
          const stronger = lowerResistanceWords({ drop, current: supplyCurrent + pullUp, wanted });
          // the supply current goes with the voltage while the load keeps its resistance
          const share = ((wanted - drop) / on - pullUp) / supplyCurrent;
          const lower = share > leastShare && share < 1 ? `${lowerSupplyWords({ design, share })}, or ` : '';
          return `${lower}${stronger}`;
        },
      }),
    ];
  },
});

/** Past the threshold the leak and the latch rest on K, which the on-resistance alone puts too low. */
function weakModelDoubt({ design, holdOff }: { design: Design; holdOff: HoldOff }): string | undefined {
  if (holdOff.value <= holdOff.thresholdTypical || statesTransconductance(design)) return undefined;
  return `past the threshold the channel constant decides, and ${design.switches.mosfet.name} gives no transconductance`;
}
