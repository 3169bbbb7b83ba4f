import { capacitorToleranceOf } from '../driver/capacitor-tolerance.ts';
import { coilOf } from '../driver/coil.ts';
import type { Corner } from '../driver/corner.ts';
import type { Rating } from '../parts/part.ts';
import type { Spreading } from '../physics/random-numbers.ts';
import type { Design, Gates, Switches } from '../project/design.ts';
import type { Ratio, Volt } from '../units/si.ts';

/** What differs from build to build, in the order of a report. */
export const variableIds = ['supply', 'coil', 'bank', 'choke', 'threshold', 'clamp'] as const;
export type VariableId = (typeof variableIds)[number];

/** Ways in which values can lie between their limits. */
export const spreadings = ['uniform', 'normal', 'limit'] as const satisfies readonly Spreading[];

/** One thing that differs, between the limits that the project and its parts state. */
export interface Variable {
  readonly id: VariableId;
  /** Factors on the nominal value; of a threshold volts. */
  readonly low: number;
  readonly high: number;
  readonly dimension: 'ratio' | 'voltage';
  /** Where the limits come from. */
  readonly from: string;
}

/** What a design states limits of; a tolerance of zero varies nothing. */
export function variablesOf(design: Design): readonly Variable[] {
  const { supply, chokes, tank, gates, switches } = design;
  const { thresholdMin, thresholdMax } = switches.mosfet.ratings;
  const { capacitor } = tank.bank;
  const hasGeometry = tank.coil.geometry !== undefined && tank.coil.inductance === undefined;
  return [
    ...both('supply', supply.tolerance, 'supply.tolerance'),
    ...both('coil', coilOf(design).tolerance, hasGeometry ? 'tank.coil.tolerance, error of the formula' : 'tank.coil.tolerance'),
    ...both(
      'bank',
      capacitorToleranceOf(design),
      capacitor.ratings.tolerance === undefined ? `${capacitor.name} gives none (class)` : `${capacitor.name}, all alike`,
    ),
    ...both('choke', chokes.choke.ratings.tolerance?.value, chokes.choke.name),
    ...(thresholdMin !== undefined && thresholdMax !== undefined && thresholdMax.value > thresholdMin.value
      ? [
          {
            id: 'threshold',
            low: thresholdMin.value,
            high: thresholdMax.value,
            dimension: 'voltage',
            from: `${switches.mosfet.name}, both alike`,
          } as const,
        ]
      : []),
    ...(gates.clamp === undefined ? [] : both('clamp', gates.clamp.ratings.tolerance?.value, `${gates.clamp.name}, both alike`)),
  ];
}

function both(id: VariableId, tolerance: Ratio | undefined, from: string): readonly Variable[] {
  return tolerance === undefined || tolerance === 0 ? [] : [{ id, low: 1 - tolerance, high: 1 + tolerance, dimension: 'ratio', from }];
}

/** One build: its own threshold and clamp, and factors on supply, coil, bank and chokes. */
export interface Build {
  readonly design: Design;
  readonly corner: Corner;
}

/** Values of a build by variable, as the variables state them. */
export type BuildValues = Readonly<Partial<Record<VariableId, number>>>;

/** A design as one build of it is. */
export function buildOf({ design, values }: { design: Design; values: BuildValues }): Build {
  return buildsOf(design)(values);
}

/**
 * As buildOf, for many builds of a design. All that does not differ is the same object in each, so that nothing that rests on it is
 * computed again.
 */
export function buildsOf(design: Design): (values: BuildValues) => Build {
  const [switchesWith, gatesWith] = [switchesOf(design), gatesOf(design)];
  return ({ supply = 1, coil = 1, bank = 1, choke = 1, threshold, clamp }) => ({
    corner: { supply, coil, capacitor: bank, choke },
    design: { ...design, switches: switchesWith(threshold), gates: gatesWith(clamp) },
  });
}

function switchesOf({ switches }: Design): (threshold: Volt | undefined) => Switches {
  const { mosfet } = switches;
  const { thresholdMin, thresholdMax } = mosfet.ratings;
  if (thresholdMin === undefined || thresholdMax === undefined) return () => switches;
  // a copy takes far longer to make with a key that what is copied lacks
  const ratings = { ...mosfet.ratings, thresholdTypical: thresholdMin };
  return (threshold) => {
    if (threshold === undefined) return switches;
    const own = ownRating({ of: thresholdMin, value: threshold });
    return { ...switches, mosfet: { ...mosfet, ratings: { ...ratings, thresholdMin: own, thresholdTypical: own, thresholdMax: own } } };
  };
}

function gatesOf({ gates }: Design): (factor: Ratio | undefined) => Gates {
  const { clamp } = gates;
  const { zenerVoltage, tolerance } = clamp?.ratings ?? {};
  if (clamp === undefined || zenerVoltage === undefined || tolerance === undefined) return () => gates;
  const exact = ownRating({ of: tolerance, value: 0 });
  return (factor) => {
    if (factor === undefined) return gates;
    const own = ownRating({ of: zenerVoltage, value: factor * zenerVoltage.value });
    return { ...gates, clamp: { ...clamp, ratings: { ...clamp.ratings, zenerVoltage: own, tolerance: exact } } };
  };
}

/** What one part has of a rating. */
function ownRating({ of: { source, where }, value }: { of: Rating; value: number }): Rating {
  return { value, source, where };
}
