import { describe, expect, test } from 'vitest';
import { chargedEquationsOf } from '../../src/driver/time-domain/charged-equations.ts';
import type { Circuit } from '../../src/driver/time-domain/circuit.ts';
import { equationsOf } from '../../src/driver/time-domain/circuit-equations.ts';
import type { Equations } from '../../src/driver/time-domain/equations.ts';
import { stepOf, workspaceOf } from '../../src/driver/time-domain/rosenbrock-step.ts';
import { follow } from '../../src/driver/time-domain/solver.ts';
import { designs, initialOf, periodOf } from './reference-circuits.ts';

/** Solution by Gaussian elimination with full exchange of rows. */
function solved(W: Float64Array, b: Float64Array): number[] {
  const n = b.length;
  const rows = Array.from(b, (value, i) => [...W.subarray(i * n, i * n + n), value]);
  for (let k = 0; k < n; k++) {
    const best = rows.reduce((most, row, i) => (i >= k && Math.abs(row[k]!) > Math.abs(rows[most]![k]!) ? i : most), k);
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j <= n; j++) rows[i]![j] = rows[i]![j]! - factor * rows[k]![j]!;
    }
  }
  const x = b.slice() as Float64Array;
  for (let i = n - 1; i >= 0; i--) {
    const sum = rows[i]!.slice(i + 1, n).reduce((all, value, j) => all + value * x[i + 1 + j]!, 0);
    x[i] = (rows[i]![n]! - sum) / rows[i]![i]!;
  }
  return [...x];
}

/** y at the end of a step and its error, as the method is published: γ = 1/2, whole matrices, every system solved with exchange of rows. */
function steppedPlainly({ equations, y, time, step }: { equations: Equations; y: Float64Array; time: number; step: number }): {
  next: number[];
  error: number[];
} {
  const { count: n, mass } = equations;
  const [f0, ft, J] = [new Float64Array(n), new Float64Array(n), new Float64Array(n * n)];
  equations.evaluate(time, y, f0, J);
  equations.byTime(time, y, ft);
  const W = Float64Array.from(mass, (value, at) => value / (0.5 * step) - J[at]!);
  // a21 = 0, a31 = 2, a41 = 2, a43 = 1; c21 = 4, c31 = 1, c32 = -1, c41 = 1, c42 = -1, c43 = -8/3; gammas 1/2, 3/2, 0, 0
  const stages: number[][] = [];
  for (const { at, c, gamma } of [
    { at: [], c: [], gamma: 0.5 },
    { at: [], c: [4], gamma: 1.5 },
    { at: [2, 0], c: [1, -1], gamma: 0 },
    { at: [2, 0, 1], c: [1, -1, -8 / 3], gamma: 0 },
  ]) {
    const f = Float64Array.from(f0);
    if (at.length > 0) {
      const inside = y.map((value, i) => value + at.reduce((sum, a, k) => sum + a * stages[k]![i]!, 0));
      equations.evaluate(time + step * (1 - 1e-12), inside, f);
    }
    const right = f.map((value, i) => {
      const row = Array.from(mass.subarray(i * n, i * n + n));
      const pulled = row.reduce((sum, m, j) => sum + m * c.reduce((all, ck, k) => all + ck * stages[k]![j]!, 0), 0);
      return value + gamma * step * ft[i]! + pulled / step;
    });
    stages.push(solved(W, right));
  }
  const [a, , c, d] = stages as [number[], number[], number[], number[]];
  return { next: Array.from(y, (value, i) => value + 2 * a[i]! + c[i]! + d[i]!), error: d };
}

const points = [
  { voltage: 0, capacitance: 3e-9 },
  { voltage: 25, capacitance: 4e-10 },
  { voltage: 200, capacitance: 1e-10 },
];

function equationsWith(circuit: Circuit, isCharged: boolean): Equations {
  return isCharged ? chargedEquationsOf(circuit, { gateToDrain: points, drainToSource: points }) : equationsOf(circuit);
}

describe('the compiled step', () => {
  const cases = designs.flatMap((one) => [false, true].map((isCharged) => ({ ...one, isCharged })));

  test.each(cases)('$name, charged $isCharged: every place of ∂f/∂y is foreseen, and a step is that of whole matrices', (design) => {
    const { circuit, isCharged } = design;
    const equations = equationsWith(circuit, isCharged);
    const { count: n, mass, couples } = equations;
    const [tried, space] = [stepOf(equations), workspaceOf(equations)];
    const state = new Float64Array(n);
    state.set(initialOf(design));
    if ('settle' in equations) (equations as ReturnType<typeof chargedEquationsOf>).settle(state);
    let [seen, worst] = [0, 0];
    const longestStep = periodOf(circuit) / 70;
    follow({
      equations,
      state,
      until: 200 * 70 * longestStep,
      breaks: [],
      accuracy: { tolerance: 1e-3, longestStep },
      watch: (time, y) => {
        seen++;
        if (seen % 37 !== 0) return seen > 6000;
        equations.evaluate(time, y, space.f0, space.jacobian);
        equations.byTime(time, y, space.ft);
        space.jacobian.forEach((value, at) => {
          if (value !== 0 || mass[at] !== 0) expect(couples[at]! || Math.floor(at / n) === at % n).toBe(true);
        });
        for (const step of [longestStep, longestStep / 30]) {
          const error = tried(equations, space, y, time, step, 1e-3);
          const plain = steppedPlainly({ equations, y, time, step });
          const scale = Math.max(...plain.next.map(Math.abs));
          worst = Math.max(worst, ...plain.next.map((value, i) => Math.abs(space.next[i]! - value) / scale));
          const over = plain.error.map((value, i) => Math.abs(value) / (1e-3 * (4 + Math.max(Math.abs(y[i]!), Math.abs(plain.next[i]!)))));
          expect(Math.abs(error - Math.max(...over))).toBeLessThan(1e-6 * (1 + error));
        }
        return false;
      },
    });
    expect(seen).toBeGreaterThan(500);
    expect(worst).toBeLessThan(1e-8);
  });
});
