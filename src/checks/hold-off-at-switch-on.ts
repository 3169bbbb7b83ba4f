import { holdOffAt } from '../driver/switch-heat.ts';
import { isKnown } from '../driver/known.ts';
import { switchModelOf } from '../driver/switch-model.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { enhancementDoubt } from './enhancement.ts';
import { holdOffFinding } from './hold-off-finding.ts';
import { lowerResistanceWords, slowerRiseWords } from './hold-off-remedy.ts';
import { notOscillating, subjects, unassessed } from './words.ts';

const path = 'supply.riseTime';
const moment = 'at switch-on';

export default defineCheck({
  id: 'hold-off-at-switch-on',
  part: 'oscillation',
  title: 'gate of the off switch at the choke-current peak of switch-on',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the gate voltage of the switch that should be off, at the peak of the choke current after switch-on, with its threshold at the running junction temperature.',
    why: 'The choke current overshoots while tank and chokes settle; for that half envelope period the hold-off is at its worst, and a pair that latches there stays on.',
    formula: 'V_hold = (I_peak + Ig)·Ron(Tj) + Vf, Ig of the pull-up, I_peak from the envelope plus half the ripple of the supply current',
    source:
      'own derivation; in a time-domain model a latch came at 1.6 to 3.5 times the voltage at which this reaches the threshold, so it only warns and never fails',
    remedy:
      'a supply that rises more slowly with the gates on their own rail, smaller overshoot by a larger choke, or a switch of lower on-resistance',
  },
  subject: subjects.pair,
  run: ({ analysis, instance: { point, switchOn } }) => {
    const { design } = analysis;
    const { running, gate } = point;
    if (switchOn === undefined) return [];
    if (running === undefined) return [unassessed({ ...notOscillating, path, moment })];
    if ('unknown' in switchOn) return [unassessed({ unknown: switchOn.unknown, path, moment })];
    if ('unknown' in running.holdOff) return [unassessed({ unknown: running.holdOff.unknown, path: 'switches.part', moment })];
    const holdOff = holdOffAt({
      model: switchModelOf(design),
      gate,
      junction: running.electricalJunction,
      current: switchOn.supplyPeak,
    });
    if ('unknown' in holdOff) return [unassessed({ unknown: holdOff.unknown, path: 'switches.part', moment })];
    return [
      holdOffFinding({
        holdOff,
        failAt: Infinity,
        doubt: switchOn.doubt ?? enhancementDoubt({ design, point }),
        path,
        moment,
        timed: switchOn.timed,
        basis: () => [
          `choke current peaks at ${formatQuantity({ value: switchOn.supplyPeak, dimension: 'current' })}, ${formatQuantity({ value: running.supplyCurrent, dimension: 'current' })} running`,
          'pessimistic by a factor of 1.6 to 3.5 in voltage: a warning means that only a time-domain run can tell',
        ],
        remedy: () => {
          const wanted = isKnown(holdOff.thresholdMin) ? holdOff.thresholdMin : holdOff.thresholdTypical;
          const [drop, pullUp] = [gate.diodeDrop, gate.diodeCurrent].map((value) => (isKnown(value) ? value : 0)) as [number, number];
          const on = isKnown(running.onResistance) ? running.onResistance : 0;
          const slower = slowerRiseWords({ analysis, point, highest: (wanted - drop) / on - pullUp });
          const stronger = lowerResistanceWords({ drop, current: switchOn.supplyPeak + pullUp, wanted });
          return slower === undefined ? stronger : `${slower}, or ${stronger}`;
        },
      }),
    ];
  },
});
