import type { Second } from '../../units/si.ts';
import type { Equations } from './equations.ts';
import { stepOf, workspaceOf } from './rosenbrock-step.ts';

/** How exactly a run is followed. */
export interface Accuracy {
  /** Error that a step may add, relative; absolute, four times as much of a volt or ampere. */
  readonly tolerance: number;
  /** Longest step wherever a switch conducts or the tank swings. */
  readonly longestStep: Second;
}

/** Steps may be so many times longer while both switches are off and the tank is still. */
const longerAtRest = 50;

/**
 * Follows M·y′ = f(t, y) by a Rosenbrock method of order 3 with four stages, L-stable and stiffly accurate (Sandu, Verwer, Blom, Spee,
 * Carmichael & Potra, Atmospheric Environment 31, 1997, RODAS3), with error control against its embedded method of order 2.
 *
 * It solves one linear system a stage and no nonlinear one, so that a step costs the same wherever it falls: the switches pass from
 * saturation to resistance and the diodes from nothing to conduction within a thousandth of a period, where Newton's method needs
 * many tries. It damps what is fast, and with the step bounded to 1/70 of a period it follows what grows slowly. The bound is lifted
 * only where nothing can grow: both switches off by a margin, the tank still, as under a rail that creeps up; a longer step that ends
 * elsewhere is taken back.
 *
 * @param equations  what to follow
 * @param state      at time 0; holds the state at `until` in the end
 * @param until      in s
 * @param breaks     times at which the equations change at once; no step crosses one
 * @param accuracy   see Accuracy
 * @param watch      called after every step with time and state; returns true to stop
 * @returns steps taken, and whether every one could be made; false where the step had to shrink beyond all measure
 */
export function follow({
  equations,
  state: y,
  until,
  breaks,
  accuracy: { tolerance, longestStep },
  watch,
}: {
  equations: Equations;
  state: Float64Array;
  until: Second;
  breaks: readonly Second[];
  accuracy: Accuracy;
  watch: (time: Second, state: Float64Array) => boolean;
}): { readonly steps: number; readonly complete: boolean } {
  const tried = stepOf(equations);
  const space = workspaceOf(equations);
  const { f0, ft, jacobian, next } = space;
  const stops = Float64Array.from([...breaks.filter((time) => time > 0 && time < until), until]).sort();
  let [t, h, steps, stop] = [0, Math.min(longestStep, 1e-9), 0, 0];
  let [lastStep, lastError, hasFailed] = [1e-9, 1, false];
  equations.evaluate(t, y, f0, jacobian);
  equations.byTime(t, y, ft);
  while (t < until) {
    while (stops[stop]! <= t) stop++;
    const left = stops[stop]! - t;
    let step = Math.min(h, equations.isAtRest(y) ? longerAtRest * longestStep : longestStep);
    if (step >= left * (1 - 1e-9)) step = left;
    else if (step > left / 2) step = left / 2;
    const error = tried(equations, space, y, t, step, tolerance);
    if (!(error <= 1)) {
      h = step * (Number.isFinite(error) ? Math.max(0.2, 0.9 / Math.cbrt(error)) : 0.1);
      if (h < 1e-18) return { steps, complete: false };
      hasFailed = true;
      continue;
    }
    if (step > longestStep * (1 + 1e-9) && !equations.isAtRest(next)) {
      h = longestStep;
      continue;
    }
    y.set(next);
    t = step === left ? stops[stop]! : t + step;
    steps++;
    const small = Math.max(error, 1e-6);
    // where the error grows from step to step the next one is foreseen to (Gustafsson, ACM TOMS 20, 1994); after a failure no growth
    const ratio = step / lastStep;
    const foreseen = (ratio * ratio * ratio * lastError) / small;
    const most = hasFailed ? 1 : 5;
    h = step * Math.min(most, Math.max(0.2, 0.9 * Math.cbrt(Math.min(1, foreseen) / small)));
    [lastStep, lastError, hasFailed] = [step, Math.max(error, 1e-2), false];
    // of the state that the watcher sees, and right of a break: what holds within the next step
    equations.evaluate(t, y, f0, jacobian);
    equations.byTime(t, y, ft);
    if (watch(t, y)) break;
  }
  return { steps, complete: true };
}
