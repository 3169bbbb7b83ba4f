import { largestHoldOffDeficit, offSwitchLeak } from '../physics/hold-off.ts';
import { gateDrivePower, plateauVoltage, slowGateLoss } from '../physics/mosfet.ts';
import { supplyCurrent, tankPeakVoltage } from '../physics/push-pull.ts';
import { selfConsistentTemperature, type SelfConsistentTemperature } from '../physics/thermal.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Hertz, Kelvin, Ohm, Ratio, Volt, Watt } from '../units/si.ts';
import { riseTimeTo, type GateNetwork } from './gate-network.ts';
import { isKnown, type Maybe, type Unknown } from './known.ts';
import type { SwitchModel } from './switch-model.ts';

/** Loss of one switch by cause. */
export interface SwitchLosses {
  /** Channel fully on, half of each period; the other gate's pull-up current and the ripple included. */
  readonly conduction: Watt;
  /** Half of the gate-drive power; the other half falls on the pull-up. */
  readonly gateDrive: Watt;
  /** Current kept in saturation against a rising drain until the other gate is up. */
  readonly slowGate: Watt;
  /** Off switch that its gate does not hold off. */
  readonly leak: Watt;
}

/** What a loss is computed from; the same for every temperature. */
export interface SwitchDuty {
  readonly voltage: Volt;
  readonly parallelResistance: Ohm;
  /** Source and chokes, without the switch. */
  readonly sourceResistance: Ohm;
  readonly powerFactor: Ratio;
  readonly peakFactor: Ratio;
  readonly frequency: Hertz;
  /** Of the whole supply current, peak to peak. */
  readonly supplyRipple: Ampere;
}

/** Factors that make bounds of the estimates, from a time-domain model: see DEVELOPERS.md. */
const slowGateMargin = 1.2;
const leakMargin = 1.16;

/** Highest junction temperature that the search for a steady state looks at: past it nothing is left to save. */
const searchTo: Kelvin = 773.15;

/** Supply current with the switch at a junction temperature; an unknown on-resistance counts as none, which leans high. */
export function currentAt({ duty, onResistance }: { duty: SwitchDuty; onResistance: Maybe }): Ampere {
  const dropResistance = duty.sourceResistance + (isKnown(onResistance) ? onResistance : 0);
  return supplyCurrent({
    voltage: duty.voltage,
    parallelResistance: duty.parallelResistance,
    dropResistance,
    powerFactor: duty.powerFactor,
  });
}

/**
 * Losses of one switch at a junction temperature.
 *
 * @returns the losses in W; `latched` where the off switch has no running state; unknown where a rating is missing
 */
export function switchLossesAt({
  design,
  model,
  gate,
  duty,
  junction,
}: {
  design: Design;
  model: SwitchModel;
  gate: GateNetwork;
  duty: SwitchDuty;
  junction: Kelvin;
}): SwitchLosses | 'latched' | Unknown {
  const onResistance = model.onResistance(junction);
  const threshold = model.thresholdTypical(junction);
  const { channelConstant } = model;
  const { diodeDrop } = gate;
  if (!isKnown(onResistance)) return onResistance;
  if (!isKnown(threshold)) return threshold;
  if (!isKnown(channelConstant)) return channelConstant;
  if (!isKnown(diodeDrop)) return diodeDrop;
  const current = currentAt({ duty, onResistance });
  const plateau = plateauVoltage({ threshold, current, channelConstant });
  const pullUpCurrent = isKnown(gate.diodeCurrent) ? gate.diodeCurrent : 0;
  const hold = (current + pullUpCurrent) * onResistance + diodeDrop;
  const { feed } = gate;
  const capacitance = model.gateCapacitance;
  const risen = riseTimeTo({ design, feed, capacitance, target: plateau });
  const held = riseTimeTo({ design, feed, capacitance, target: Math.min(hold, plateau) });
  if (risen === 'never' || held === 'never') {
    return { unknown: `the gate never reaches ${plateau.toPrecision(3)} V, where the switch carries its current` };
  }
  if (!isKnown(risen)) return risen;
  if (!isKnown(held)) return held;
  const leak = offSwitchLeak({ deficit: hold - threshold, channelConstant, onResistance });
  if (leak === undefined) return 'latched';
  const tankPeak = tankPeakVoltage({
    voltage: duty.voltage,
    current,
    dropResistance: duty.sourceResistance + onResistance,
    peakFactor: duty.peakFactor,
  });
  const gateCharge = isKnown(model.gateCharge) ? model.gateCharge : (model.gateCapacitance as number) * gate.high;
  return {
    conduction: (((current + pullUpCurrent) ** 2 + duty.supplyRipple ** 2 / 12) * onResistance) / 2,
    gateDrive: gateDrivePower({ gateCharge, swing: gate.high, frequency: duty.frequency }) / 2,
    slowGate:
      slowGateMargin *
      slowGateLoss({
        current,
        channelVoltage: plateau - diodeDrop,
        onVoltage: current * onResistance,
        tankPeak,
        frequency: duty.frequency,
        riseTime: risen - held,
      }),
    leak: leakMargin * duty.voltage * leak,
  };
}

