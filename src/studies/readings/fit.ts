import { isKnown } from '../../driver/known.ts';
import { assumedAmbient } from '../../driver/ambient.ts';
import { leastSquares, type LeastSquares } from '../../physics/least-squares.ts';
import type { ReadingKey } from '../../project/design.ts';
import { factorsOf, parameterNames, predicted, type Factors, type ReadingModel } from './model.ts';
import { coverage, isTemperature, readingKinds, type Observation } from './observed.ts';

/** Parameters that agree best with the readings, and how well they are known. */
export interface ReadingFit {
  readonly factors: Factors;
  readonly covariance: LeastSquares['covariance'];
  /** Sum of squares, priors included: lower explains better. */
  readonly cost: number;
  /** (measured − model)/σ, by reading. */
  readonly residuals: ReadonlyMap<ReadingKey, number>;
}

/** Readings that a driver's values are estimated from; the others are compared only. */
const estimating: readonly ReadingKey[] = [
  'frequency',
  'drainPeak',
  'tankCurrentPeak',
  'supplyCurrentIdle',
  'supplyCurrentLoaded',
  'gateHigh',
  'capacitorTemperature',
  'switchTemperature',
];

/** A rise that is too small to tell anything by. */
const leastRise = 3;

/**
 * The values of a driver that agree best with its readings and with the tolerances of its parts.
 *
 * A rise of temperature above its prediction counts, one below does not: the predictions lean high.
 *
 * @returns undefined where the model has no value at the project's own values
 */
export function readingFit({ model, observations }: { model: ReadingModel; observations: readonly Observation[] }): ReadingFit | undefined {
  const ambient = model.design.environment.ambient ?? assumedAmbient;
  const used = observations.filter(({ key, value }) => {
    if (!estimating.includes(key)) return false;
    const expected = predicted(model, factorsOf(parameterNames.map(() => 0)))?.[key];
    return expected !== undefined && isKnown(expected) && (isTemperature(key) ? value > ambient : expected > 0 && value > 0);
  });
  const terms = used.map((observation) => term({ observation, ambient }));
  const fit = leastSquares({
    model: (x) => {
      const values = predicted(model, factorsOf(x));
      return values === undefined
        ? undefined
        : used.map(({ key }, i) => {
            const value = values[key];
            return isKnown(value) ? terms[i]!.of(value) : Number.NaN;
          });
    },
    measured: terms.map(({ measured }) => measured),
    sigmas: terms.map(({ sigma }) => sigma),
    priors: parameterNames.map((name) => model.priors[name]),
  });
  if (fit === undefined) return undefined;
  return {
    factors: factorsOf(fit.parameters),
    covariance: fit.covariance,
    cost: fit.cost,
    residuals: new Map(used.map(({ key }, i) => [key, fit.residuals[i]!])),
  };
}

/** A reading as a term of the sum: logarithms, so that a share of a value is a step. */
function term({ observation: { key, value, uncertainty }, ambient }: { observation: Observation; ambient: number }): {
  readonly measured: number;
  readonly sigma: number;
  readonly of: (predictedValue: number) => number;
} {
  const { model } = readingKinds[key];
  if (!isTemperature(key)) return { measured: Math.log(value), sigma: Math.hypot(uncertainty / value, model) / coverage, of: Math.log };
  const rise = Math.max(leastRise, value - ambient);
  const measured = Math.log(rise);
  return {
    measured,
    sigma: Math.hypot(uncertainty / rise, model) / coverage,
    of: (predictedValue) => Math.min(measured, Math.log(Math.max(leastRise, predictedValue - ambient))),
  };
}
