/** A plan for solving W·x = b again and again, W with zeros in the same places every time. Matrices are flat, row by row. */
export interface Elimination {
  /** Places of W that are not zero, or do not stay so. */
  readonly places: Uint8Array;
  /** W into its factors, in place. */
  readonly factor: (W: Float64Array) => void;
  /** b into the solution, in place, with the factors. */
  readonly solve: (W: Float64Array, b: Float64Array) => void;
}

/** Rows at the end of the order that are eliminated as a full block. */
const blockRows = 4;

/**
 * Gaussian elimination without exchange of rows, planned once: only what is not zero is computed with, and the last four rows, in which
 * everything is, as a block.
 *
 * The circuit's W = M/(γh) − ∂f/∂y needs no exchange: its capacitances and inductances stand on the diagonal, and at the steps that are
 * taken they outweigh what couples the states. Where a pivot vanishes all the same the solution is not finite, and the step is refused.
 *
 * @param n        rows, four or more
 * @param couples  whether a place can be other than zero; the diagonal always can
 * @param order    of the pivots, each row once
 */
export function eliminationOf({ n, couples, order }: { n: number; couples: readonly boolean[]; order: readonly number[] }): Elimination {
  const filled = couples.map((isCoupled, at) => isCoupled || Math.floor(at / n) === at % n);
  const [first, last] = [order.slice(0, n - blockRows), order.slice(n - blockRows)];
  const lower: number[][] = [];
  const products: { readonly target: number; readonly left: number; readonly upper: number }[][] = [];
  first.forEach((p, k) => {
    const later = order.slice(k + 1);
    const rows = later.filter((row) => filled[row * n + p]);
    const columns = later.filter((column) => filled[p * n + column]);
    lower.push(rows.map((row) => row * n + p));
    products.push(rows.flatMap((i) => columns.map((j) => ({ target: i * n + j, left: i * n + p, upper: p * n + j }))));
    for (const { target } of products.at(-1)!) filled[target] = true;
  });
  const above = first.map((p, k) => order.slice(k + 1).flatMap((j) => (filled[p * n + j] ? [p * n + j] : [])));
  for (const i of last) for (const j of last) filled[i * n + j] = true;
  const bytes = (values: readonly number[]): Uint8Array => Uint8Array.from(values);
  const ends = (lists: readonly (readonly unknown[])[]): Uint16Array => {
    let sum = 0;
    return Uint16Array.from(lists, ({ length }) => (sum += length));
  };
  const plan: Plan = {
    pivots: bytes(first.map((p) => p * n + p)),
    order: bytes(first),
    lower: bytes(lower.flat()),
    lowerEnds: ends(lower),
    lowerRows: bytes(lower.flat().map((at) => Math.floor(at / n))),
    lowerColumns: bytes(lower.flat().map((at) => at % n)),
    targets: bytes(products.flat().map(({ target }) => target)),
    left: bytes(products.flat().map(({ left }) => left)),
    upper: bytes(products.flat().map(({ upper }) => upper)),
    productEnds: ends(products),
    above: bytes(above.flat()),
    aboveColumns: bytes(above.flat().map((at) => at % n)),
    aboveEnds: ends(above),
    last: bytes(last),
    blockPlaces: bytes(last.flatMap((i) => last.map((j) => i * n + j))),
    block: new Float64Array(blockRows * blockRows),
  };
  return {
    places: bytes(filled.flatMap((isFilled, at) => (isFilled ? [at] : []))),
    factor: (W) => {
      factorFirst(plan, W);
      factorBlock(plan, W);
    },
    solve: (W, b) => {
      const { lower: places, lowerRows, lowerColumns } = plan;
      for (let at = 0; at < places.length; at++) b[lowerRows[at]!] = b[lowerRows[at]!]! - W[places[at]!]! * b[lowerColumns[at]!]!;
      solveBlock(plan, b);
      substituteFirst(plan, W, b);
    },
  };
}

