import { plateauVoltage } from '../physics/mosfet.ts';
import type { Design } from '../project/design.ts';
import { whenKnown, type Maybe } from './known.ts';
import type { OperatingPoint } from './operating-point.ts';
import { switchModelOf } from './switch-model.ts';

/**
 * Conditions for the oscillation to grow out of the state with both switches half on.
 *
 *     gain = gm·R/2,  swing = (Vg − Vp)/(Rg·ω·Cg) / (I/gm),  gm = √(2·K·I)
 *
 * @returns both ratios, or unknown where a rating is missing or nothing oscillates
 *
 * Valid for: square-law switches, I the running supply current; small-signal, not compared with the time domain.
 */
export function startConditions({ design, point }: { design: Design; point: OperatingPoint }): { gain: Maybe; swing: Maybe } {
  const { running, tank, gate } = point;
  if (running === undefined) {
    const unknown = { unknown: 'it does not oscillate with this load' };
    return { gain: unknown, swing: unknown };
  }
  const model = switchModelOf(design);
  const current = running.supplyCurrent;
  const transconductance = whenKnown({ k: model.channelConstant }, ({ k }) => Math.sqrt(2 * k * current));
  const omega = 2 * Math.PI * running.frequency;
  return {
    gain: whenKnown({ gm: transconductance }, ({ gm }) => (gm * tank.parallelResistance) / 2),
    swing: whenKnown(
      { gm: transconductance, k: model.channelConstant, threshold: model.thresholdMax, charge: model.gateCapacitance },
      ({ gm, k, threshold, charge }) => {
        const left = gate.feed - plateauVoltage({ threshold, current, channelConstant: k });
        return (Math.max(0, left) / (design.gates.pullUp.resistance * omega * charge)) * (gm / current);
      },
    ),
  };
}
