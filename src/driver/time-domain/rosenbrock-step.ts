import type { Second } from '../../units/si.ts';
import type { Equations } from './equations.ts';
import { stepCode } from './step-code.ts';

/** Vectors and matrices of a run, made once. */
export interface Workspace {
  readonly mass: Float64Array;
  readonly jacobian: Float64Array;
  /** f and ∂f/∂t at the beginning of a step. */
  readonly f0: Float64Array;
  readonly ft: Float64Array;
  readonly f: Float64Array;
  /** The state at the end of a step. */
  readonly next: Float64Array;
}

/** A workspace for equations. */
export function workspaceOf({ count: n, mass }: Equations): Workspace {
  const vector = (): Float64Array => new Float64Array(n);
  return { mass, jacobian: new Float64Array(n * n), f0: vector(), ft: vector(), f: vector(), next: vector() };
}

/**
 * Tries one step of a Rosenbrock method, see stepOf.
 *
 * @param equations  what is followed; f, ∂f/∂y and ∂f/∂t at the beginning are in the workspace
 * @param space      holds the state at the end in `next` afterwards
 * @param y          state at the beginning
 * @param time       at the beginning, in s
 * @param step       in s
 * @param tolerance  error that the step may add, see Accuracy
 * @returns error over the tolerance, by the embedded method of order 2; not finite where the step cannot be made
 */
export type Step = (equations: Equations, space: Workspace, y: Float64Array, time: Second, step: Second, tolerance: number) => number;

/**
 * A Rosenbrock method of order 3 with four stages, L-stable and stiffly accurate (Sandu, Verwer, Blom, Spee, Carmichael & Potra,
 * Atmospheric Environment 31, 1997, RODAS3), γ = 1/2, for equations M·y′ = f(t, y):
 *
 *     (M/(γh) − ∂f/∂y)·a = f0 + γh·f_t                        b: f0 + 3/2·h·f_t + 4/h·M·a
 *     c: f(t + h, y + 2a) + M·(a − b)/h                        d: f(t + h, y + 2a + c) + M·(a − b − 8/3·c)/h
 *     y(t + h) = y + 2a + c + d, its error d
 *
 * It is compiled for the places of its equations that are not zero, once for all equations with the same ones.
 */
export function stepOf({ count: n, couples, mass, order }: Equations): Step {
  const hasMass = Array.from(mass, (value) => value !== 0);
  const key = [couples, hasMass].map((places) => places.map(Number).join('')).join(' ') + order.join(' ');
  let step = compiled.get(key);
  if (step === undefined) {
    // what a step is made of, and when its stages lie: just before its end, where a break may be
    const beginning =
      'const { mass, jacobian, f0, ft, f, next } = space; const diagonal = 2 / step, inverse = 1 / step, inside = time + step * (1 - 1e-12);';
    step = new Function(
      'equations',
      'space',
      'y',
      'time',
      'step',
      'tolerance',
      `'use strict';\n${beginning}\n${stepCode({ n, couples, hasMass, order })}`,
    ) as Step;
    compiled.set(key, step);
  }
  return step;
}

const compiled = new Map<string, Step>();
