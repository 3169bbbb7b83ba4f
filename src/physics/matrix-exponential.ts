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
  const norm = Math.max(...matrix.map((row) => row.reduce((sum, value) => sum + Math.abs(value), 0)));
  if (!Number.isFinite(norm)) throw new RangeError('a matrix with a number that is not finite has no exponential');
  const squarings = Math.max(0, Math.ceil(Math.log2(norm)) + 1);
  const scaled = matrix.map((row) => row.map((value) => value / 2 ** squarings));
  let term: Matrix = matrix.map((row, i) => row.map((_, j) => (i === j ? 1 : 0)));
  let sum = term;
  for (let k = 1; k <= terms; k++) {
    term = product(term, scaled).map((row) => row.map((value) => value / k));
    sum = sum.map((row, i) => row.map((value, j) => value + term[i]![j]!));
  }
  for (let i = 0; i < squarings; i++) sum = product(sum, sum);
  return sum;
}

function product(a: Matrix, b: Matrix): Matrix {
  return a.map((row) => b.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)));
}
