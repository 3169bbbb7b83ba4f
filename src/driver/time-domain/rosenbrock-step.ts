import type { Second } from '../../units/si.ts';
import type { Equations } from './equations.ts';
import { eliminationOf, type Elimination } from './elimination.ts';

/** Stages of the method, see tryStep. */
const gamma = 0.5;

/** Vectors and matrices of a run, made once. */
export interface Workspace {
  readonly n: number;
  /** M's elements that are not zero, row by row. */
  readonly rows: Uint8Array;
  readonly columns: Uint8Array;
  readonly elements: Float64Array;
  readonly J: Float64Array;
  readonly W: Float64Array;
  readonly elimination: Elimination;
  /** M at the places of the elimination. */
  readonly massAtPlaces: Float64Array;
  /** f and ∂f/∂t at the beginning of a step. */
  readonly f0: Float64Array;
  readonly ft: Float64Array;
  readonly f: Float64Array;
  readonly work: Float64Array;
  /** Stages. */
  readonly K1: Float64Array;
  readonly K2: Float64Array;
  readonly K3: Float64Array;
  readonly K4: Float64Array;
  /** The state at the end of a step. */
  readonly next: Float64Array;
}

/** A workspace for equations of `count` states with a mass matrix. */
export function workspaceOf({ count: n, mass, couples, order }: Equations): Workspace {
  const elimination = eliminationOf({ n, couples, order });
  const vector = (): Float64Array => new Float64Array(n);
  const places = Uint8Array.from([...mass.keys()].filter((at) => mass[at] !== 0));
  return {
    n,
    rows: places.map((at) => Math.floor(at / n)),
    columns: places.map((at) => at % n),
    elements: Float64Array.from(places, (at) => mass[at]!),
    J: new Float64Array(n * n),
    W: new Float64Array(n * n),
    elimination,
    massAtPlaces: Float64Array.from(elimination.places, (at) => mass[at]!),
    f0: vector(),
    ft: vector(),
    f: vector(),
    work: vector(),
    K1: vector(),
    K2: vector(),
    K3: vector(),
    K4: vector(),
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
  const { n, elimination, massAtPlaces, W, J, f0, f, ft, next, work, K1, K2, K3, K4 } = space;
  const { places } = elimination;
  const diagonal = 1 / (gamma * step);
  for (let k = 0; k < places.length; k++) W[places[k]!] = massAtPlaces[k]! * diagonal - J[places[k]!]!;
  elimination.factor(W);
  for (let i = 0; i < n; i++) K1[i] = f0[i]! + gamma * step * ft[i]!;
  elimination.solve(W, K1);
  for (let i = 0; i < n; i++) {
    work[i] = (4 / step) * K1[i]!;
    K2[i] = f0[i]! + 1.5 * step * ft[i]!;
  }
  solveWith(space, K2);
  const inside = time + step * (1 - 1e-12);
  for (let i = 0; i < n; i++) next[i] = y[i]! + 2 * K1[i]!;
  equations.evaluate(inside, next, f);
  for (let i = 0; i < n; i++) {
    work[i] = (K1[i]! - K2[i]!) / step;
    K3[i] = f[i]!;
  }
  solveWith(space, K3);
  for (let i = 0; i < n; i++) next[i] = next[i]! + K3[i]!;
  equations.evaluate(inside, next, f);
  for (let i = 0; i < n; i++) {
    work[i] = (K1[i]! - K2[i]! - (8 / 3) * K3[i]!) / step;
    K4[i] = f[i]!;
  }
  solveWith(space, K4);
  let error = 0;
  for (let i = 0; i < n; i++) {
    next[i] = next[i]! + K4[i]!;
    const scale = tolerance * (10 + Math.max(Math.abs(y[i]!), Math.abs(next[i]!)));
    error = Math.max(error, Math.abs(K4[i]!) / scale);
  }
  return error;
}

/** A stage: what is in `out`, and M times what is in `work`, solved in place. */
function solveWith({ rows, columns, elements, W, elimination, work }: Workspace, out: Float64Array): void {
  for (let k = 0; k < rows.length; k++) out[rows[k]!] = out[rows[k]!]! + elements[k]! * work[columns[k]!]!;
  elimination.solve(W, out);
}
