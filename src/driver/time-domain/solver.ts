import type { Second } from '../../units/si.ts';
import type { Equations } from './equations.ts';

/** How exactly a run is followed. */
export interface Accuracy {
  /** Error that a step may add, relative; absolute, ten times as much of a volt or ampere. */
  readonly tolerance: number;
  /** Longest step. */
  readonly longestStep: Second;
}

/** Stages of the method, see below. */
const gamma = 0.5;

/**
 * Follows M·y′ = f(t, y) by a Rosenbrock method of order 3 with four stages, L-stable and stiffly accurate (Sandu, Verwer, Blom, Spee,
 * Carmichael & Potra, Atmospheric Environment 31, 1997, RODAS3), with error control against its embedded method of order 2.
 *
 * It solves one linear system a stage and no nonlinear one, so that a step costs the same wherever it falls: the switches pass from
 * saturation to resistance and the diodes from nothing to conduction within a thousandth of a period, where Newton's method needs
 * many tries. It damps what is fast, and with the step bounded to 1/70 of a period it follows what grows slowly.
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
  const { count: n, mass, evaluate, byTime } = equations;
  const vector = (): Float64Array => new Float64Array(n);
  const [f0, f, ft, K1, K2, K3, K4, next, work] = [
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
  ];
  const J = new Float64Array(n * n);
  const W = new Float64Array(n * n);
  const pivots = new Int32Array(n);
  const stops = [...breaks.filter((time) => time > 0 && time < until), until].toSorted((a, b) => a - b);
  let [t, h, steps, stop] = [0, Math.min(longestStep, 1e-9), 0, 0];
  /** Right side of a stage: f + M·Σ(c/h)·K + h·γ·f_t, solved in place. */
  const solve = (out: Float64Array, source: Float64Array, c1: number, c2: number, c3: number, timeShare: number): void => {
    for (let i = 0; i < n; i++) work[i] = c1 * K1[i]! + c2 * K2[i]! + c3 * K3[i]!;
    for (let i = 0; i < n; i++) {
      let sum = source[i]! + timeShare * ft[i]!;
      for (let j = 0; j < n; j++) sum += mass[i * n + j]! * work[j]!;
      out[i] = sum;
    }
    substitute({ W, pivots, n, b: out });
  };
  evaluate(t, y, f0, J);
  byTime(t, y, ft);
  while (t < until) {
    while (stops[stop]! <= t) stop++;
    const left = stops[stop]! - t;
    let step = Math.min(h, longestStep);
    if (step >= left * (1 - 1e-9)) step = left;
    else if (step > left / 2) step = left / 2;
    const diagonal = 1 / (gamma * step);
    for (let i = 0; i < n * n; i++) W[i] = mass[i]! * diagonal - J[i]!;
    if (!factor({ W, pivots, n })) return { steps, complete: false };
    K1.fill(0);
    K2.fill(0);
    K3.fill(0);
    solve(K1, f0, 0, 0, 0, gamma * step);
    solve(K2, f0, 4 / step, 0, 0, 1.5 * step);
    const inside = t + step * (1 - 1e-12);
    for (let i = 0; i < n; i++) next[i] = y[i]! + 2 * K1[i]!;
    evaluate(inside, next, f);
    solve(K3, f, 1 / step, -1 / step, 0, 0);
    for (let i = 0; i < n; i++) next[i] = y[i]! + 2 * K1[i]! + K3[i]!;
    evaluate(inside, next, f);
    solve(K4, f, 1 / step, -1 / step, -8 / 3 / step, 0);
    let error = 0;
    for (let i = 0; i < n; i++) {
      next[i] = next[i]! + K4[i]!;
      const scale = tolerance * (10 + Math.max(Math.abs(y[i]!), Math.abs(next[i]!)));
      error = Math.max(error, Math.abs(K4[i]!) / scale);
    }
    if (!(error <= 1)) {
      h = step * (Number.isFinite(error) ? Math.max(0.2, 0.9 * error ** (-1 / 3)) : 0.1);
      if (h < 1e-18) return { steps, complete: false };
      continue;
    }
    y.set(next);
    t = step === left ? stops[stop]! : t + step;
    steps++;
    h = step * Math.min(5, Math.max(0.2, 0.9 * Math.max(error, 1e-6) ** (-1 / 3)));
    // of the state that the watcher sees, and right of a break: what holds within the next step
    evaluate(t, y, f0, J);
    byTime(t, y, ft);
    if (watch(t, y)) break;
  }
  return { steps, complete: true };
}

/** Factors W in place with partial pivoting; false where it is singular. */
function factor({ W, pivots, n }: { W: Float64Array; pivots: Int32Array; n: number }): boolean {
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(W[i * n + k]!) > Math.abs(W[best * n + k]!)) best = i;
    pivots[k] = best;
    if (!(Math.abs(W[best * n + k]!) > 0)) return false;
    if (best !== k) {
      for (let j = 0; j < n; j++) {
        const kept = W[k * n + j]!;
        W[k * n + j] = W[best * n + j]!;
        W[best * n + j] = kept;
      }
    }
    const inverse = 1 / W[k * n + k]!;
    for (let i = k + 1; i < n; i++) {
      const factorIK = W[i * n + k]! * inverse;
      if (factorIK === 0) continue;
      W[i * n + k] = factorIK;
      for (let j = k + 1; j < n; j++) W[i * n + j] = W[i * n + j]! - factorIK * W[k * n + j]!;
    }
  }
  return true;
}

function substitute({ W, pivots, n, b }: { W: Float64Array; pivots: Int32Array; n: number; b: Float64Array }): void {
  for (let k = 0; k < n; k++) {
    const p = pivots[k]!;
    if (p !== k) {
      const kept = b[p]!;
      b[p] = b[k]!;
      b[k] = kept;
    }
  }
  for (let i = 1; i < n; i++) {
    let sum = b[i]!;
    for (let j = 0; j < i; j++) sum -= W[i * n + j]! * b[j]!;
    b[i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let j = i + 1; j < n; j++) sum -= W[i * n + j]! * b[j]!;
    b[i] = sum / W[i * n + i]!;
  }
}
