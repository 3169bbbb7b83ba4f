import { finiteQualityPeakFactor, finiteQualityPowerFactor } from '../physics/half-sine.ts';
import { plateauVoltage } from '../physics/mosfet.ts';
import { chokeRipple, supplyRipple, tankPeakVoltage } from '../physics/push-pull.ts';
import { returnedCharge } from '../physics/returned-charge.ts';
import type { SelfConsistentTemperature } from '../physics/thermal.ts';
import type { Design, Load } from '../project/design.ts';
import type { Ampere, Coulomb, Hertz, Kelvin, Ohm, Ratio, Volt, Watt } from '../units/si.ts';
import { assumedAmbient } from './ambient.ts';
import { bankStress } from './bank-heat.ts';
import { hottestCoil, settledState, type WarmCoil } from './coil-heat.ts';
import { nominalCorner, type Corner } from './corner.ts';
import { DesignError } from './design-error.ts';
import { chokeResistanceOf, envelopeCircuitOf } from './envelope-circuit.ts';
import { gateNetworkAt, riseTimeTo, type GateNetwork } from './gate-network.ts';
import { isKnown, whenKnown, type Maybe, type Unknown } from './known.ts';
import { onceAsked } from './last-answer.ts';
import { modelRangeOf, type ModelRange } from './model-range.ts';
import { currentAt, holdOffAt, junctionOf, switchLossesAt, type HoldOff, type SwitchDuty, type SwitchLosses } from './switch-heat.ts';
import { switchModelOf } from './switch-model.ts';
import { resistanceForQuality, statedResistance, tankAt, type Tank } from './tank.ts';

/** The running driver with one load at one corner. */
export interface OperatingPoint {
  readonly load: Load;
  readonly corner: Corner;
  readonly coil: WarmCoil;
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
  /** Charge that comes back to the supply when the load is taken away. */
  readonly returnedCharge: () => Coulomb;
}

/**
 * The running driver with one load at one corner of the tolerances, in closed form.
 *
 * @param coil  as warm as it is; at its hottest where not given, as every corner is judged
 * @param gate  the gate network of this design at this corner, where the caller has it: it is the same with every load
 * Errors: DesignError, see tankAt and addedResistance.
 */
export function operatingPoint({
  design,
  load,
  corner,
  coil = hottestCoil(design),
  gate = gateNetworkAt({ design, corner }),
}: {
  design: Design;
  load: Load;
  corner: Corner;
  coil?: WarmCoil | undefined;
  gate?: GateNetwork | undefined;
}): OperatingPoint {
  return pointWith({ design, load, corner, coil, gate, added: addedResistance({ design, load }) });
}

const nominalPoints = new WeakMap<Design, Map<Load, OperatingPoint>>();

/**
 * The running driver with one load at nominal values, in closed form: its coil as warm as its own current makes it. Computed once for a
 * design and load.
 *
 * Errors: DesignError, see tankAt and addedResistance.
 */
export function nominalPoint({ design, load }: { design: Design; load: Load }): OperatingPoint {
  const points = nominalPoints.get(design) ?? new Map<Load, OperatingPoint>();
  nominalPoints.set(design, points);
  const point = points.get(load) ?? settledPoint({ design, load });
  points.set(load, point);
  return point;
}

function settledPoint({ design, load }: { design: Design; load: Load }): OperatingPoint {
  const stated = statedResistance({ design, load });
  const gate = gateNetworkAt({ design, corner: nominalCorner });
  return settledState({
    design,
    stateWith: (coil) =>
      pointWith({ design, load, corner: nominalCorner, coil, gate, added: stated ?? forQuality({ design, load, coil }).added }),
    currentOf: ({ running }) => (running?.tankCurrentPeak ?? 0) / Math.SQRT2,
  });
}

function forQuality({ design, load, coil }: { design: Design; load: Load; coil: WarmCoil }): { added: Ohm; ownQuality: Ratio } {
  return resistanceForQuality({ design, load, quality: load.loadedQ ?? Infinity, coilResistance: coil.resistance });
}

/**
 * What a load adds across the tank: its resistance at the nominal design, held at every corner. The power form is at nominal supply
 * voltage.
 *
 * @returns Ω; Infinity for a load that adds nothing
 * Errors: DesignError where loadedQ is not below what coil and bank have by their own loss.
 */
export function addedResistance({ design, load }: { design: Design; load: Load }): Ohm {
  const stated = statedResistance({ design, load });
  if (stated !== undefined) return stated;
  const { added, ownQuality } = forQuality({ design, load, coil: nominalPoint({ design, load }).coil });
  if (added > 0 && Number.isFinite(added)) return added;
  const own = ownQuality.toPrecision(3);
  throw new DesignError({
    id: 'impossible-load',
    path: `loads.${design.loads.indexOf(load)}.loadedQ`,
    message: `loadedQ ${load.loadedQ} of load "${load.name}" is not below the ${own} that coil and bank reach by their own loss`,
    help: `write a loadedQ below ${own}, or leave it out for a tank without load`,
  });
}

function pointWith({
  design,
  load,
  corner,
  coil,
  gate,
  added,
}: {
  design: Design;
  load: Load;
  corner: Corner;
  coil: WarmCoil;
  gate: GateNetwork;
  added: Ohm;
}): OperatingPoint {
  const tank = tankAt({ design, load, corner, coilResistance: coil.resistance, added });
  const range = modelRangeOf(tank);
  const running = tank.frequency === undefined ? undefined : runningState({ design, corner, tank, gate, frequency: tank.frequency });
  return { load, corner, coil, tank, range, gate, running };
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
  const bank = bankStress({ design, tank, tankCurrentPeak });
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
    currentPerCapacitor: bank.currentPerCapacitor,
    lossPerCapacitor: bank.lossPerCapacitor,
    bankRise: bank.bankRise,
    chokeRipple: ripple,
    supplyRipple: duty.supplyRipple,
    chokePeak: supplyCurrent / (arrangement === 'two' ? 2 : 1) + ripple / 2,
    junction,
    electricalJunction,
    onResistance,
    losses: switchLossesAt({ design, model, gate, duty, junction: electricalJunction }),
    gateRise: riseTimeTo({ design, feed: gate.feed, capacitance: model.gateCapacitance, target: plateau }),
    holdOff: 'unknown' in junction ? junction : holdOffAt({ model, gate, junction: electricalJunction, current: supplyCurrent }),
    returnedCharge: onceAsked(() =>
      returnedCharge({
        circuit: envelopeCircuitOf({ design, tank, parallelResistance: tank.lightestResistance }),
        initial: { current: supplyCurrent, voltage: tankPeak },
        voltage,
      }),
    ),
  };
}

/** The settled temperature; where there is none, where the search ended, but not past the part's own limit. */
function electricalJunctionOf({ design, junction }: { design: Design; junction: SelfConsistentTemperature | Unknown }): Kelvin {
  if ('unknown' in junction) return 298.15;
  if (junction.found || junction.why === 'no state') return junction.temperature;
  return design.switches.mosfet.ratings.junctionTemperature?.value ?? 423.15;
}
