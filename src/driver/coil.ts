import type { Design } from '../project/design.ts';
import type { Farad, Henry, Kelvin, Ohm, Ratio } from '../units/si.ts';
import { assumedAmbient } from './ambient.ts';
import { windingOf, type Winding } from './coil-winding.ts';
import { DesignError } from './design-error.ts';

/** The tank coil as the driver sees it, whatever current flows in it. */
export interface CoilValues {
  readonly inductance: Henry;
  /** Both ways: the project's own, and of a geometry the error of its formula. */
  readonly tolerance: Ratio;
  /** Cold, at the lower bound: what damps for sure. */
  readonly leastResistance: Ohm;
  /** Undefined for a coil given by measured values. */
  readonly winding?: Winding;
}

/** By tank, which a design with another supply shares: the crowding of the current takes time. */
const windings = new WeakMap<Design['tank'], Winding>();

/** A coil that was asked for last: every load, corner and check of a design asks for the same. */
let last: { readonly tank: Design['tank']; readonly ambient: Kelvin; readonly coil: CoilValues } | undefined;

/** The coil of a design: measured, or computed from its geometry. */
export function coilOf({ tank, environment: { ambient = assumedAmbient } }: Design): CoilValues {
  if (last?.tank !== tank || last.ambient !== ambient) last = { tank, ambient, coil: computed({ tank, ambient }) };
  return last.coil;
}

function computed({ tank, ambient }: { tank: Design['tank']; ambient: Kelvin }): CoilValues {
  const { coil } = tank;
  const { geometry } = coil;
  const tolerance = coil.tolerance ?? 0;
  if (geometry === undefined) {
    const { inductance = 0, resistance = 0 } = coil;
    return { inductance, tolerance, leastResistance: resistance };
  }
  const winding = windings.get(tank) ?? possible(() => windingOf({ geometry, measured: coil, capacitance: bankCapacitance(tank) }));
  windings.set(tank, winding);
  const error = coil.inductance === undefined ? winding.error : 0;
  return {
    inductance: coil.inductance ?? winding.inductance,
    tolerance: (1 + tolerance) * (1 + error) - 1,
    leastResistance: coil.resistance ?? winding.resistanceAt(Math.min(ambient, 293.15)).least,
    winding,
  };
}

/** Of the whole bank; 1 µF where the part gives none, which is told by what needs it. */
export function bankCapacitance({ bank: { capacitor, parallel, series } }: Design['tank']): Farad {
  return ((capacitor.ratings.capacitance?.value ?? 1e-6) * parallel) / series;
}

/** What no formula can be asked, since the geometry cannot be, is said at the coil. */
function possible(winding: () => Winding): Winding {
  try {
    return winding();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const help = 'change the dimensions, or write inductance and resistance as measured';
    throw new DesignError({
      id: 'impossible-geometry',
      path: 'tank.coil',
      message: `this coil cannot be computed: ${error.message}`,
      help,
    });
  }
}
