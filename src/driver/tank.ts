import { effectiveSeriesResistance, lossTangentAt } from '../physics/capacitor.ts';
import { chokeFrequencyRatio } from '../physics/push-pull.ts';
import {
  characteristicImpedance,
  dampedFrequencyRatio,
  parallelFromSeries,
  parallelQuality,
  resonantFrequency,
} from '../physics/resonance.ts';
import type { Capacitor } from '../parts/part.ts';
import type { Design, Load } from '../project/design.ts';
import type { Farad, Henry, Hertz, Ohm, Ratio } from '../units/si.ts';
import { coilOf } from './coil.ts';
import { nominalCorner, type Corner } from './corner.ts';
import { DesignError } from './design-error.ts';
import { isKnown, lacks, type Maybe } from './known.ts';
import { rememberingLast } from './last-answer.ts';

/** The tank with one load at one corner. */
export interface Tank {
  readonly inductance: Henry;
  readonly capacitance: Farad;
  /** Of one capacitor. */
  readonly unitCapacitance: Farad;
  /** Of one choke. */
  readonly chokeInductance: Henry;
  readonly impedance: Ohm;
  readonly resonance: Hertz;
  /** Where it runs: chokes and finite quality included. Undefined where it cannot ring (Q of ½ or less). */
  readonly frequency: Hertz | undefined;
  readonly quality: Ratio;
  /** All loss and load, across the tank. */
  readonly parallelResistance: Ohm;
  /** Coil loss alone with this load: the bank's loss figure is a maximum and is not relied upon for damping. */
  readonly leastDampedResistance: Ohm;
  /** Coil alone, no load and no bank loss: the lightest state there is. */
  readonly lightestResistance: Ohm;
  readonly coilResistance: Ohm;
  /** Of one capacitor, at the running frequency. */
  readonly capacitorResistance: Maybe;
  /** Whether the frequency lies within the points of the part's loss-tangent curve. */
  readonly lossTangentInside: boolean;
  /** One choke's inductance over the coil's, as this load shifts it. */
  readonly chokeRatio: Ratio;
}

/** Rating that the whole model rests on. */
function needed(value: number | undefined, { path, what }: { path: string; what: string }): number {
  if (value !== undefined) return value;
  throw new DesignError({ id: 'missing-rating', path, message: `${what} is not given, and nothing can be computed without it` });
}

/** Coil and bank without load, the bank without its loss. */
interface Ring {
  readonly inductance: Henry;
  readonly capacitance: Farad;
  readonly unitCapacitance: Farad;
  readonly impedance: Ohm;
  /** Coil loss alone, across the tank. */
  readonly coilOnly: Ohm;
}

function ringOf({ design, frequencyShift, corner }: { design: Design; frequencyShift: Ratio; corner: Corner }): Ring {
  const { bank } = design.tank;
  const part = bank.capacitor;
  const nominalUnit = needed(part.ratings.capacitance?.value, { path: 'tank.bank.part', what: `the capacitance of ${part.name}` });
  const coil = coilOf(design);
  const unitCapacitance = corner.capacitor * nominalUnit;
  const capacitance = (unitCapacitance * bank.parallel) / bank.series;
  const inductance = (corner.coil * coil.inductance) / (1 + frequencyShift) ** 2;
  const impedance = characteristicImpedance({ inductance, capacitance });
  const coilOnly = parallelFromSeries({ seriesResistance: coil.leastResistance, characteristicImpedance: impedance });
  return { inductance, capacitance, unitCapacitance, impedance, coilOnly };
}

/** Coil and bank without load. */
interface BareTank extends Ring {
  readonly chokeInductance: Henry;
  readonly resonance: Hertz;
  /** Resonance with the chokes' share, before damping. */
  readonly shifted: Hertz;
  readonly capacitorResistance: Maybe;
  readonly lossTangentInside: boolean;
  /** Coil and bank loss, across the tank. */
  readonly unloaded: Ohm;
}

function bareTank({
  design,
  frequencyShift,
  corner,
  coilResistance,
}: {
  design: Design;
  frequencyShift: Ratio;
  corner: Corner;
  coilResistance: Ohm;
}): BareTank {
  const { bank } = design.tank;
  const part = bank.capacitor;
  const choke = design.chokes.choke;
  const { inductance, capacitance, unitCapacitance, impedance, coilOnly } = ringOf({ design, frequencyShift, corner });
  const nominalChoke = needed(choke.ratings.inductance?.value, { path: 'chokes', what: `the inductance of ${choke.name}` });
  const chokeInductance = corner.choke * nominalChoke;
  const resonance = resonantFrequency({ inductance, capacitance });
  const shifted = resonance * chokeFrequencyRatio({ arrangement: design.chokes.arrangement, tankInductance: inductance, chokeInductance });
  const loss = capacitorResistanceAt({ capacitor: part, frequency: shifted, unitCapacitance });
  const seriesOfBank = isKnown(loss.capacitorResistance) ? (loss.capacitorResistance * bank.series) / bank.parallel : 0;
  return {
    inductance,
    capacitance,
    unitCapacitance,
    chokeInductance,
    impedance,
    resonance,
    shifted,
    capacitorResistance: loss.capacitorResistance,
    lossTangentInside: loss.inside,
    coilOnly,
    unloaded: parallelFromSeries({ seriesResistance: coilResistance + seriesOfBank, characteristicImpedance: impedance }),
  };
}

