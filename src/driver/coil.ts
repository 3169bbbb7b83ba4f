import { conductorTemperature } from '../physics/conductor-temperature.ts';
import type { Design } from '../project/design.ts';
import type { AmperePerSquareMetre, CubicMetrePerSecond, Henry, Kelvin, Ohm, Ratio, Watt } from '../units/si.ts';
import { coolantFlow } from '../physics/water-cooling.ts';
import { windingOf, type Winding } from './coil-winding.ts';
import { capacitorToleranceOf } from './capacitor-tolerance.ts';
import { DesignError } from './design-error.ts';
import type { Maybe } from './known.ts';
import { assumedAmbient } from './ambient.ts';

/** The tank coil as the driver sees it. */
export interface CoilValues {
  readonly inductance: Henry;
  /** Both ways: the project's own, and of a geometry the error of its formula. */
  readonly tolerance: Ratio;
  /** While running, warm, at the upper bound of its neighbours' effect. */
  readonly resistance: Ohm;
  /** Cold, at the lower bound: what damps for sure. */
  readonly leastResistance: Ohm;
  readonly temperature: Maybe;
  /** Effective: the current over the area that carries it at this frequency, per ampere of coil current. */
  readonly densityPerAmpere: number | { readonly unknown: string };
  /** Undefined for a coil given by measured values. */
  readonly winding?: Winding;
  /** Water that a coil so cooled needs for a rise of `waterRise`. */
  readonly waterFlow?: CubicMetrePerSecond;
}

/** Rise of the cooling water that is taken. */
export const waterRise = 20;

const notGiven = {
  unknown: 'tank.coil is given by measured values: write shape, diameter, turns and conductor for its temperature and field',
};

/** Surfaces of neighbouring turns face each other and keep each other's air: half of the surface is taken to cool. */
const shaded = 2;

/** By tank, with what else the coil rests on: designs that differ elsewhere share it. */
const known = new WeakMap<Design['tank'], { supply: Design['supply']; environment: Design['environment']; values: CoilValues }>();
/** By tank, which a design with another supply shares: the crowding of the current takes time. */
const windings = new WeakMap<Design['tank'], Winding>();

/** The coil of a design: measured, or computed from its geometry. Computed once for a tank with its supply in its surroundings. */
export function coilOf({ tank, supply, environment }: CoilDesign): CoilValues {
  const found = known.get(tank);
  if (found?.supply === supply && found.environment === environment) return found.values;
  const values = computed({ tank, supply, environment });
  known.set(tank, { supply, environment, values });
  return values;
}

/** What a coil rests on. */
type CoilDesign = Pick<Design, 'tank' | 'supply' | 'environment'>;

function computed(design: CoilDesign): CoilValues {
  const { coil, bank } = design.tank;
  const { geometry } = coil;
  const tolerance = coil.tolerance ?? 0;
  const capacitance = ((bank.capacitor.ratings.capacitance?.value ?? 1e-6) * bank.parallel) / bank.series;
  if (geometry === undefined) {
    const { inductance = 0, resistance = 0 } = coil;
    return { inductance, tolerance, resistance, leastResistance: resistance, temperature: notGiven, densityPerAmpere: notGiven };
  }
  const winding = windings.get(design.tank) ?? possible(() => windingOf({ geometry, measured: coil, capacitance }));
  windings.set(design.tank, winding);
  const inductance = coil.inductance ?? winding.inductance;
  const error = coil.inductance === undefined ? winding.error : 0;
  const ambient = design.environment.ambient ?? assumedAmbient;
  const impedance = Math.sqrt((inductance * (1 - tolerance)) / (capacitance * (1 + capacitorToleranceOf(design))));
  const current = (Math.PI * design.supply.voltage * (1 + (design.supply.tolerance ?? 0))) / impedance / Math.SQRT2;
  const heat = heated({ design, winding, current, ambient });
  const resistance = coil.resistance ?? winding.resistanceAt(heat.warm).most;
  return {
    inductance,
    tolerance: (1 + tolerance) * (1 + error) - 1,
    resistance,
    leastResistance: coil.resistance ?? winding.resistanceAt(Math.min(ambient, 293.15)).least,
    temperature: heat.temperature,
    densityPerAmpere: densityPerAmpere({ winding, temperature: heat.warm }),
    winding,
    ...(heat.waterFlow === undefined ? {} : { waterFlow: heat.waterFlow }),
  };
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

/** Temperature of the conductor at the worst current, and the temperature its resistance is taken at. */
function heated({ design, winding, current, ambient }: { design: CoilDesign; winding: Winding; current: number; ambient: Kelvin }): {
  temperature: Maybe;
  warm: Kelvin;
  waterFlow?: CubicMetrePerSecond;
} {
  const { geometry } = winding;
  // a measured resistance that is more than that of the geometry heats more
  const more = Math.max(1, (design.tank.coil.resistance ?? 0) / winding.resistanceAt(293.15).most);
  const lossAt = (temperature: Kelvin): Watt => more * current ** 2 * winding.resistanceAt(temperature).most;
  if (geometry.cooling === 'water') {
    const warm = ambient + waterRise;
    const waterFlow = coolantFlow({ power: Math.max(1e-9, lossAt(warm)), rise: waterRise });
    const bore = geometry.conductor.outerDiameter - 2 * (geometry.conductor.wall ?? 0);
    const isTooMuch = waterFlow > swiftestWater * (Math.PI / 4) * bore ** 2;
    const unknown = `the coil would need more water than flows through its bore at ${swiftestWater} m/s`;
    return { temperature: isTooMuch ? { unknown } : warm, warm, waterFlow };
  }
  const found = conductorTemperature({
    diameter: geometry.conductor.outerDiameter,
    emissivity: winding.emissivity,
    ambient,
    lossAt: (temperature) => ((winding.isAlone ? 1 : shaded) * lossAt(temperature)) / winding.length,
    searchTo: hottest,
  });
  const temperature = found.found ? found.temperature : hottest;
  return { temperature, warm: temperature };
}

/** Velocity of water in a bore that a pump still drives. */
const swiftestWater = 2;

/** End of the resistivity's straight line; a coil that does not settle below it is taken to be this hot. */
const hottest: Kelvin = 600;

function densityPerAmpere({ winding, temperature }: { winding: Winding; temperature: Kelvin }): AmperePerSquareMetre {
  return winding.ownResistanceAt(temperature) / winding.resistivityAt(temperature);
}
