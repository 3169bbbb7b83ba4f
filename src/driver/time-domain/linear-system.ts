/**
 * Factors a square matrix in place into L·U with partial pivoting.
 *
 * @param W       flat, row by row; holds L below and U on and above the diagonal afterwards
 * @param pivots  receives the exchanged rows
 * @param n       rows
 * @returns false where it is singular
 */
export function factor(W: Float64Array, pivots: Int32Array, n: number): boolean {
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

/**
 * Solves a factored system in place.
 *
 * @param W       as `factor` left it
 * @param pivots  as `factor` left them
 * @param n       rows
 * @param b       right side; holds the solution afterwards
 */
export function substitute(W: Float64Array, pivots: Int32Array, n: number, b: Float64Array): void {
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
