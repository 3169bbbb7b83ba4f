import { conductorTemperature } from '../physics/conductor-temperature.ts';
import { coolantFlow } from '../physics/water-cooling.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ampere, AmperePerSquareMetre, CubicMetrePerSecond, Kelvin, Ohm, Ratio, Watt } from '../units/si.ts';
import { assumedAmbient } from './ambient.ts';
import { capacitorToleranceOf } from './capacitor-tolerance.ts';
import type { Winding } from './coil-winding.ts';
import { bankCapacitance, coilOf } from './coil.ts';
import { nominalCorner, type Corner } from './corner.ts';
import type { Maybe, Unknown } from './known.ts';

/** The tank coil as warm as a current makes it. */
export interface WarmCoil {
  /** At the upper bound of its neighbours' effect. */
  readonly resistance: Ohm;
  /** Where it settles; where it does not, the end of the search, which it is hotter than. */
  readonly temperature: Maybe;
  readonly settles: boolean;
  /** What its resistance is taken at; of a coil given by measured values the ambient's. */
  readonly warm: Kelvin;
  /** Effective: the current over the area that carries it at this frequency, per ampere of coil current. */
  readonly densityPerAmpere: AmperePerSquareMetre | Unknown;
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

const known = new WeakMap<Design, WarmCoil>();
/** By tank too, then by what else the coil's heat hangs on: a design that only starts in another way has the same coil. */
const ofTank = new WeakMap<Design['tank'], Map<string, WarmCoil>>();

/** The coil at its hottest: with the highest current of all corners, as every corner is judged. Computed once for a design. */
export function hottestCoil(design: Design): WarmCoil {
  const found = known.get(design) ?? sameCoil(design);
  known.set(design, found);
  return found;
}

function sameCoil(design: Design): WarmCoil {
  const { supply, environment, tank } = design;
  const coils = ofTank.get(tank) ?? new Map<string, WarmCoil>();
  ofTank.set(tank, coils);
  const key = `${supply.voltage} ${supply.tolerance} ${environment.ambient} ${mostDetuned(design)}`;
  const found = coils.get(key) ?? warmCoil({ design, current: highestCurrent(design) });
  coils.set(key, found);
  return found;
}

/** How far a load shifts the frequency up, which it does by less inductance. */
function mostDetuned({ loads }: Design): Ratio {
  return Math.max(0, ...loads.map(({ frequencyShift = 0 }) => frequencyShift));
}

/** Where the coil carries most: at the highest supply and the lowest impedance. */
function highestCurrent(design: Design): Ampere {
  const corner = {
    supply: 1 + (design.supply.tolerance ?? 0),
    coil: 1 - coilOf(design).tolerance,
    capacitor: 1 + capacitorToleranceOf(design),
  };
  return losslessCurrent({ design, corner }) * (1 + mostDetuned(design));
}

/** By ambient and current: many builds have one winding. */
const ofWinding = new WeakMap<Winding, Map<string, WarmCoil>>();
/** From one current to the next at which the coil of a build is computed. */
const currentStep: Ratio = 1.001;

/** The coil of one build, as hot as the highest current of its loads makes it, rounded up to a tenth of a percent. */
export function hottestCoilAt({ design, corner }: { design: Design; corner: Corner }): WarmCoil {
  const { winding } = coilOf(design);
  const current = losslessCurrent({ design, corner }) * (1 + mostDetuned(design));
  if (winding === undefined) return warmCoil({ design, current });
  const coils = ofWinding.get(winding) ?? new Map<string, WarmCoil>();
  ofWinding.set(winding, coils);
  const steps = Math.ceil(Math.log(current) / Math.log(currentStep));
  const key = `${design.environment.ambient} ${steps}`;
  const found = coils.get(key) ?? warmCoil({ design, current: currentStep ** steps });
  coils.set(key, found);
  return found;
}

/** Current of the coil, rms, with nothing lost on the way. */
function losslessCurrent({ design, corner }: { design: Design; corner: Omit<Corner, 'choke'> }): Ampere {
  const impedance = Math.sqrt((coilOf(design).inductance * corner.coil) / (bankCapacitance(design.tank) * corner.capacitor));
  return (Math.PI * design.supply.voltage * corner.supply) / impedance / Math.SQRT2;
}

/**
 * The coil as warm as a current makes it.
 *
 * @param design   the project
 * @param current  of the coil, rms, in A
 */
export function warmCoil({ design, current }: { design: Design; current: Ampere }): WarmCoil {
  const { winding } = coilOf(design);
  const { resistance: measured, resistanceAt } = design.tank.coil;
  const ambient = design.environment.ambient ?? assumedAmbient;
  if (winding === undefined)
    return { resistance: measured ?? 0, temperature: notGiven, settles: true, warm: ambient, densityPerAmpere: notGiven };
  const heat = heated({ winding, measured, measuredAt: resistanceAt, current, ambient });
  return {
    ...heat,
    resistance: measured ?? winding.resistanceAt(heat.warm).most,
    densityPerAmpere: winding.ownResistanceAt(heat.warm) / winding.resistivityAt(heat.warm),
  };
}

function heated({
  winding,
  measured = 0,
  measuredAt = 293.15,
  current,
  ambient,
}: {
  winding: Winding;
  measured: Ohm | undefined;
  measuredAt: Kelvin | undefined;
  current: Ampere;
  ambient: Kelvin;
}): Pick<WarmCoil, 'temperature' | 'settles' | 'warm' | 'waterFlow'> {
  const { geometry } = winding;
  // a measured resistance that is more than that of the geometry heats more
  const more = Math.max(1, measured / winding.resistanceAt(measuredAt).most);
  const lossAt = (temperature: Kelvin): Watt => more * current ** 2 * winding.resistanceAt(temperature).most;
  if (geometry.cooling === 'water') {
    const warm = ambient + waterRise;
    const waterFlow = coolantFlow({ power: Math.max(1e-9, lossAt(warm)), rise: waterRise });
    const bore = geometry.conductor.outerDiameter - 2 * (geometry.conductor.wall ?? 0);
    const isTooMuch = waterFlow > swiftestWater * (Math.PI / 4) * bore ** 2;
    const unknown = `the coil would need more water than flows through its bore at ${swiftestWater} m/s`;
    return { temperature: isTooMuch ? { unknown } : warm, settles: true, warm, waterFlow };
  }
  const found = conductorTemperature({
    diameter: geometry.conductor.outerDiameter,
    emissivity: winding.emissivity,
    ambient,
    lossAt: (temperature) => ((winding.isAlone ? 1 : shaded) * lossAt(temperature)) / winding.length,
    searchTo: hottest,
  });
  const temperature = found.found ? found.temperature : hottest;
  return { temperature, settles: found.found, warm: temperature };
}

/** A current that changes by less has settled. */
const settled: Ratio = 1e-6;
const mostSteps = 60;

/**
 * A state of the driver with its coil as warm as its own current makes it, which falls as the coil warms.
 *
 * @param design     the project
 * @param stateWith  the state with the coil so warm
 * @param currentOf  of the coil in a state, rms, in A
 */
export function settledState<State>({
  design,
  stateWith,
  currentOf,
}: {
  design: Design;
  stateWith: (coil: WarmCoil) => State;
  currentOf: (state: State) => Ampere;
}): State {
  const isFixed = coilOf(design).winding === undefined;
  let current = losslessCurrent({ design, corner: nominalCorner });
  let [low, high] = [0, Infinity];
  let before: { readonly current: Ampere; readonly excess: Ampere } | undefined;
  for (let step = 0; ; step++) {
    const state = stateWith(warmCoil({ design, current }));
    const excess = currentOf(state) - current;
    if (isFixed || Math.abs(excess) <= settled * current || step === mostSteps) return state;
    if (excess > 0) low = current;
    else high = current;
    const straight = before === undefined ? [] : [(excess * (current - before.current)) / (before.excess - excess)];
    const next = [...straight, excess].map((ahead) => current + ahead).find((one) => one >= low && one < high);
    before = { current, excess };
    current = next ?? (low + high) / 2;
  }
}

/** Velocity of water in a bore that a pump still drives. */
const swiftestWater = 2;

/** The temperature that a coil settles at, for what is expected of it; unknown where it settles at none. */
export function steadyTemperature({ temperature, settles }: WarmCoil): Maybe {
  return settles
    ? temperature
    : { unknown: `the coil does not settle below ${formatQuantity({ value: hottest, dimension: 'temperature' })}` };
}

/** End of the resistivity's straight line; a coil that does not settle below it is taken to be this hot. */
const hottest: Kelvin = 600;
