/** Which places of M and of ∂f/∂y can be other than zero, and in which order the states are eliminated. */
export interface Structure {
  readonly n: number;
  /** Flat, row by row; the diagonal of W always can. */
  readonly couples: readonly boolean[];
  readonly hasMass: readonly boolean[];
  /** Of the pivots, each row once. */
  readonly order: readonly number[];
}

/**
 * The text of one step of the method of `stepOf` for matrices of a structure: what is zero is left out, and every number lives in a
 * variable of its own. Sparse systems that are solved again and again are compiled so (Damian, Sandu, Damian, Potra & Carmichael,
 * Computers & Chemical Engineering 26, 2002); the elimination through lists of places takes three times as long.
 *
 * Gaussian elimination without exchange of rows: W = M/(γh) − ∂f/∂y of the circuit needs none, since its capacitances and inductances
 * stand on the diagonal and outweigh, at the steps that are taken, what couples the states. Where a pivot vanishes all the same the
 * result is not finite, and the step is refused.
 *
 * Nothing but the structure enters the text: row and column numbers.
 */
export function stepCode(structure: Structure): string {
  const { n, order, hasMass } = structure;
  const states = Array.from({ length: n }, (_, i) => i);
  const perState = (line: (i: number) => string): readonly string[] => states.map(line);
  /** M times a vector, a row of it. */
  const timesMass = (i: number, value: (j: number) => string): string =>
    states.flatMap((j) => (hasMass[i * n + j] ? [` + m${i}_${j} * (${value(j)})`] : [])).join('');
  const filled = filledBy(structure);
  const solved = (name: string): readonly string[] => substituted({ name, n, order, filled });
  return [
    ...factored({ ...structure, filled }),
    ...perState((i) => `const y${i} = y[${i}], g${i} = f0[${i}], r${i} = step * ft[${i}];`),
    ...perState((i) => `let a${i} = g${i} + 0.5 * r${i};`),
    ...solved('a'),
    ...perState((i) => `let b${i} = g${i} + 1.5 * r${i}${timesMass(i, (j) => `4 * inverse * a${j}`)};`),
    ...solved('b'),
    ...perState((i) => `const u${i} = y${i} + 2 * a${i}; next[${i}] = u${i};`),
    'equations.evaluate(inside, next, f);',
    ...perState((i) => `let c${i} = f[${i}]${timesMass(i, (j) => `inverse * (a${j} - b${j})`)};`),
    ...solved('c'),
    ...perState((i) => `const v${i} = u${i} + c${i}; next[${i}] = v${i};`),
    'equations.evaluate(inside, next, f);',
    ...perState((i) => `let d${i} = f[${i}]${timesMass(i, (j) => `inverse * (a${j} - b${j} - 8 / 3 * c${j})`)};`),
    ...solved('d'),
    'let error = 0;',
    ...states.flatMap((i) => [
      `const z${i} = v${i} + d${i}; next[${i}] = z${i};`,
      `error = Math.max(error, Math.abs(d${i}) / (tolerance * (4 + Math.max(Math.abs(y${i}), Math.abs(z${i})))));`,
    ]),
    'return error;',
  ].join('\n');
}

/** Places of W that are not zero, or do not stay so. */
function filledBy({ n, couples, order }: Structure): readonly boolean[] {
  const filled = couples.map((isCoupled, at) => isCoupled || Math.floor(at / n) === at % n);
  order.forEach((p, k) => {
    const later = order.slice(k + 1);
    const columns = later.filter((j) => filled[p * n + j]);
    for (const i of later) if (filled[i * n + p]) for (const j of columns) filled[i * n + j] = true;
  });
  return filled;
}

/** W into L, the inverse pivots and U. */
function factored({ n, couples, hasMass, order, filled }: Structure & { filled: readonly boolean[] }): readonly string[] {
  const made = filled.flatMap((isFilled, at) => {
    const [i, j] = [Math.floor(at / n), at % n];
    const mass = hasMass[at] ? [`const m${i}_${j} = mass[${at}];`] : [];
    if (!isFilled) return mass;
    const value = `${hasMass[at] ? `m${i}_${j} * diagonal` : '0'}${couples[at] || i === j ? ` - jacobian[${at}]` : ''}`;
    return [...mass, `let w${i}_${j} = ${value};`];
  });
  const eliminated = order.flatMap((p, k) => {
    const later = order.slice(k + 1);
    const columns = later.filter((j) => filled[p * n + j]);
    const rows = later.filter((i) => filled[i * n + p]);
    return [
      `w${p}_${p} = 1 / w${p}_${p};`,
      ...rows.flatMap((i) => [`w${i}_${p} *= w${p}_${p};`, ...columns.map((j) => `w${i}_${j} -= w${i}_${p} * w${p}_${j};`)]),
    ];
  });
  return [...made, ...eliminated];
}

/** A right side into the solution, with the factors. */
function substituted({
  name,
  n,
  order,
  filled,
}: {
  name: string;
  n: number;
  order: readonly number[];
  filled: readonly boolean[];
}): readonly string[] {
  const down = order.flatMap((p, k) =>
    order.slice(k + 1).flatMap((i) => (filled[i * n + p] ? [`${name}${i} -= w${i}_${p} * ${name}${p};`] : [])),
  );
  const up = order.map((p, k) => {
    const known = order.slice(k + 1).filter((j) => filled[p * n + j]);
    return `${name}${p} = (${[`${name}${p}`, ...known.map((j) => `w${p}_${j} * ${name}${j}`)].join(' - ')}) * w${p}_${p};`;
  });
  return [...down, ...up.reverse()];
}
