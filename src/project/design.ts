import type { Capacitor, Choke, Diode, Mosfet, Zener } from '../parts/part.ts';
import type { Location } from '../source/location.ts';
import type { Ampere, Farad, Henry, Hertz, Kelvin, KelvinPerWatt, Metre, Ohm, Ratio, Second, Volt, Watt } from '../units/si.ts';

/** A validated project file: SI numbers, parts resolved. An absent property was absent in the file. */
export interface Design {
  readonly title?: string;
  readonly supply: Supply;
  readonly chokes: Chokes;
  readonly tank: { readonly coil: Coil; readonly bank: Bank };
  /** At least one; a file without `loads` gets one load named `no load`. */
  readonly loads: readonly Load[];
  readonly switches: Switches;
  readonly gates: Gates;
  readonly environment: { readonly ambient?: Kelvin; readonly access?: 'public' | 'trained' };
  /** By check id: the levels as written, read with the policy since only the check knows their dimension. */
  readonly limits: Readonly<Record<string, LimitOverride>>;
  readonly readings: Readonly<Partial<Record<ReadingKey, Reading>>>;
  /** How the readings were taken, where it is not with the lightest load at the project's own voltage. */
  readonly readingsAt?: { readonly load?: string; readonly supplyVoltage?: Reading };
  /** Position of a key path such as `supply.voltage` or `loads.1.power`; of the nearest parent when the key is absent. */
  readonly locate: (path: string) => Location;
}

export interface Supply {
  readonly voltage: Volt;
  readonly tolerance?: Ratio;
  readonly riseTime?: Second;
  readonly resistance?: Ohm;
  readonly currentLimit?: { readonly current: Ampere; readonly kind: 'constant' | 'foldback' | 'hiccup' };
  readonly bulkCapacitance?: Farad;
  readonly leadInductance?: Henry;
}

export interface Chokes {
  readonly arrangement: 'two' | 'centre-tap';
  readonly choke: Choke;
}

/** Measured: inductance and resistance. Or by its geometry, which may stand beside measured values for heat and field. */
export interface Coil {
  readonly inductance?: Henry;
  readonly resistance?: Ohm;
  /** Of the coil when it has that resistance; cold where it is not said. */
  readonly resistanceAt?: Kelvin;
  readonly tolerance?: Ratio;
  readonly geometry?: CoilGeometry;
}

export const coilShapes = ['loop', 'solenoid', 'spiral', 'bundle'] as const;
export const conductorShapes = ['tube', 'wire', 'litz'] as const;
export const conductorMaterials = ['copper', 'phosphorus copper', 'aluminium', 'brass', 'silver'] as const;

export interface CoilGeometry {
  readonly shape: (typeof coilShapes)[number];
  /** To the axis of the conductor; of a spiral its outer one. */
  readonly diameter: Metre;
  readonly turns: number;
  /** Centre to centre of neighbouring turns: solenoid and spiral. */
  readonly pitch?: Metre;
  /** Of the section of a bundle. */
  readonly bundleDiameter?: Metre;
  readonly conductor: Conductor;
  readonly leads?: { readonly length: Metre; readonly spacing: Metre };
  readonly cooling: 'air' | 'water';
}

export interface Conductor {
  readonly shape: (typeof conductorShapes)[number];
  readonly outerDiameter: Metre;
  readonly wall?: Metre;
  readonly strands?: number;
  readonly strandDiameter?: Metre;
  readonly material: (typeof conductorMaterials)[number];
  readonly emissivity?: Ratio;
}

export interface Bank {
  readonly capacitor: Capacitor;
  readonly parallel: number;
  readonly series: number;
  readonly cooling: 'still air' | 'fan';
}

export interface Load {
  readonly name: string;
  readonly power?: Watt;
  readonly parallelResistance?: Ohm;
  readonly loadedQ?: Ratio;
  readonly frequencyShift?: Ratio;
}

export interface Switches {
  readonly mosfet: Mosfet;
  readonly parallel: number;
  readonly heatsink?: KelvinPerWatt;
  readonly insulator?: KelvinPerWatt;
}

export interface Gates {
  readonly pullUp: { readonly resistance: Ohm; readonly power?: Watt; readonly from: 'supply' | Volt; readonly hold: boolean };
  readonly pullDown?: Ohm;
  readonly clamp?: Zener;
  readonly crossDiode: Diode;
}

export interface LimitOverride {
  readonly warn?: string;
  readonly fail?: string;
}

export const readingKeys = [
  'frequency',
  'drainPeak',
  'tankCurrentPeak',
  'supplyCurrentIdle',
  'supplyCurrentLoaded',
  'gateHigh',
  'capacitorTemperature',
  'switchTemperature',
  'coilTemperature',
] as const;
export type ReadingKey = (typeof readingKeys)[number];

/** SI value (a temperature in kelvin); the uncertainty is in the same unit. */
export interface Reading {
  readonly value: Hertz | Volt | Ampere | Kelvin;
  readonly uncertainty?: number;
}
