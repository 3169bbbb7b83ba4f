import type { Part } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import type { Henry, Ohm, Volt } from '../units/si.ts';
import { coilOf } from '../driver/coil.ts';

/** What a drawing of the circuit shows of a design. */
export interface CircuitOutline {
  readonly voltage: Volt;
  readonly hasBulk: boolean;
  readonly arrangement: 'two' | 'centre-tap';
  readonly choke: string;
  readonly coilInductance: Henry;
  readonly capacitor: string;
  readonly parallel: number;
  readonly series: number;
  readonly mosfet: string;
  /** Switches in parallel on each side. */
  readonly switchesEach: number;
  readonly gateFeed: 'supply' | Volt;
  readonly gatesHeld: boolean;
  readonly pullUp: Ohm;
  readonly pullDown?: Ohm;
  readonly clamp?: string;
  readonly crossDiode: string;
}

/** The outline of a design's circuit. */
export function circuitOutline(design: Design): CircuitOutline {
  const { supply, chokes, tank, switches, gates } = design;
  return {
    voltage: supply.voltage,
    hasBulk: (supply.bulkCapacitance ?? 0) > 0,
    arrangement: chokes.arrangement,
    choke: chokes.choke.name,
    coilInductance: coilOf(design).inductance,
    capacitor: tank.bank.capacitor.name,
    parallel: tank.bank.parallel,
    series: tank.bank.series,
    mosfet: switches.mosfet.name,
    switchesEach: switches.parallel,
    gateFeed: gates.pullUp.from,
    gatesHeld: gates.pullUp.hold,
    pullUp: gates.pullUp.resistance,
    ...(gates.pullDown === undefined ? {} : { pullDown: gates.pullDown }),
    ...(gates.clamp === undefined ? {} : { clamp: gates.clamp.name }),
    crossDiode: gates.crossDiode.name,
  };
}

/**
 * All that a design takes from its parts, as one text that is equal for equal data wherever it is written: keys sorted, places left out.
 */
export function partsText({ switches, gates, tank, chokes }: Design): string {
  const parts: readonly Part[] = [
    switches.mosfet,
    gates.crossDiode,
    ...(gates.clamp === undefined ? [] : [gates.clamp]),
    tank.bank.capacitor,
    chokes.choke,
  ];
  return JSON.stringify(parts.map(sorted));
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== 'where')
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, sorted(inner)]),
  );
}
