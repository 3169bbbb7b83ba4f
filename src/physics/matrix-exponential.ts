/** A matrix of four rows and columns, row by row. */
export type Matrix = readonly number[];

const size = 4;

/** Terms of the series: with a norm of ½ or less the first one left out is below 1e-17. */
const terms = 14;

/**
 * Exponential of a matrix of four rows and columns and a time, by scaling, the power series and squaring.
 *
 *     e^(A·t) = (Σ (A·t/2^s)^k / k!)^(2^s)
 *
 * @param matrix  A, finite, row by row, in 1/s
 * @param time    t, in s
 * @returns e^(A·t), row by row
 *
 * Valid for: systems whose fastest decay is not more than about 1e6 times the slowest movement of interest: squaring rounds.
 * Errors: RangeError where A·t is not finite.
 * Source: any numerical analysis text, such as Moler & Van Loan, SIAM Review 45(1), 2003, method 3
 *
 * @example matrixExponential({ matrix: [0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1], time: Math.PI })[0] // -1
 */
export function matrixExponential({ matrix, time }: { matrix: Matrix; time: number }): Matrix {
  const whole = multiple(matrix, time);
  const norm = widestRow(whole);
  if (!Number.isFinite(norm)) throw new RangeError('a matrix with a number that is not finite has no exponential');
  const squarings = Math.max(0, Math.ceil(Math.log2(norm)) + 1);
  const scaled = multiple(whole, 2 ** -squarings);
  // the terms of power zero and one
  let sum = multiple(scaled, 1);
  for (let i = 0; i < size * size; i += size + 1) sum[i]! += 1;
  let term = multiple(scaled, 1);
  let spare = multiple(scaled, 1);
  for (let k = 2; k <= terms; k++) {
    multiply({ a: scaled, b: term, into: spare });
    [term, spare] = [spare, term];
    for (let i = 0; i < size * size; i++) {
      term[i]! /= k;
      sum[i]! += term[i]!;
    }
  }
  for (let i = 0; i < squarings; i++) {
    multiply({ a: sum, b: sum, into: spare });
    [sum, spare] = [spare, sum];
  }
  return sum;
}

function multiple(matrix: Matrix, factor: number): number[] {
  const product: number[] = [];
  for (const value of matrix) product.push(value * factor);
  return product;
}

/** Largest sum of the magnitudes in a row. */
function widestRow(matrix: Matrix): number {
  let widest = 0;
  for (let i = 0; i < size * size; i += size) {
    const sum = Math.abs(matrix[i]!) + Math.abs(matrix[i + 1]!) + Math.abs(matrix[i + 2]!) + Math.abs(matrix[i + 3]!);
    if (sum > widest || Number.isNaN(sum)) widest = sum;
  }
  return widest;
}

/** Product of two matrices, written out since everything else takes longer; it may be written into neither of them. */
function multiply({ a, b, into }: { a: Matrix; b: Matrix; into: number[] }): void {
  for (let i = 0; i < size * size; i += size) {
    const a0 = a[i]!;
    const a1 = a[i + 1]!;
    const a2 = a[i + 2]!;
    const a3 = a[i + 3]!;
    into[i] = a0 * b[0]! + a1 * b[4]! + a2 * b[8]! + a3 * b[12]!;
    into[i + 1] = a0 * b[1]! + a1 * b[5]! + a2 * b[9]! + a3 * b[13]!;
    into[i + 2] = a0 * b[2]! + a1 * b[6]! + a2 * b[10]! + a3 * b[14]!;
    into[i + 3] = a0 * b[3]! + a1 * b[7]! + a2 * b[11]! + a3 * b[15]!;
  }
}