/** Sum of a switch's losses. */
export function totalLoss(losses: SwitchLosses): Watt {
  return losses.conduction + losses.gateDrive + losses.slowGate + losses.leak;
}

/** Where the junction settles with the loss it causes itself, or why it does not, or what is missing to tell. */
export function junctionOf({
  design,
  model,
  gate,
  duty,
  ambient,
}: {
  design: Design;
  model: SwitchModel;
  gate: GateNetwork;
  duty: SwitchDuty;
  ambient: Kelvin;
}): SelfConsistentTemperature | Unknown {
  const { thermalResistance } = model;
  if (!isKnown(thermalResistance)) return thermalResistance;
  let missing: Unknown | undefined;
  const found = selfConsistentTemperature({
    ambient,
    thermalResistance,
    searchTo,
    lossAt: (junction) => {
      const losses = switchLossesAt({ design, model, gate, duty, junction });
      if (losses === 'latched') return undefined;
      if ('unknown' in losses) {
        missing = losses;
        return undefined;
      }
      return totalLoss(losses);
    },
  });
  return missing ?? found;
}

/** How the off switch's gate stands against its threshold at a current through the on switch. */
export interface HoldOff {
  /** V_hold: the gate voltage of the switch that should be off. */
  readonly value: Volt;
  readonly thresholdTypical: Volt;
  readonly thresholdMin: Maybe;
  /** V_hold from which the pair latches, the closed form's own error taken off. */
  readonly latchesAt: Volt;
}

/**
 * Where a pair latches in the time domain, (I + Ig)·Ron over that of the closed form, in % above it: the lowest, 5 %, half, 95 % and the
 * highest of a hundred random designs, see DEVELOPERS.md.
 */
export const latchErrorMeasured = { lowest: -16, low: 0, median: 8, high: 20, highest: 50 } as const;

/** The closed form of the latch is drawn in to the lowest that was measured. */
export const latchErrorShare: Ratio = -latchErrorMeasured.lowest / 100;

/** Hold-off at a junction temperature and a supply current; the on switch carries the pull-up current of the off gate as well. */
export function holdOffAt({
  model,
  gate,
  junction,
  current,
}: {
  model: SwitchModel;
  gate: GateNetwork;
  junction: Kelvin;
  current: Ampere;
}): HoldOff | Unknown {
  const on = model.onResistance(junction);
  const typical = model.thresholdTypical(junction);
  const { diodeDrop: drop, diodeCurrent: pullUp } = gate;
  if (!isKnown(on)) return on;
  if (!isKnown(typical)) return typical;
  if (!isKnown(drop)) return drop;
  if (!isKnown(pullUp)) return pullUp;
  const latch = holdOffLatch({ model, junction });
  if (!isKnown(latch)) return latch;
  return {
    value: (current + pullUp) * on + drop,
    latchesAt: drop + (1 - latchErrorShare) * (latch - drop),
    thresholdTypical: typical,
    thresholdMin: model.thresholdMin(junction),
  };
}

/** V_hold from which the pair latches by the closed form: Vth + 1/(2·K·Ron), its error not taken off. */
export function holdOffLatch({ model, junction }: { model: SwitchModel; junction: Kelvin }): Maybe {
  const onResistance = model.onResistance(junction);
  const typical = model.thresholdTypical(junction);
  const { channelConstant } = model;
  if (!isKnown(onResistance)) return onResistance;
  if (!isKnown(typical)) return typical;
  if (!isKnown(channelConstant)) return channelConstant;
  return typical + largestHoldOffDeficit({ channelConstant, onResistance });
}
