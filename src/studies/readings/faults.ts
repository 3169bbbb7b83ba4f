import { switchModelOf } from '../../driver/switch-model.ts';
import { isKnown } from '../../driver/known.ts';
import { nominalPoint } from '../../driver/operating-point.ts';
import type { Design } from '../../project/design.ts';
import type { Rating } from '../../parts/part.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import type { Ratio } from '../../units/si.ts';
import type { ReadingModel } from './model.ts';
import { scaledLoad } from './model.ts';
import { otherCoils, scaledCoil } from './other-coils.ts';

/** A fault of one size that a driver may have. */
export interface Fault {
  readonly id: FaultId;
  /** In words, with the size. */
  readonly words: string;
  readonly change: (design: Design) => Design;
  /** Of the loads of the readings, where it changes one. */
  readonly loads?: Ratio;
}

export const faultIds = [
  'lost-capacitor',
  'wrong-marking',
  'other-coil',
  'shorted-turn',
  'wrong-dielectric',
  'slow-gate',
  'partial-latch',
  'saturated-choke',
  'other-load',
  'source-resistance',
] as const;
export type FaultId = (typeof faultIds)[number];

/** What one looks at to tell a fault from the others. */
export const faultEvidence: Readonly<Record<FaultId, string>> = {
  'lost-capacitor': 'frequency up by 1/√ of what is left, everything else almost as it was; measure each capacitor, resolder',
  'wrong-marking': 'frequency far off, tank current with it; measure one capacitor alone',
  'other-coil': 'frequency and tank current up together, or down; count the turns, measure L with the bank off',
  'shorted-turn': 'frequency up and idle current up together; look for touching turns, measure L with the bank off',
  'wrong-dielectric':
    'idle current and capacitor temperature up at the right frequency; polyester and class 2 ceramic lose ten times what polypropylene does',
  'slow-gate': 'supply current and switch temperature up with and without load; look at the gate’s rise, pull-up and gate rail',
  'partial-latch':
    'supply current and switch temperature up, more under load; look at the gate of the off switch: it must stay below the threshold',
  'saturated-choke': 'frequency up under load, current of a choke with peaks; measure the choke’s current',
  'other-load': 'supply current under load alone is off; the load is not what the project says',
  'source-resistance': 'drain peak down under load, with the supply’s own voltage as it should be; measure the voltage at the driver',
};

const scaled = (rating: Rating | undefined, factor: Ratio): Rating | undefined =>
  rating === undefined ? undefined : { ...rating, value: rating.value * factor };

/** Sizes that are looked at. Values of the E6 series next to each other differ by 1.5; a slip of the marking by ten. */
const markings: readonly Ratio[] = [0.1, 0.22, 0.33, 0.47, 0.68, 1.5, 2.2, 3.3, 4.7, 10];
const turnsLeft: readonly Ratio[] = [0.97, 0.94, 0.9, 0.85, 0.8, 0.7, 0.6, 0.5];
const turnLosses: readonly Ratio[] = [2, 4, 8, 16];
/** Loss tangents of polyester film and of class 2 ceramic: class, from memory. */
const lossTangents: readonly Ratio[] = [0.005, 0.01, 0.02, 0.04];
const pullUps: readonly Ratio[] = [1.5, 2, 3, 5, 10];
/** In V; leaks below this share of the supply's power are not looked at. */
const thresholdStep = 0.02;
const leastLeak: Ratio = 0.01;
const mostThresholds = 8;
const chokesLeft: readonly Ratio[] = [0.5, 0.3, 0.2, 0.1];
const loadFactors: readonly Ratio[] = [0.3, 0.5, 0.7, 1.5, 2, 3];
const sourceFactors: readonly Ratio[] = [3, 6, 12];

/** Every fault that a driver is held against. */
export function faultsFor({ model, original }: { model: ReadingModel; original: Design }): readonly Fault[] {
  const { design, loaded } = model;
  const { bank } = design.tank;
  const percent = (value: Ratio): string => formatQuantity({ value, dimension: 'ratio', digits: 2 });
  return [
    ...lostCapacitors(design),
    ...markings.map((factor): Fault => ({
      id: 'wrong-marking',
      words: `capacitors of ${formatQuantity({ value: factor * (bank.capacitor.ratings.capacitance?.value ?? 0), dimension: 'capacitance' })} each`,
      change: withCapacitance(factor),
    })),
    ...otherCoils(original),
    ...(original.tank.coil.geometry !== undefined && original.tank.coil.geometry.turns < 2
      ? []
      : turnsLeft.flatMap((left) =>
          turnLosses.map((loss): Fault => ({
            id: 'shorted-turn',
            words: `a shorted turn that leaves ${percent(left)} of L and ${loss} times the coil’s loss`,
            change: scaledCoil({ inductance: left, resistance: loss }),
          })),
        )),
    ...lossTangents.flatMap((value): readonly Fault[] => withLoss({ design, value })),
    ...pullUps.map((factor): Fault => ({
      id: 'slow-gate',
      words: `gates that rise as with ${factor} times the pull-up`,
      change: (of) => ({ ...of, gates: { ...of.gates, pullUp: { ...of.gates.pullUp, resistance: factor * of.gates.pullUp.resistance } } }),
    })),
    ...leakingThresholds(model),
    ...(chokesMaySaturate(model) ? chokesLeft : []).map((left): Fault => ({
      id: 'saturated-choke',
      words: `chokes at ${percent(left)} of their inductance`,
      change: withChoke(left),
    })),
    ...(loaded === undefined
      ? []
      : loadFactors.map((factor): Fault => ({
          id: 'other-load',
          words: `a load of ${formatQuantity({ value: scaledLoad(loaded, factor).parallelResistance ?? 0, dimension: 'resistance' })} across the tank`,
          change: (of) => of,
          loads: factor,
        }))),
    ...(design.supply.resistance === undefined || design.supply.resistance === 0
      ? []
      : sourceFactors.map((factor): Fault => ({
          id: 'source-resistance',
          words: `source and leads of ${formatQuantity({ value: factor * design.supply.resistance!, dimension: 'resistance' })}`,
          change: (of) => ({ ...of, supply: { ...of.supply, resistance: factor * (of.supply.resistance ?? 0) } }),
        }))),
  ];
}

