import { isKnown } from '../../driver/known.ts';
import { operatingPoint } from '../../driver/operating-point.ts';
import type { ReadingKey } from '../../project/design.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { ReadingFit } from './fit.ts';
import { cornerOf, factorsOf, parameterNames, projectFactors, scaledLoad, scaledLosses, type Factors, type ReadingModel } from './model.ts';
import { coverage } from './observed.ts';

/** A value as built, with its 95 % interval. */
export interface Estimate {
  readonly id: string;
  readonly name: string;
  readonly dimension: Dimension | 'product';
  readonly project: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Half width of its interval before the readings, in the logarithm; of the estimate likewise. */
  readonly before: number;
  readonly after: number;
  /** Whether the readings tell it: its interval is half as wide as before, or less. */
  readonly isTold: boolean;
  /** Why they do not. */
  readonly why?: string;
}

/** An interval that shrinks to less than this share is told by the readings. */
const told = 0.5;
const step = 1e-4;

interface Wanted {
  readonly id: string;
  readonly name: string;
  readonly dimension: Dimension | 'product';
  readonly of: (factors: Factors) => number | undefined;
  /** What would tell it. */
  readonly needs: string;
}

/** What readings say of the values of a driver: each with its interval, and whether they tell it at all. */
export function estimatesOf({
  original,
  model,
  fit,
  keys,
}: {
  /** The project without a fault. */
  original: ReadingModel;
  model: ReadingModel;
  fit: ReadingFit;
  keys: readonly ReadingKey[];
}): readonly Estimate[] {
  const asWritten = new Map(wantedOf({ model: original, keys }).map(({ id, of }) => [id, of(projectFactors)]));
  return wantedOf({ model, keys }).flatMap((wanted): readonly Estimate[] => {
    const { id, name, dimension, of, needs } = wanted;
    const at = parameterNames.map((key) => Math.log(fit.factors[key]));
    const [value, project] = [of(fit.factors), asWritten.get(id)];
    if (value === undefined || project === undefined || !(value > 0) || !(project > 0)) return [];
    const slope = at.map((_, j) => {
      const other = of(factorsOf(at.map((x, k) => (k === j ? x + step : x))));
      return other === undefined ? 0 : (Math.log(other) - Math.log(value)) / step;
    });
    const variance = slope.reduce((sum, a, j) => sum + slope.reduce((inner, b, k) => inner + a * b * fit.covariance[j]![k]!, 0), 0);
    const prior = Math.hypot(...slope.map((a, j) => a * model.priors[parameterNames[j]!]));
    const [after, before] = [coverage * Math.sqrt(Math.max(0, variance)), coverage * prior];
    const isTold = after <= told * before;
    return [
      {
        id,
        name,
        dimension,
        project,
        value,
        low: value * Math.exp(-after),
        high: value * Math.exp(after),
        before,
        after,
        isTold,
        ...(isTold ? {} : { why: needs }),
      },
    ];
  });
}

function wantedOf({ model, keys }: { model: ReadingModel; keys: readonly ReadingKey[] }): readonly Wanted[] {
  const { design, idle, loaded } = model;
  const tankOf = (factors: Factors): ReturnType<typeof operatingPoint>['tank'] =>
    operatingPoint({ design: scaledLosses({ design, factors }), load: scaledLoad(idle, factors.load), corner: cornerOf(factors) }).tank;
  const has = (key: ReadingKey): boolean => keys.includes(key);
  const split = has('frequency')
    ? has('tankCurrentPeak')
      ? 'frequency and tankCurrentPeak together do not narrow it further than its tolerance'
      : 'frequency tells L·C alone; tankCurrentPeak beside it would tell √(L/C), and so both'
    : 'frequency and tankCurrentPeak would tell it';
  const source = design.supply.resistance;
  return [
    {
      id: 'LC',
      name: 'L·C',
      dimension: 'product',
      of: (f) => tankOf(f).inductance * tankOf(f).capacitance,
      needs: 'frequency would tell it',
    },
    { id: 'L', name: 'tank inductance L', dimension: 'inductance', of: (f) => tankOf(f).inductance, needs: split },
    { id: 'C', name: 'tank capacitance C', dimension: 'capacitance', of: (f) => tankOf(f).capacitance, needs: split },
    {
      id: 'R',
      name: 'parallel resistance R of coil and bank loss',
      dimension: 'resistance',
      of: (f) => tankOf(f).parallelResistance,
      needs: has('supplyCurrentIdle') ? 'supplyCurrentIdle is too uncertain for it' : 'supplyCurrentIdle would tell it',
    },
    ...(loaded?.parallelResistance === undefined
      ? []
      : [
          {
            id: 'Rload',
            name: `resistance of the load, ${loaded.name}`,
            dimension: 'resistance' as const,
            of: (f: Factors) => scaledLoad(loaded, f.load).parallelResistance,
            needs: 'supplyCurrentLoaded and supplyCurrentIdle together would tell it',
          },
        ]),
    ...(source === undefined || source === 0
      ? []
      : [
          {
            id: 'source',
            name: 'source resistance',
            dimension: 'resistance' as const,
            of: (f: Factors) => source * f.source,
            needs: 'drainPeak under load, with supplyVoltage measured, would tell it where the drop is large enough',
          },
        ]),
    {
      id: 'loss',
      name: 'loss in coil and bank, without load',
      dimension: 'power',
      of: (f) => lossOf({ model, factors: f }),
      needs: 'supplyCurrentIdle would tell it',
    },
  ];
}

function lossOf({ model: { design, idle }, factors }: { model: ReadingModel; factors: Factors }): number | undefined {
  const point = operatingPoint({
    design: scaledLosses({ design, factors }),
    load: scaledLoad(idle, factors.load),
    corner: cornerOf(factors),
  });
  const peak = point.running?.tankPeak;
  return peak === undefined || !isKnown(peak) ? undefined : peak ** 2 / (2 * point.tank.parallelResistance);
}
