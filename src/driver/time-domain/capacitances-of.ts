import { junctionChargeOf, type CapacitancePoint } from '../../physics/junction-charge.ts';
import type { VoltageCurve } from '../../parts/part.ts';
import type { Design } from '../../project/design.ts';
import type { Farad, Volt } from '../../units/si.ts';
import { isKnown, type Unknown } from '../known.ts';
import { switchModelOf } from '../switch-model.ts';
import type { Circuit } from './circuit.ts';

/** Capacitances over the input capacitance at zero drain voltage where the part gives none: class. */
const transferShare = 0.05;
const outputShare = 0.15;
/** Least part of the output capacitance that lies between drain and source. */
const leastDrainShare = 0.1;
/** Most of the gate's capacitance at zero drain voltage that lies between gate and drain. */
const mostTransferShare = 0.5;

/**
 * The capacitances of a switch, all its parallel devices together: Crss = Cgd, Coss = Cds + Cgd, Ciss = Cgs + Cgd.
 *
 * @param design  the project
 * @returns constants, and Cgd and Cds over voltage where the part gives points of Crss or Coss; Cgs, which does not change, is what
 *   the gate's capacitance at zero drain voltage leaves beside Cgd there. Unknown where that is
 */
export function capacitancesOf(design: Design): Circuit['capacitances'] | Unknown {
  const { mosfet, parallel } = design.switches;
  const { ratings, overVoltage } = mosfet;
  const { gateCapacitance } = switchModelOf(design);
  if (!isKnown(gateCapacitance)) return gateCapacitance;
  const most = mostTransferShare * gateCapacitance;
  const gateToDrain = Math.min(most, (ratings.reverseTransferCapacitance?.value ?? 0) * parallel || transferShare * gateCapacitance);
  const output = (ratings.outputCapacitance?.value ?? 0) * parallel || outputShare * gateCapacitance;
  const drainToSource = besideTransfer(output, gateToDrain);
  const pointsOf = (curve: VoltageCurve | undefined): readonly CapacitancePoint[] | undefined =>
    curve?.points.map(({ voltage, rating }) => ({ voltage, capacitance: rating.value * parallel }));
  const transfer = pointsOf(overVoltage?.reverseTransferCapacitance);
  const whole = pointsOf(overVoltage?.outputCapacitance);
  const gateToSource = gateCapacitance - Math.min(most, transfer?.[0]?.capacitance ?? gateToDrain);
  const constants = { gateToSource, gateToDrain, drainToSource };
  if (transfer === undefined && whole === undefined) return constants;
  const ofTransfer = transfer ?? [{ voltage: 0, capacitance: gateToDrain }];
  return {
    ...constants,
    overVoltage: {
      gateToDrain: ofTransfer,
      drainToSource: whole === undefined ? [{ voltage: 0, capacitance: drainToSource }] : drainPoints(whole, ofTransfer),
    },
  };
}

function besideTransfer(output: Farad, transfer: Farad): Farad {
  return Math.max(leastDrainShare * output, output - transfer);
}

/** Cds = Coss − Cgd wherever either of them is given. */
function drainPoints(output: readonly CapacitancePoint[], transfer: readonly CapacitancePoint[]): readonly CapacitancePoint[] {
  const [whole, part] = [junctionChargeOf(output), junctionChargeOf(transfer)];
  const voltages = new Set<Volt>([...output, ...transfer].map(({ voltage }) => voltage));
  return [...voltages]
    .toSorted((a, b) => a - b)
    .map((voltage) => {
      whole.at(voltage);
      part.at(voltage);
      return { voltage, capacitance: besideTransfer(whole.capacitance, part.capacitance) };
    });
}