/** Share of the stated saturation current from which a choke's real one is doubted: half of it, which the spread of cores does not reach. */
const doubted: Ratio = 0.5;

/** Whether the chokes carry enough under the load of the readings for saturation to be thought of. */
function chokesMaySaturate({ design, at, loaded = at }: ReadingModel): boolean {
  const stated = design.chokes.choke.ratings.saturationCurrent?.value;
  if (stated === undefined) return true;
  const peaks = [at, loaded].map((load) => nominalPoint({ design, load }).running?.chokePeak ?? 0);
  return Math.max(...peaks) > doubted * stated;
}

function lostCapacitors(design: Design): readonly Fault[] {
  const { parallel } = design.tank.bank;
  return Array.from({ length: Math.min(6, Math.floor(parallel / 2)) }, (_, i): Fault => ({
    id: 'lost-capacitor',
    words: `${i + 1} of ${parallel} capacitors lost`,
    change: (of) => ({ ...of, tank: { ...of.tank, bank: { ...of.tank.bank, parallel: parallel - i - 1 } } }),
  }));
}

/** A design whose capacitors are so many times as large. */
export function withCapacitance(factor: Ratio): (design: Design) => Design {
  return (design) => {
    const { bank } = design.tank;
    const { ratings } = bank.capacitor;
    const capacitance = scaled(ratings.capacitance, factor);
    const capacitor = { ...bank.capacitor, ratings: { ...ratings, ...(capacitance === undefined ? {} : { capacitance }) } };
    return { ...design, tank: { ...design.tank, bank: { ...bank, capacitor } } };
  };
}

function withLoss({ design, value }: { design: Design; value: Ratio }): readonly Fault[] {
  const curve = design.tank.bank.capacitor.lossTangent;
  const [first] = curve?.points ?? [];
  if (curve === undefined || first === undefined || curve.points.some(({ rating }) => rating.value >= value)) return [];
  return [
    {
      id: 'wrong-dielectric',
      words: `capacitors of loss tangent ${value}`,
      change: (of) => {
        const { bank } = of.tank;
        const lossTangent = { points: [{ frequency: 0, rating: { ...first.rating, value } }] };
        return { ...of, tank: { ...of.tank, bank: { ...bank, capacitor: { ...bank.capacitor, lossTangent } } } };
      },
    },
  ];
}

/** Thresholds low enough for the off switch to leak and high enough not to latch: a narrow band, which so many steps of it cover. */
function leakingThresholds({ design, loaded, idle }: ReadingModel): readonly Fault[] {
  const { thresholdTypical, thresholdMin, thresholdMax } = design.switches.mosfet.ratings;
  const base = thresholdTypical ?? thresholdMin ?? thresholdMax;
  const typical = switchModelOf(design).thresholdTypical(298.15);
  if (base === undefined || !isKnown(typical)) return [];
  const load = loaded ?? idle;
  const faults = Array.from({ length: Math.floor(typical / thresholdStep) }, (_, i): Fault => {
    const value = typical - (i + 1) * thresholdStep;
    return {
      id: 'partial-latch',
      words: `thresholds of ${formatQuantity({ value, dimension: 'voltage' })} warm, which the gate of the off switch passes`,
      change: withThreshold({ ...base, value }),
    };
  });
  const leaking = faults.filter(({ change }) => {
    const { running } = nominalPoint({ design: change(design), load });
    if (running === undefined || running.losses === 'latched' || 'unknown' in running.losses) return false;
    return 2 * running.losses.leak > leastLeak * running.supplyVoltage * running.supplyCurrent;
  });
  const every = Math.max(1, Math.ceil(leaking.length / mostThresholds));
  return leaking.filter((_, i) => i % every === 0);
}

function withThreshold(rating: Rating): (design: Design) => Design {
  return (design) => {
    const { mosfet } = design.switches;
    // the threshold is that of the warm switch: readings are of a state that has settled
    const ratings = { ...mosfet.ratings, thresholdTypical: rating, thresholdDrift: { ...rating, value: 0 } };
    return { ...design, switches: { ...design.switches, mosfet: { ...mosfet, ratings } } };
  };
}

/** A design whose chokes have so much of their inductance. */
export function withChoke(factor: Ratio): (design: Design) => Design {
  return (design) => {
    const { choke } = design.chokes;
    const inductance = scaled(choke.ratings.inductance, factor);
    const ratings = { ...choke.ratings, ...(inductance === undefined ? {} : { inductance }) };
    return { ...design, chokes: { ...design.chokes, choke: { ...choke, ratings } } };
  };
}
