import { solveLinear } from './linear-equations.ts';

/** Parameters that agree best with measurements and with what was known before. */
export interface LeastSquares {
  readonly parameters: readonly number[];
  /** Of the parameters: the inverse of the normal equations where the search ended. */
  readonly covariance: readonly (readonly number[])[];
  /** Sum of the squares of all residuals, those of the priors included. */
  readonly cost: number;
  /** (measured − model)/σ of each measurement. */
  readonly residuals: readonly number[];
}

/** Step of the numerical derivatives, for parameters of the size of a relative change. */
const derivativeStep = 1e-3;
const mostRounds = 20;
const mostHalvings = 8;

/**
 * Weighted least squares with Gaussian priors about zero, by Gauss-Newton steps that are halved until the cost falls.
 *
 *     minimise Σ((y − f(x))/σ)² + Σ(x/s)²
 *
 * @param model     f, for parameters about zero of the size of a relative change; undefined where it has no value
 * @param measured  y, in any units
 * @param sigmas    σ of each measurement, in its unit, above zero
 * @param priors    s of each parameter, above zero
 * @returns the fit; undefined where the model has no value at the start
 *
 * Valid for: a model that is smooth on the scale of 0.001 in every parameter; covariance as of the linearised model.
 * Errors: RangeError where the normal equations are singular.
 * Source: Gauss; Bevington & Robinson, Data Reduction and Error Analysis, from memory
 *
 * @example leastSquares({ model: ([x]) => [2 * x], measured: [1], sigmas: [0.5], priors: [0.25] }).parameters[0] // 0.25
 */
export function leastSquares({
  model,
  measured,
  sigmas,
  priors,
}: {
  model: (parameters: readonly number[]) => readonly number[] | undefined;
  measured: readonly number[];
  sigmas: readonly number[];
  priors: readonly number[];
}): LeastSquares | undefined {
  const residualsAt = (x: readonly number[]): readonly number[] | undefined => {
    const values = model(x);
    if (!values?.every(Number.isFinite)) return undefined;
    return measured.map((y, i) => (y - values[i]!) / sigmas[i]!);
  };
  const costOf = (residuals: readonly number[], x: readonly number[]): number =>
    residuals.reduce((sum, r) => sum + r * r, 0) + x.reduce((sum, value, j) => sum + (value / priors[j]!) ** 2, 0);
  let x: readonly number[] = priors.map(() => 0);
  const first = residualsAt(x);
  if (first === undefined) return undefined;
  let [residuals, cost] = [first, costOf(first, x)];
  let normal = normalEquations({ x, residuals, residualsAt, priors });
  for (let round = 0; round < mostRounds; round++) {
    const right = priors.map((s, j) => -normal.gradient[j]! - x[j]! / s ** 2);
    const step = solveLinear({ matrix: normal.matrix, right });
    let [share, moved] = [1, false];
    for (let halving = 0; halving < mostHalvings && !moved; halving++, share /= 2) {
      const next = x.map((value, j) => value + share * step[j]!);
      const nextResiduals = residualsAt(next);
      const nextCost = nextResiduals === undefined ? Infinity : costOf(nextResiduals, next);
      if (nextResiduals === undefined || !(nextCost <= cost)) continue;
      const gain = cost - nextCost;
      [x, residuals, cost, moved] = [next, nextResiduals, nextCost, gain > 1e-7 * (1 + cost)];
      break;
    }
    normal = normalEquations({ x, residuals, residualsAt, priors });
    if (!moved) break;
  }
  const covariance = priors.map((_, j) => solveLinear({ matrix: normal.matrix, right: priors.map((_s, k) => (k === j ? 1 : 0)) }));
  return { parameters: x, covariance, cost, residuals };
}

/** JᵀJ with the priors on its diagonal, and Jᵀr; J of the residuals by central differences. */
function normalEquations({
  x,
  residuals,
  residualsAt,
  priors,
}: {
  x: readonly number[];
  residuals: readonly number[];
  residualsAt: (x: readonly number[]) => readonly number[] | undefined;
  priors: readonly number[];
}): { matrix: readonly (readonly number[])[]; gradient: readonly number[] } {
  const columns = x.map((_, j) => {
    const moved = (by: number): readonly number[] => residualsAt(x.map((value, k) => (k === j ? value + by : value))) ?? residuals;
    const [up, down] = [moved(derivativeStep), moved(-derivativeStep)];
    return up.map((value, i) => (value - down[i]!) / (2 * derivativeStep));
  });
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  return {
    matrix: columns.map((a, j) => columns.map((b, k) => dot(a, b) + (j === k ? 1 / priors[j]! ** 2 : 0))),
    gradient: columns.map((a) => dot(a, residuals)),
  };
}
