import type { Second } from '../../units/si.ts';
import type { Couplings } from './couplings.ts';

/** The circuit as M·y′ = f(t, y). Matrices are flat, row by row. */
export interface Equations extends Couplings {
  readonly count: number;
  /** M: capacitances and inductances. */
  readonly mass: Float64Array;
  /** Writes f, and ∂f/∂y where a matrix is given: the places that couple, the others are left as they are. */
  evaluate(time: Second, state: Float64Array, f: Float64Array, jacobian?: Float64Array): void;
  /** Writes ∂f/∂t: only the source moves of itself. */
  byTime(time: Second, state: Float64Array, out: Float64Array): void;
  /** Whether the tank is still and both channels are off by a margin: nothing there can grow. */
  isAtRest(state: Float64Array): boolean;
  /** Of the last evaluation, for those who watch a run. */
  readonly watched: Watched;
}

/** What the last evaluation found: the current out of the source or bulk capacitor, and the rail. */
export interface Watched {
  supply: number;
  rail: number;
}