/** What is done to W and b, pivot after pivot. Places are those of W; ends tell up to where a pivot's are. */
interface Plan {
  /** All but the last rows. */
  readonly pivots: Uint8Array;
  readonly order: Uint8Array;
  readonly lower: Uint8Array;
  readonly lowerEnds: Uint16Array;
  readonly lowerRows: Uint8Array;
  readonly lowerColumns: Uint8Array;
  /** Each target less left times upper. */
  readonly targets: Uint8Array;
  readonly left: Uint8Array;
  readonly upper: Uint8Array;
  readonly productEnds: Uint16Array;
  readonly above: Uint8Array;
  readonly aboveColumns: Uint8Array;
  readonly aboveEnds: Uint16Array;
  /** The last rows, and the factors of what is left of them. */
  readonly last: Uint8Array;
  readonly blockPlaces: Uint8Array;
  readonly block: Float64Array;
}

/** Leaves L, the inverse pivots and U in W. */
function factorFirst({ pivots, lower, lowerEnds, targets, left, upper, productEnds }: Plan, W: Float64Array): void {
  let [at, product] = [0, 0];
  for (let k = 0; k < pivots.length; k++) {
    const inverse = 1 / W[pivots[k]!]!;
    W[pivots[k]!] = inverse;
    for (const end = lowerEnds[k]!; at < end; at++) W[lower[at]!] = W[lower[at]!]! * inverse;
    for (const end = productEnds[k]!; product < end; product++)
      W[targets[product]!] = W[targets[product]!]! - W[left[product]!]! * W[upper[product]!]!;
  }
}

function substituteFirst({ pivots, order, above, aboveColumns, aboveEnds }: Plan, W: Float64Array, b: Float64Array): void {
  let at = above.length - 1;
  for (let k = order.length - 1; k >= 0; k--) {
    let sum = b[order[k]!]!;
    for (const begin = k === 0 ? 0 : aboveEnds[k - 1]!; at >= begin; at--) sum -= W[above[at]!]! * b[aboveColumns[at]!]!;
    b[order[k]!] = sum * W[pivots[k]!]!;
  }
}

/** Leaves L, the inverse pivots and U of the last rows in the block. */
function factorBlock({ blockPlaces: at, block }: Plan, W: Float64Array): void {
  const a = 1 / W[at[0]!]!;
  const u01 = W[at[1]!]!, u02 = W[at[2]!]!, u03 = W[at[3]!]!; // prettier-ignore
  const l10 = W[at[4]!]! * a, l20 = W[at[8]!]! * a, l30 = W[at[12]!]! * a; // prettier-ignore
  const b = 1 / (W[at[5]!]! - l10 * u01);
  const u12 = W[at[6]!]! - l10 * u02, u13 = W[at[7]!]! - l10 * u03; // prettier-ignore
  const l21 = (W[at[9]!]! - l20 * u01) * b, l31 = (W[at[13]!]! - l30 * u01) * b; // prettier-ignore
  const c = 1 / (W[at[10]!]! - l20 * u02 - l21 * u12);
  const u23 = W[at[11]!]! - l20 * u03 - l21 * u13;
  const l32 = (W[at[14]!]! - l30 * u02 - l31 * u12) * c;
  const d = 1 / (W[at[15]!]! - l30 * u03 - l31 * u13 - l32 * u23);
  block[0] = a;
  block[1] = u01;
  block[2] = u02;
  block[3] = u03; // prettier-ignore
  block[4] = l10;
  block[5] = b;
  block[6] = u12;
  block[7] = u13; // prettier-ignore
  block[8] = l20;
  block[9] = l21;
  block[10] = c;
  block[11] = u23; // prettier-ignore
  block[12] = l30;
  block[13] = l31;
  block[14] = l32;
  block[15] = d; // prettier-ignore
}

function solveBlock({ last, block }: Plan, b: Float64Array): void {
  const i0 = last[0]!, i1 = last[1]!, i2 = last[2]!, i3 = last[3]!; // prettier-ignore
  const y0 = b[i0]!;
  const y1 = b[i1]! - block[4]! * y0;
  const y2 = b[i2]! - block[8]! * y0 - block[9]! * y1;
  const y3 = b[i3]! - block[12]! * y0 - block[13]! * y1 - block[14]! * y2;
  const x3 = y3 * block[15]!;
  const x2 = (y2 - block[11]! * x3) * block[10]!;
  const x1 = (y1 - block[6]! * x2 - block[7]! * x3) * block[5]!;
  b[i0] = (y0 - block[1]! * x1 - block[2]! * x2 - block[3]! * x3) * block[0]!;
  b[i1] = x1;
  b[i2] = x2;
  b[i3] = x3;
}
