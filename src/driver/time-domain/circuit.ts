import type { CapacitancePoint } from '../../physics/junction-charge.ts';
import type { Ampere, AmperePerVoltSquared, Farad, Henry, Ohm, Ratio, Second, Volt } from '../../units/si.ts';

/** Values of a junction, see junctionsOf. */
export interface JunctionValues {
  readonly saturation: Ampere;
  /** n·V_T, in V. */
  readonly emission: Volt;
  readonly slope: Ohm;
}

/** Values of a switch, see channelsOf. */
export interface ChannelValues {
  readonly constant: AmperePerVoltSquared;
  readonly series: Ohm;
  readonly threshold: Volt;
}

/** Every value of the circuit that the time domain solves. SI numbers. */
export interface Circuit {
  readonly arrangement: 'two' | 'centre-tap';
  readonly supply: {
    readonly voltage: Volt;
    readonly riseTime: Second;
    /** A fall of the source to a share of its voltage, and its return. */
    readonly dip?: { readonly from: Second; readonly until: Second; readonly share: Ratio };
    /** How long the source has been rising at time 0. */
    readonly rising: Second;
    readonly resistance: Ohm;
    /** Ls and Cb; undefined for a rail behind the resistance alone. */
    readonly buffer?: { readonly inductance: Henry; readonly capacitance: Farad };
    /** Current from which the source gives way, and the resistance it then adds. */
    readonly limit?: { readonly current: Ampere; readonly resistance: Ohm };
  };
  readonly choke: { readonly inductance: Henry; readonly resistance: Ohm };
  readonly tank: {
    readonly inductance: Henry;
    readonly coilResistance: Ohm;
    readonly capacitance: Farad;
    /** Load across the tank: before `removedAt`, and from then on. */
    readonly load: Ohm;
    readonly loadAfter: Ohm;
    readonly changesAt: Second;
  };
  readonly switches: readonly [ChannelValues, ChannelValues];
  readonly capacitances: {
    readonly gateToSource: Farad;
    readonly gateToDrain: Farad;
    readonly drainToSource: Farad;
    /** In place of the two constants: over the voltage from gate to drain, taken as drain less gate, and from drain to source. */
    readonly overVoltage?: { readonly gateToDrain: readonly CapacitancePoint[]; readonly drainToSource: readonly CapacitancePoint[] };
  };
  readonly bodyDiode: JunctionValues;
  /** Drain voltage that breaks down; undefined to let the drains rise. */
  readonly breakdown?: Volt;
  readonly gates: {
    readonly pullUp: Ohm;
    readonly pullDown: Ohm;
    /** Undefined for gates fed from the supply's rail at the driver. */
    readonly rail?: Volt;
    /** Until then both gates are held low. */
    readonly releasedAt: Second;
    readonly clamp?: { readonly voltage: Volt; readonly resistance: Ohm };
    readonly crossDiode: JunctionValues;
  };
}

/** Places of the state: drains, coil, chokes, gates, and with a buffer the rail and the current of its leads. */
export const place = { drainA: 0, drainB: 1, coil: 2, chokeA: 3, chokeB: 4, gateA: 5, gateB: 6, rail: 7, lead: 8 } as const;

/** Number of states of a circuit. */
export function stateCount({ supply }: Circuit): number {
  return supply.buffer === undefined ? 7 : 9;
}
