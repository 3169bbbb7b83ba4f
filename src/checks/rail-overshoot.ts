import { railLift } from '../driver/events.ts';
import { railPeakRatio } from '../driver/rail.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck, type Finding } from './check.ts';
import { measured, noLessThan, notOscillating, subjects, unassessed } from './words.ts';

const path = 'supply';

export default defineCheck({
  id: 'rail-overshoot',
  part: 'supply',
  title: 'highest rail at switch-on and load removal, as a share of the supply voltage',
  since: '0.2.0',
  dimension: 'ratio',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Compares how far the rail at the driver rises, by the ringing of leads and bulk capacitor at switch-on and by the charge that comes back at load removal, with the supply voltage.',
    why: 'What the rail rises reaches the drains π times, the gates that hang on it once, and everything else on that rail.',
    formula:
      'k = 1 + min(e^(−πζ/√(1−ζ²)), (1 + e^(−ζ·ω·Tr))/(ω_d·Tr)), ω = 1/√(Ls·Cb); √(1 + 2·Q/(Cb·V)), Q the charge given back to a supply that takes none',
    source: 'second-order response to a ramp; envelope of tank and chokes, own derivation; levels common practice, no source',
    remedy: 'shorter leads, a slower rise, a bulk capacitor with series resistance or a larger one',
    rated: 'the supply voltage',
  },
  subject: subjects.supply,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { bulkCapacitance, leadInductance } = design.supply;
    const { running } = point;
    const voltage = design.supply.voltage * point.corner.supply;
    const atSwitchOn = railPeakRatio(design);
    const ringing: Finding =
      bulkCapacitance === undefined || leadInductance === undefined
        ? unassessed({ unknown: 'supply.bulkCapacitance and leadInductance are not both given', path, moment: 'at switch-on' })
        : measured({
            value: atSwitchOn,
            rating: 1,
            path: 'supply.leadInductance',
            moment: 'at switch-on',
            basis: () => [
              `${formatQuantity({ value: leadInductance, dimension: 'inductance' })} and ${formatQuantity({ value: bulkCapacitance, dimension: 'capacitance' })}`,
            ],
            remedy: ({ warnAt }) =>
              `a supply that rises in ${noLessThan({ value: riseFor({ leadInductance, bulkCapacitance, share: warnAt - 1 }), dimension: 'time', digits: 2 })} or more, shorter leads, or series resistance at the bulk capacitor`,
          });
    if (running === undefined) return [ringing, unassessed({ ...notOscillating, path, moment: 'at load removal' })];
    if (bulkCapacitance === undefined) {
      return [ringing, unassessed({ unknown: 'supply.bulkCapacitance is not given', path, moment: 'at load removal' })];
    }
    return [
      ringing,
      measured({
        value: railLift({ design, running }),
        rating: 1,
        path: 'supply.bulkCapacitance',
        moment: 'at load removal',
        basis: () => [
          `${formatQuantity({ value: running.returnedCharge(), dimension: 'charge' })} comes back into ${formatQuantity({ value: bulkCapacitance, dimension: 'capacitance' })}, the supply taking none of it`,
        ],
        remedy: ({ warnAt }) =>
          `a bulk capacitor of ${noLessThan({ value: (2 * running.returnedCharge()) / ((warnAt ** 2 - 1) * voltage), dimension: 'capacitance', digits: 2 })} or more`,
      }),
    ];
  },
});

/** Rise time from which an undamped ringing stays within a share: 2/(ω·Tr). */
function riseFor({ leadInductance, bulkCapacitance, share }: { leadInductance: number; bulkCapacitance: number; share: number }): number {
  return (2 * Math.sqrt(leadInductance * bulkCapacitance)) / Math.max(1e-3, share);
}
