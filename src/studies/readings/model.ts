import { capacitorToleranceOf } from '../../driver/capacitor-tolerance.ts';
import { coilOf } from '../../driver/coil.ts';
import { nominalCorner, type Corner } from '../../driver/corner.ts';
import { DesignError } from '../../driver/design-error.ts';
import { nominalPoint, operatingPoint } from '../../driver/operating-point.ts';
import type { Design, Load } from '../../project/design.ts';
import type { Ratio } from '../../units/si.ts';
import { predictedReadings, type PredictedReadings } from '../predicted-readings.ts';
import { atVoltage, heldLoad, readingLoads } from '../reading-loads.ts';
import { coverage, supplyUncertainty } from './observed.ts';

/** What is estimated: the logarithm of each is the parameter. */
export const parameterNames = ['supply', 'coil', 'bank', 'choke', 'loss', 'load', 'source'] as const;
export type ParameterName = (typeof parameterNames)[number];
/** Factors on the values of the project. */
export type Factors = Readonly<Record<ParameterName, Ratio>>;

export const projectFactors: Factors = { supply: 1, coil: 1, bank: 1, choke: 1, loss: 1, load: 1, source: 1 };

/** How well the project's own values are known where it does not say: within so much in 95 of 100 cases; class, from memory. */
export const usualSpread = { choke: 0.2, loss: 0.4, load: 0.2, source: 2, least: 0.01 } as const;

/** The driver that readings were taken of, in a form that is quick to compute. */
export interface ReadingModel {
  /** The project at the voltage of the readings. */
  readonly asWritten: Design;
  /** The same with the coil by its values alone. */
  readonly design: Design;
  readonly idle: Load;
  readonly loaded: Load | undefined;
  /** Load of every reading but the supply currents. */
  readonly at: Load;
  /** Standard deviation of each parameter before anything was read. */
  readonly priors: Readonly<Record<ParameterName, number>>;
}

/** The model of a design's readings. */
export function readingModel(design: Design): ReadingModel {
  const { idle, loaded } = readingLoads(design);
  const { load: name, supplyVoltage } = design.readingsAt ?? {};
  const named = design.loads.find((load) => load.name === name);
  const at =
    named === undefined || named.name === idle.name ? idle : named.name === loaded?.name ? loaded : heldLoad({ design, load: named });
  const { inductance, tolerance } = coilOf(design);
  const voltage = supplyVoltage?.value ?? design.supply.voltage;
  const voltageSpread =
    supplyVoltage === undefined ? (design.supply.tolerance ?? 0) : (supplyVoltage.uncertainty ?? supplyUncertainty * voltage) / voltage;
  const deviation = (spread: Ratio): number => Math.log1p(Math.max(spread, usualSpread.least)) / coverage;
  const asWritten = atVoltage({ design, voltage, loads: [...new Set([idle, at, ...(loaded === undefined ? [] : [loaded])])] });
  const { resistance } = nominalPoint({ design: asWritten, load: at }).coil;
  return {
    asWritten,
    design: { ...asWritten, tank: { ...design.tank, coil: { inductance, resistance, tolerance } } },
    idle,
    loaded,
    at,
    priors: {
      supply: deviation(voltageSpread),
      coil: deviation(tolerance),
      bank: deviation(capacitorToleranceOf(design)),
      choke: deviation(design.chokes.choke.ratings.tolerance?.value ?? usualSpread.choke),
      loss: deviation(usualSpread.loss),
      load: deviation(usualSpread.load),
      source: deviation(usualSpread.source),
    },
  };
}

/** The same driver with another design, such as one with a fault. */
export function withDesign(model: ReadingModel, change: (design: Design) => Design): ReadingModel {
  return { ...model, design: change(model.design) };
}

/** A load of another resistance; one that adds nothing stays so. */
export function scaledLoad(load: Load, factor: Ratio): Load {
  return load.parallelResistance === undefined ? load : { ...load, parallelResistance: load.parallelResistance * factor };
}

/** A design with other losses: coil and source. */
export function scaledLosses({ design, factors }: { design: Design; factors: Factors }): Design {
  const { coil } = design.tank;
  const { resistance: source } = design.supply;
  return {
    ...design,
    supply: { ...design.supply, ...(source === undefined ? {} : { resistance: source * factors.source }) },
    tank: { ...design.tank, coil: { ...coil, resistance: (coil.resistance ?? 0) * factors.loss } },
  };
}

/** The corner that factors stand for. */
export function cornerOf({ supply, coil, bank, choke }: Factors): Corner {
  return { ...nominalCorner, supply, coil, capacitor: bank, choke };
}

/** What the project as it is written should read: its coil as warm as each load makes it. */
export function expectedReadings({ asWritten: design, idle, loaded, at }: ReadingModel): PredictedReadings {
  return predictedReadings({ design, pointOf: (load) => nominalPoint({ design, load }), idle, loaded, at });
}

/** What is read with values so many times those of the project; undefined where they cannot be. */
export function predicted(model: ReadingModel, factors: Factors): PredictedReadings | undefined {
  const { idle, loaded, at } = model;
  const of = (load: Load): Load => scaledLoad(load, factors.load);
  const light = of(idle);
  const heavy = loaded === undefined ? undefined : of(loaded);
  const [design, corner] = [scaledLosses({ design: model.design, factors }), cornerOf(factors)];
  try {
    return predictedReadings({
      design,
      pointOf: (load) => operatingPoint({ design, load, corner }),
      idle: light,
      loaded: heavy,
      at: at === idle ? light : at === loaded && heavy !== undefined ? heavy : of(at),
    });
  } catch (error) {
    if (error instanceof DesignError || error instanceof RangeError) return undefined;
    throw error;
  }
}

/** Factors of a vector of logarithms in the order of the names. */
export function factorsOf(parameters: readonly number[]): Factors {
  return Object.fromEntries(parameterNames.map((name, i) => [name, Math.exp(parameters[i]!)])) as unknown as Factors;
}