/**
 * The tank's numbers for one load at one corner.
 *
 * @param design          the project
 * @param load            one of its loads
 * @param corner          tolerances
 * @param coilResistance  of the warm coil, in Ω
 * @param added           by the load across the tank, in Ω; Infinity for a load that adds nothing
 * @returns SI numbers
 * Errors: DesignError where a value that everything needs is missing.
 */
export function tankAt({
  design,
  load,
  corner,
  coilResistance,
  added,
}: {
  design: Design;
  load: Load;
  corner: Corner;
  coilResistance: Ohm;
  added: Ohm;
}): Tank {
  const bare = bareTank({ design, frequencyShift: load.frequencyShift ?? 0, corner, coilResistance });
  const parallelResistance = 1 / (1 / bare.unloaded + 1 / added);
  const quality = parallelQuality({ parallelResistance, characteristicImpedance: bare.impedance });
  return {
    inductance: bare.inductance,
    capacitance: bare.capacitance,
    unitCapacitance: bare.unitCapacitance,
    chokeInductance: bare.chokeInductance,
    impedance: bare.impedance,
    resonance: bare.resonance,
    frequency: quality > 0.5 ? bare.shifted * dampedFrequencyRatio({ quality }) : undefined,
    quality,
    parallelResistance,
    leastDampedResistance: 1 / (1 / bare.coilOnly + 1 / added),
    lightestResistance: ringOf({ design, frequencyShift: 0, corner }).coilOnly,
    coilResistance,
    capacitorResistance: bare.capacitorResistance,
    lossTangentInside: bare.lossTangentInside,
    chokeRatio: bare.chokeInductance / bare.inductance,
  };
}

/** Effective series resistance of one capacitor of a bank, and whether its loss tangent is known at that frequency. */
export function capacitorResistanceAt({
  capacitor: part,
  frequency,
  unitCapacitance,
}: {
  capacitor: Capacitor;
  frequency: Hertz;
  unitCapacitance: Farad;
}): { capacitorResistance: Maybe; inside: boolean } {
  if (part.lossTangent === undefined) return { capacitorResistance: lacks({ part: part.name, key: 'lossTangent' }), inside: true };
  const { lossTangent, inside } = lossTangentAt({ points: pointsOf(part.lossTangent), frequency });
  const seriesResistance = part.ratings.seriesResistance?.value ?? 0;
  return {
    capacitorResistance: effectiveSeriesResistance({ lossTangent, seriesResistance, frequency, capacitance: unitCapacitance }),
    inside,
  };
}

const pointsOf = rememberingLast(({ points }: NonNullable<Capacitor['lossTangent']>) =>
  points.map(({ frequency, rating }) => ({ frequency, lossTangent: rating.value })),
);

/**
 * What a load adds across the tank, as it is written. The power form is at nominal supply voltage.
 *
 * @returns Ω; Infinity for a load that adds nothing; undefined for one given by its loaded Q
 */
export function statedResistance({ design, load }: { design: Design; load: Load }): Ohm | undefined {
  if (load.parallelResistance !== undefined) return load.parallelResistance;
  if (load.power !== undefined) return load.power > 0 ? (Math.PI * design.supply.voltage) ** 2 / (2 * load.power) : Infinity;
  return load.loadedQ === undefined ? Infinity : undefined;
}

/**
 * What a load adds across the nominal tank for a loaded Q, which includes everything.
 *
 * @returns `added` in Ω, not above zero where coil and bank have no more than that by their own loss; `ownQuality` that they have
 */
export function resistanceForQuality({
  design,
  load: { frequencyShift = 0 },
  quality,
  coilResistance,
}: {
  design: Design;
  load: Load;
  quality: Ratio;
  coilResistance: Ohm;
}): { added: Ohm; ownQuality: Ratio } {
  const { unloaded, impedance } = bareTank({ design, frequencyShift, corner: nominalCorner, coilResistance });
  return { added: 1 / (1 / (quality * impedance) - 1 / unloaded), ownQuality: unloaded / impedance };
}
