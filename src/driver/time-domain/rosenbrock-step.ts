import type { Second } from '../../units/si.ts';
import type { Equations } from './equations.ts';
import { factor, substitute } from './linear-system.ts';

/** Stages of the method, see tryStep. */
const gamma = 0.5;

/** Vectors and matrices of a run, made once. */
export interface Workspace {
  readonly n: number;
  /** M's elements that are not zero, by place, row by row. */
  readonly places: Uint8Array;
  readonly rows: Uint8Array;
  readonly columns: Uint8Array;
  readonly elements: Float64Array;
  readonly J: Float64Array;
  readonly W: Float64Array;
  readonly pivots: Int32Array;
  /** f and ∂f/∂t at the beginning of a step. */
  readonly f0: Float64Array;
  readonly ft: Float64Array;
  readonly f: Float64Array;
  readonly work: Float64Array;
  readonly stages: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
  /** The state at the end of a step. */
  readonly next: Float64Array;
}

/** A workspace for equations of `count` states with a mass matrix. */
export function workspaceOf({ count: n, mass }: Equations): Workspace {
  const vector = (): Float64Array => new Float64Array(n);
  const places = Uint8Array.from([...mass.keys()].filter((at) => mass[at] !== 0));
  return {
    n,
    places,
    rows: places.map((at) => Math.floor(at / n)),
    columns: places.map((at) => at % n),
    elements: Float64Array.from(places, (at) => mass[at]!),
    J: new Float64Array(n * n),
    W: new Float64Array(n * n),
    pivots: new Int32Array(n),
    f0: vector(),
    ft: vector(),
    f: vector(),
    work: vector(),
    stages: [vector(), vector(), vector(), vector()],
    next: vector(),
  };
}

/**
 * Tries one step of a Rosenbrock method of order 3 with four stages, L-stable and stiffly accurate (Sandu, Verwer, Blom, Spee,
 * Carmichael & Potra, Atmospheric Environment 31, 1997, RODAS3).
 *
 * @param equations  what is followed; f, ∂f/∂y and ∂f/∂t at the beginning are in the workspace
 * @param space      holds the state at the end in `next` afterwards
 * @param y          state at the beginning
 * @param time       at the beginning, in s
 * @param step       in s
 * @param tolerance  error that the step may add, see Accuracy
 * @returns error over the tolerance, by the embedded method of order 2; NaN where the step cannot be made
 */
export function tryStep(equations: Equations, space: Workspace, y: Float64Array, time: Second, step: Second, tolerance: number): number {
  const { n, places, elements, W, J, pivots, f0, f, next, stages } = space;
  const [K1, K2, K3, K4] = stages;
  const diagonal = 1 / (gamma * step);
  for (let i = 0; i < n * n; i++) W[i] = -J[i]!;
  for (let k = 0; k < places.length; k++) W[places[k]!] = W[places[k]!]! + elements[k]! * diagonal;
  if (!factor(W, pivots, n)) return NaN;
  K1.fill(0);
  K2.fill(0);
  K3.fill(0);
  solveStage(space, K1, f0, 0, 0, 0, gamma * step);
  solveStage(space, K2, f0, 4 / step, 0, 0, 1.5 * step);
  const inside = time + step * (1 - 1e-12);
  for (let i = 0; i < n; i++) next[i] = y[i]! + 2 * K1[i]!;
  equations.evaluate(inside, next, f);
  solveStage(space, K3, f, 1 / step, -1 / step, 0, 0);
  for (let i = 0; i < n; i++) next[i] = y[i]! + 2 * K1[i]! + K3[i]!;
  equations.evaluate(inside, next, f);
  solveStage(space, K4, f, 1 / step, -1 / step, -8 / 3 / step, 0);
  let error = 0;
  for (let i = 0; i < n; i++) {
    next[i] = next[i]! + K4[i]!;
    const scale = tolerance * (10 + Math.max(Math.abs(y[i]!), Math.abs(next[i]!)));
    error = Math.max(error, Math.abs(K4[i]!) / scale);
  }
  return error;
}

/** Right side of a stage, f + M·Σ(c/h)·K + h·γ·f_t, solved in place. */
function solveStage(
  { n, places, rows, columns, elements, W, pivots, work, ft, stages }: Workspace,
  out: Float64Array,
  source: Float64Array,
  c1: number,
  c2: number,
  c3: number,
  timeShare: number,
): void {
  const [K1, K2, K3] = stages;
  for (let i = 0; i < n; i++) {
    work[i] = c1 * K1[i]! + c2 * K2[i]! + c3 * K3[i]!;
    out[i] = source[i]! + timeShare * ft[i]!;
  }
  for (let k = 0; k < places.length; k++) out[rows[k]!] = out[rows[k]!]! + elements[k]! * work[columns[k]!]!;
  substitute(W, pivots, n, out);
}
