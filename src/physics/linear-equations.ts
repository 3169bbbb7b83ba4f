/**
 * Solution of simultaneous linear equations by elimination with row exchange.
 *
 *     A·x = b
 *
 * @param matrix  A, rows of numbers in any consistent unit; left as it is
 * @param right   b, in the unit of A times that of x
 * @returns x
 *
 * Valid for: square, well-posed equations of a few hundred unknowns; time grows with the cube of their number.
 * Errors: RangeError where the matrix is not square, or is singular.
 * Source: Gauss; Golub & Van Loan, Matrix Computations, from memory
 *
 * @example solveLinear({ matrix: [[2, 1], [1, 3]], right: [3, 5] })[1] // 1.4
 */
export function solveLinear({ matrix, right }: { matrix: readonly (readonly number[])[]; right: readonly number[] }): readonly number[] {
  const n = right.length;
  if (matrix.length !== n || matrix.some((row) => row.length !== n)) throw new RangeError('the equations are not square');
  const rows = matrix.map((row, i) => Float64Array.from([...row, right[i]!]));
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i;
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    const pivot = rows[k]!;
    if (!(Math.abs(pivot[k]!) > 0)) throw new RangeError('the equations have no single solution');
    for (let i = k + 1; i < n; i++) {
      const row = rows[i]!;
      const factor = row[k]! / pivot[k]!;
      if (factor !== 0) for (let j = k; j <= n; j++) row[j] = row[j]! - factor * pivot[j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    const row = rows[k]!;
    let sum = row[n]!;
    for (let j = k + 1; j < n; j++) sum -= row[j]! * x[j]!;
    x[k] = sum / row[k]!;
  }
  if (!x.every(Number.isFinite)) throw new RangeError('the equations have no finite solution');
  return x;
}
