import { capacitorLoss, selfHeating } from '../physics/capacitor.ts';
import { finiteQualityPeakFactor, finiteQualityPowerFactor } from '../physics/half-sine.ts';
import { plateauVoltage } from '../physics/mosfet.ts';
import { chokeRipple, supplyRipple, tankPeakVoltage } from '../physics/push-pull.ts';
import type { SelfConsistentTemperature } from '../physics/thermal.ts';
import type { Design, Load } from '../project/design.ts';
import type { Ampere, Hertz, Kelvin, Ohm, Ratio, Volt, Watt } from '../units/si.ts';
import { capacitorToleranceOf } from './capacitor-tolerance.ts';
import { assumedAmbient } from './ambient.ts';
import type { Corner } from './corner.ts';
import { gateNetworkAt, riseTimeTo, type GateNetwork } from './gate-network.ts';
import { isKnown, whenKnown, type Maybe, type Unknown } from './known.ts';
import { modelRangeOf, type ModelRange } from './model-range.ts';
import { currentAt, holdOffAt, junctionOf, switchLossesAt, type HoldOff, type SwitchDuty, type SwitchLosses } from './switch-heat.ts';
import { switchModelOf } from './switch-model.ts';
import { tankAt, type Tank } from './tank.ts';

/** The running driver with one load at one corner. */
export interface OperatingPoint {
  readonly load: Load;
  readonly corner: Corner;
  readonly tank: Tank;
  readonly range: ModelRange;
  readonly gate: GateNetwork;
  /** Undefined where the tank cannot ring. */
  readonly running: Running | undefined;
}

/** What holds while it oscillates. */
export interface Running {
  readonly frequency: Hertz;
  readonly supplyVoltage: Volt;
  readonly supplyCurrent: Ampere;
  readonly tankPeak: Volt;
  readonly drainPeak: Volt;
  readonly tankCurrentPeak: Ampere;
  readonly coilLoss: Watt;
  /** Equal sharing. */
  readonly currentPerCapacitor: Ampere;
  readonly lossPerCapacitor: Maybe;
  readonly bankRise: Maybe;
  readonly chokeRipple: Ampere;
  /** Of the whole supply current. */
  readonly supplyRipple: Ampere;
  /** Of one choke. */
  readonly chokePeak: Ampere;
  readonly junction: SelfConsistentTemperature | Unknown;
  /** Junction temperature that on-resistance and threshold are taken at. */
  readonly electricalJunction: Kelvin;
  readonly onResistance: Maybe;
  readonly losses: SwitchLosses | 'latched' | Unknown;
  readonly gateRise: Maybe | 'never';
  readonly holdOff: HoldOff | Unknown;
}

/** Resistance of the chokes as the whole supply current sees it. */
export function chokeResistanceOf({ chokes: { arrangement, choke } }: Design): Ohm {
  const resistance = choke.ratings.resistance?.value ?? 0;
  return arrangement === 'two' ? resistance / 2 : resistance;
}

/**
 * The running driver with one load at one corner of the tolerances, in closed form.
 *
 * Errors: DesignError, see tankAt.
 */
export function operatingPoint({ design, load, corner }: { design: Design; load: Load; corner: Corner }): OperatingPoint {
  const tank = tankAt({ design, load, corner });
  const gate = gateNetworkAt({ design, corner });
  const range = modelRangeOf(tank);
  const running = tank.frequency === undefined ? undefined : runningState({ design, corner, tank, gate, frequency: tank.frequency });
  return { load, corner, tank, range, gate, running };
}

