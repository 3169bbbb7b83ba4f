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
  const norm = Math.max(...matrix.map((row) => row.reduce((sum, value) => sum + Math.abs(value), 0)));
  if (!Number.isFinite(norm)) throw new RangeError('a matrix with a number that is not finite has no exponential');
  const squarings = Math.max(0, Math.ceil(Math.log2(norm)) + 1);
  const scaled = Float64Array.from(matrix.flat(), (value) => value / 2 ** squarings);
  let term = Float64Array.from(scaled, (_, i) => (i % (n + 1) === 0 ? 1 : 0));
  let sum = Float64Array.from(term);
  let spare = new Float64Array(n * n);
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
  return matrix.map((_, i) => Array.from(sum.subarray(n * i, n * (i + 1))));
}

/** Product of square matrices that lie row by row; it may not be written into one of them. */
function multiply({ a, b, size: n, into }: { a: Float64Array; b: Float64Array; size: number; into: Float64Array }): void {
  into.fill(0);
  for (let i = 0; i < n * n; i += n)
    for (let k = 0; k < n; k++) {
      const factor = a[i + k]!;
      // the matrix of a circuit is mostly nought
      if (factor !== 0) for (let j = 0; j < n; j++) into[i + j]! += factor * b[n * k + j]!;
    }
}
