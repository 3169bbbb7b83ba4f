import { describe, expect, test } from 'vitest';
import { chargedEquationsOf } from '../../src/driver/time-domain/charged-equations.ts';
import type { Circuit } from '../../src/driver/time-domain/circuit.ts';
import { eliminationOf } from '../../src/driver/time-domain/elimination.ts';
import { equationsOf, type Equations } from '../../src/driver/time-domain/equations.ts';
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

const points = [
  { voltage: 0, capacitance: 3e-9 },
  { voltage: 25, capacitance: 4e-10 },
  { voltage: 200, capacitance: 1e-10 },
];

function equationsWith(circuit: Circuit, isCharged: boolean): Equations {
  return isCharged ? chargedEquationsOf(circuit, { gateToDrain: points, drainToSource: points }) : equationsOf(circuit);
}

describe('elimination without exchange of rows', () => {
  const cases = designs.flatMap((one) => [false, true].map((isCharged) => ({ ...one, isCharged })));

  test.each(cases)('$name, charged $isCharged: every place of ∂f/∂y is foreseen, and every system solved as with exchange', (design) => {
    const { circuit, isCharged } = design;
    const equations = equationsWith(circuit, isCharged);
    const { count: n, mass, evaluate, couples } = equations;
    const elimination = eliminationOf(Object.assign({ n }, equations));
    const state = new Float64Array(n);
    state.set(initialOf(design));
    if ('settle' in equations) (equations as ReturnType<typeof chargedEquationsOf>).settle(state);
    const [f, J] = [new Float64Array(n), new Float64Array(n * n)];
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
        evaluate(time, y, f, J);
        J.forEach((value, at) => {
          if (value !== 0 || mass[at] !== 0) expect(couples[at]! || Math.floor(at / n) === at % n).toBe(true);
        });
        for (const step of [longestStep, longestStep / 30]) {
          const W = Float64Array.from(mass, (value, at) => value / (0.5 * step) - J[at]!);
          const exact = solved(W, f);
          const b = f.slice() as Float64Array;
          elimination.factor(W);
          elimination.solve(W, b);
          const scale = Math.max(...exact.map(Math.abs));
          worst = Math.max(worst, ...exact.map((value, i) => Math.abs(b[i]! - value) / scale));
        }
        return false;
      },
    });
    expect(seen).toBeGreaterThan(500);
    expect(worst).toBeLessThan(1e-8);
  });
});
