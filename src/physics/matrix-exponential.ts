/** A square matrix by rows. */
export type Matrix = readonly (readonly number[])[];

/** Terms of the series: with a norm of ½ or less the first one left out is below 1e-17. */
const terms = 14;

/**
 * Exponential of a square matrix, by scaling, the power series and squaring.
 *
 *     e^A = (Σ (A/2^s)^k / k!)^(2^s)
 *
 * @param matrix  A, finite
 * @returns e^A
 *
 * Valid for: systems whose fastest decay is not more than about 1e6 times the slowest movement of interest: squaring rounds.
 * Errors: RangeError where A is not finite.
 * Source: any numerical analysis text, such as Moler & Van Loan, SIAM Review 45(1), 2003, method 3
 *
 * @example matrixExponential({ matrix: [[0, Math.PI], [-Math.PI, 0]] })[0][0] // -1
 */
export function matrixExponential({ matrix }: { matrix: Matrix }): Matrix {
  const n = matrix.length;
  const norm = widestRow(matrix);
  if (!Number.isFinite(norm)) throw new RangeError('a matrix with a number that is not finite has no exponential');
  const squarings = Math.max(0, Math.ceil(Math.log2(norm)) + 1);
  const share = 2 ** -squarings;
  // row by row in plain lists of numbers: at this size a typed array costs more to make than the product that it holds
  const scaled: number[] = [];
  let term: number[] = [];
  let sum: number[] = [];
  let spare: number[] = [];
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      scaled.push(matrix[i]![j]! * share);
      term.push(i === j ? 1 : 0);
      sum.push(i === j ? 1 : 0);
      spare.push(0);
    }
  for (let k = 1; k <= terms; k++) {
    multiply({ a: scaled, b: term, size: n, into: spare });
    [term, spare] = [spare, term];
    for (let i = 0; i < n * n; i++) {
      term[i]! /= k;
      sum[i]! += term[i]!;
    }
  }
  for (let i = 0; i < squarings; i++) {
    multiply({ a: sum, b: sum, size: n, into: spare });
    [sum, spare] = [spare, sum];
  }
  return matrix.map((_, i) => sum.slice(n * i, n * (i + 1)));
}

/** Largest sum of the magnitudes in a row. */
function widestRow(matrix: Matrix): number {
  let widest = 0;
  for (const row of matrix) {
    let sum = 0;
    for (const value of row) sum += Math.abs(value);
    if (sum > widest || Number.isNaN(sum)) widest = sum;
  }
  return widest;
}

/** Product of square matrices that lie row by row; it may not be written into one of them. */
function multiply({ a, b, size: n, into }: { a: readonly number[]; b: readonly number[]; size: number; into: number[] }): void {
  for (let i = 0; i < n * n; i++) into[i] = 0;
  for (let i = 0; i < n * n; i += n)
    for (let k = 0; k < n; k++) {
      const factor = a[i + k]!;
      // the matrix of a circuit is mostly nought
      if (factor !== 0) for (let j = 0; j < n; j++) into[i + j]! += factor * b[n * k + j]!;
    }
}
