import { capacitorToleranceOf } from '../driver/capacitor-tolerance.ts';
import { coilOf } from '../driver/coil.ts';
import { nominalCorner, type Corner } from '../driver/corner.ts';
import type { Rating } from '../parts/part.ts';
import type { Spreading } from '../physics/random-numbers.ts';
import type { Design } from '../project/design.ts';
import type { Ratio } from '../units/si.ts';

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

/**
 * A design as one build of it is. All that does not differ is the same object, so that nothing that rests on it is computed again.
 *
 * @param values  by variable, as the variables state them
 */
export function buildOf({ design, values }: { design: Design; values: Readonly<Partial<Record<VariableId, number>>> }): Build {
  const { supply = 1, coil = 1, bank = 1, choke = 1, threshold, clamp } = values;
  const corner = { ...nominalCorner, supply, coil, capacitor: bank, choke };
  return { corner, design: { ...design, ...ownSwitches({ design, threshold }), ...ownGates({ design, factor: clamp }) } };
}

function ownSwitches({ design: { switches }, threshold }: { design: Design; threshold: number | undefined }): Partial<Design> {
  const { thresholdMin, thresholdMax } = switches.mosfet.ratings;
  if (threshold === undefined || thresholdMin === undefined || thresholdMax === undefined) return {};
  const own: Rating = { ...thresholdMin, value: threshold };
  const ratings = { ...switches.mosfet.ratings, thresholdMin: own, thresholdTypical: own, thresholdMax: own };
  return { switches: { ...switches, mosfet: { ...switches.mosfet, ratings } } };
}

function ownGates({ design: { gates }, factor }: { design: Design; factor: number | undefined }): Partial<Design> {
  const { zenerVoltage, tolerance } = gates.clamp?.ratings ?? {};
  if (factor === undefined || gates.clamp === undefined || zenerVoltage === undefined || tolerance === undefined) return {};
  const own = { zenerVoltage: { ...zenerVoltage, value: factor * zenerVoltage.value }, tolerance: { ...tolerance, value: 0 } };
  return { gates: { ...gates, clamp: { ...gates.clamp, ratings: { ...gates.clamp.ratings, ...own } } } };
}
