import type { Location } from '../source/location.ts';

export const partKinds = ['mosfets', 'diodes', 'zeners', 'capacitors', 'chokes'] as const;
export type PartKind = (typeof partKinds)[number];

/** Where a rating's number comes from. `project`: written inline in the project file without a source. */
export const ratingSources = ['data sheet', 'sibling', 'build', 'practice', 'memory', 'class', 'derived', 'project'] as const;
export type RatingSource = (typeof ratingSources)[number];

/** One rating in SI units, with where the number comes from and where it is written. */
export interface Rating {
  readonly value: number;
  readonly source: RatingSource;
  readonly note?: string;
  /** Conditions in SI units, by key: gateVoltage, drainCurrent, forwardCurrent, frequency, temperature … */
  readonly at?: Readonly<Record<string, number>>;
  readonly where: Location;
}

/** A rating at several frequencies, ascending. */
export interface RatingCurve {
  readonly points: readonly { readonly frequency: number; readonly rating: Rating }[];
}

/** A rating at several drain voltages, ascending; at least one. */
export interface VoltageCurve {
  readonly points: readonly { readonly voltage: number; readonly rating: Rating }[];
}

/** Ratings of a MOSFET that may be given over drain voltage. */
export const ratingsOverVoltage = ['outputCapacitance', 'reverseTransferCapacitance'] as const;
export type RatingOverVoltage = (typeof ratingsOverVoltage)[number];

interface PartOf<K extends PartKind, Key extends string> {
  readonly kind: K;
  /** File name without `.yaml`, or a description of the inline mapping. */
  readonly name: string;
  /** Where the project file names the part (or the inline mapping starts). */
  readonly where: Location;
  readonly title?: string;
  readonly note?: string;
  readonly ratings: Readonly<Partial<Record<Key, Rating>>>;
}

export type MosfetKey =
  | 'drainVoltage'
  | 'onResistance'
  | 'thresholdMin'
  | 'thresholdMax'
  | 'drainCurrent'
  | 'gateVoltage'
  | 'junctionTemperature'
  | 'junctionToCase'
  | 'onResistanceFactor'
  | 'thresholdTypical'
  | 'thresholdDrift'
  | 'transconductance'
  | 'inputCapacitance'
  | 'outputCapacitance'
  | 'reverseTransferCapacitance'
  | 'gateCharge'
  | 'caseToSink'
  | 'junctionToAmbient'
  | 'avalancheEnergy'
  | 'bodyDiodeVoltage'
  | 'bodyDiodeRecoveryTime';

/** `onResistance.at` carries the measuring point `onResistanceAt` of the file: gateVoltage, drainCurrent. */
export interface Mosfet extends PartOf<'mosfets', MosfetKey> {
  readonly package?: string;
  /** What the file gives over drain voltage; `ratings` then holds its point at or nearest 25 V. */
  readonly overVoltage?: Readonly<Partial<Record<RatingOverVoltage, VoltageCurve>>>;
}

/** `forwardVoltage.at.forwardCurrent` is the current the drop is given at. */
export type Diode = PartOf<
  'diodes',
  | 'reverseVoltage'
  | 'forwardVoltage'
  | 'averageCurrent'
  | 'recoveryTime'
  | 'surgeCurrent'
  | 'recoveryCharge'
  | 'junctionCapacitance'
  | 'junctionTemperature'
  | 'junctionToAmbient'
>;

export type Zener = PartOf<
  'zeners',
  'zenerVoltage' | 'tolerance' | 'power' | 'impedance' | 'testCurrent' | 'junctionToAmbient' | 'junctionTemperature'
>;

export interface Capacitor extends PartOf<
  'capacitors',
  | 'capacitance'
  | 'tolerance'
  | 'voltageDc'
  | 'voltageAc'
  | 'currentRms'
  | 'seriesResistance'
  | 'maxRise'
  | 'maxTemperature'
  | 'voltageSlope'
  | 'selfInductance'
> {
  readonly dielectric?: string;
  readonly size?: string;
  /** One point at frequency 0 when the file gives a single value for all frequencies. */
  readonly lossTangent?: RatingCurve;
  readonly thermalResistance?: { readonly stillAir?: Rating; readonly fan?: Rating };
}

export type Choke = PartOf<
  'chokes',
  'inductance' | 'resistance' | 'saturationCurrent' | 'tolerance' | 'coreLoss' | 'thermalResistance' | 'maxTemperature'
>;

export interface PartByKind {
  mosfets: Mosfet;
  diodes: Diode;
  zeners: Zener;
  capacitors: Capacitor;
  chokes: Choke;
}
export type Part = PartByKind[PartKind];
