import { isKnown } from '../driver/known.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'gates.clamp';
const mayRing =
  'on a live rail leads and bulk capacitor may ring to twice its voltage, too much for this gate: give supply.leadInductance and bulkCapacitance, or add a clamp';

export default defineCheck({
  id: 'gate-peak-voltage',
  part: 'gates',
  title: 'highest gate voltage, against the rated gate-source voltage',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares the highest voltage that pull-up and clamp can leave at a gate with the rated gate-source voltage of the switch.',
    why: 'The gate oxide breaks down once and for good; a shorted gate takes the partner and the clamp with it.',
    formula: 'with a clamp Vz·(1 + tol) + Zz·(I_z − I_zt), without one Vg·Rpd/(Rg + Rpd); Vg with its ringing when switched on',
    source: 'Ohm’s law; clamp and gate ratings from the parts',
    remedy: 'a clamp of lower voltage, 12 V for a 20 V gate',
  },
  subject: subjects.switch,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { mosfet } = design.switches;
    const rating = mosfet.ratings.gateVoltage;
    const { peak, peakIfRinging, feed, feedPeak } = point.gate;
    if (rating === undefined) return [lacking({ part: mosfet.name, key: 'gateVoltage', path: 'switches.part' })];
    if (!isKnown(peak)) return [unassessed({ unknown: peak.unknown, path })];
    const { clamp } = design.gates;
    if (clamp !== undefined && clamp.ratings.tolerance === undefined && feedPeak > rating.value * 0.8) {
      return [lacking({ part: clamp.name, key: 'tolerance', path })];
    }
    return [
      measured({
        value: peak,
        rating: rating.value,
        doubt: peakIfRinging !== undefined && (!isKnown(peakIfRinging) || peakIfRinging > rating.value) ? mayRing : undefined,
        path: clamp === undefined ? 'gates.pullUp' : path,
        basis: () => [
          clamp === undefined
            ? 'no clamp: the gate reaches its rail'
            : `clamp ${clamp.name} at the top of its tolerance, impedance included`,
          ...(feedPeak > 1.005 * feed
            ? [`the rail rings up to ${formatQuantity({ value: feedPeak, dimension: 'voltage' })} when it is switched on`]
            : []),
          ratedBasis({ what: 'V_GS', rating, dimension: 'voltage' }),
        ],
        remedy: () => (clamp === undefined ? 'a 12 V clamp at each gate' : 'a clamp of lower voltage'),
      }),
    ];
  },
});