function runningState({
  design,
  corner,
  tank,
  gate,
  frequency,
}: {
  design: Design;
  corner: Corner;
  tank: Tank;
  gate: GateNetwork;
  frequency: Hertz;
}): Running {
  const model = switchModelOf(design);
  const voltage = design.supply.voltage * corner.supply;
  const { arrangement } = design.chokes;
  const rippleOf = { arrangement, voltage, frequency, chokeInductance: tank.chokeInductance };
  const duty: SwitchDuty = {
    supplyRipple: supplyRipple(rippleOf),
    voltage,
    parallelResistance: tank.parallelResistance,
    sourceResistance: (design.supply.resistance ?? 0) + chokeResistanceOf(design),
    powerFactor: finiteQualityPowerFactor({ quality: tank.quality }),
    peakFactor: finiteQualityPeakFactor({ quality: tank.quality }),
    frequency,
  };
  const junction = junctionOf({ design, model, gate, duty, ambient: design.environment.ambient ?? assumedAmbient });
  const electricalJunction = electricalJunctionOf({ design, junction });
  const onResistance = model.onResistance(electricalJunction);
  const supplyCurrent = currentAt({ duty, onResistance });
  const on = isKnown(onResistance) ? onResistance : 0;
  const tankPeak = tankPeakVoltage({
    voltage,
    current: supplyCurrent,
    dropResistance: duty.sourceResistance + on,
    peakFactor: duty.peakFactor,
  });
  const tankCurrentPeak = tankPeak / tank.impedance;
  const ripple = chokeRipple(rippleOf);
  const plateau = whenKnown({ threshold: model.thresholdMax, k: model.channelConstant }, ({ threshold, k }) =>
    plateauVoltage({ threshold, current: supplyCurrent, channelConstant: k }),
  );
  return {
    frequency,
    supplyVoltage: voltage,
    supplyCurrent,
    tankPeak,
    drainPeak: tankPeak + supplyCurrent * on,
    tankCurrentPeak,
    coilLoss: (tankCurrentPeak ** 2 / 2) * tank.coilResistance,
    ...bankStress({ design, tank, tankCurrentPeak }),
    chokeRipple: ripple,
    supplyRipple: duty.supplyRipple,
    chokePeak: supplyCurrent / (arrangement === 'two' ? 2 : 1) + ripple / 2,
    junction,
    electricalJunction,
    onResistance,
    losses: switchLossesAt({ design, model, gate, duty, junction: electricalJunction }),
    gateRise: riseTimeTo({ design, feed: gate.feed, capacitance: model.gateCapacitance, target: plateau }),
    holdOff: 'unknown' in junction ? junction : holdOffAt({ model, gate, junction: electricalJunction, current: supplyCurrent }),
  };
}

/** The settled temperature; where there is none, where the search ended, but not past the part's own limit. */
function electricalJunctionOf({ design, junction }: { design: Design; junction: SelfConsistentTemperature | Unknown }): Kelvin {
  if ('unknown' in junction) return 298.15;
  if (junction.found || junction.why === 'no state') return junction.temperature;
  return design.switches.mosfet.ratings.junctionTemperature?.value ?? 423.15;
}

function bankStress({ design, tank, tankCurrentPeak }: { design: Design; tank: Tank; tankCurrentPeak: Ampere }): {
  currentPerCapacitor: Ampere;
  lossPerCapacitor: Maybe;
  bankRise: Maybe;
} {
  const { bank } = design.tank;
  const currentPerCapacitor = tankCurrentPeak / Math.SQRT2 / bank.parallel;
  const lossPerCapacitor = whenKnown({ esr: tank.capacitorResistance }, ({ esr }) =>
    capacitorLoss({ rmsCurrent: currentPerCapacitor, effectiveSeriesResistance: esr }),
  );
  const bankRise = whenKnown({ loss: lossPerCapacitor, thermal: bankThermalResistance(design) }, ({ loss, thermal }) =>
    selfHeating({ loss, thermalResistance: thermal }),
  );
  return { currentPerCapacitor, lossPerCapacitor, bankRise };
}

/** Case to ambient of one capacitor. With a fan and no figure for it the still-air one is used, which leans high. */
export function bankThermalResistance(design: Design): Maybe {
  const { capacitor, cooling } = design.tank.bank;
  const { stillAir, fan } = capacitor.thermalResistance ?? {};
  const rating = cooling === 'fan' ? (fan ?? stillAir) : stillAir;
  return rating?.value ?? { unknown: `${capacitor.name} gives no thermalResistance in ${cooling === 'fan' ? 'moving' : 'still'} air` };
}

/** How far above its equal share the current of one capacitor can be: the largest of a ± tolerance set. */
export function currentShareFactor(design: Design): Ratio {
  const { bank } = design.tank;
  return bank.parallel > 1 ? 1 + capacitorToleranceOf(design) : 1;
}
