/** A complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/**
 * Sum of complex numbers.
 *
 *     a + b
 *
 * @param a  first number, any unit
 * @param b  second number, same unit
 * @returns the sum, same unit
 *
 * Valid for: all numbers.
 * Source: definition
 *
 * @example plus({ re: 1, im: 2 }, { re: 3, im: -1 }) // { re: 4, im: 1 }
 */
export function plus(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

/**
 * Product of complex numbers.
 *
 *     a·b
 *
 * @param a  first number, any unit
 * @param b  second number, any unit
 * @returns the product, product of the units
 *
 * Valid for: products that do not overflow.
 * Source: definition
 *
 * @example times({ re: 1, im: 2 }, { re: 3, im: -1 }) // { re: 5, im: 5 }
 */
export function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

/**
 * A complex number times a real one.
 *
 *     r·a
 *
 * @param a  complex number, any unit
 * @param r  real number, any unit
 * @returns the product, product of the units
 *
 * Valid for: all numbers.
 * Source: definition
 *
 * @example scaled({ re: 1, im: 2 }, 3) // { re: 3, im: 6 }
 */
export function scaled(a: Complex, r: number): Complex {
  return { re: r * a.re, im: r * a.im };
}

/**
 * Quotient of complex numbers, divided by the larger part first, so that it neither overflows nor vanishes on the way.
 *
 *     a/b
 *
 * @param a  dividend, any unit
 * @param b  divisor, any unit, not zero
 * @returns the quotient, quotient of the units
 *
 * Valid for: b other than zero.
 * Source: R. L. Smith, Comm. ACM 5, 1962, from memory
 *
 * @example over({ re: 5, im: 5 }, { re: 1, im: 2 }) // { re: 3, im: -1 }
 */
export function over(a: Complex, b: Complex): Complex {
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const ratio = b.im / b.re;
    const divisor = b.re + b.im * ratio;
    return { re: (a.re + a.im * ratio) / divisor, im: (a.im - a.re * ratio) / divisor };
  }
  const ratio = b.re / b.im;
  const divisor = b.im + b.re * ratio;
  return { re: (a.re * ratio + a.im) / divisor, im: (a.im * ratio - a.re) / divisor };
}

/**
 * Square root with positive real part.
 *
 *     √a
 *
 * @param a  any unit; not on the negative real axis, where the sign of the root jumps
 * @returns the root, root of the unit
 *
 * Valid for: all other numbers.
 * Source: half-angle formulas
 *
 * @example squareRoot({ re: -3, im: 4 }) // { re: 1, im: 2 }
 */
export function squareRoot(a: Complex): Complex {
  const size = Math.hypot(a.re, a.im);
  if (size === 0) return { re: 0, im: 0 };
  if (a.re >= 0) {
    const re = Math.sqrt((size + a.re) / 2);
    return { re, im: a.im / (2 * re) };
  }
  const im = Math.sqrt((size - a.re) / 2) * (a.im < 0 ? -1 : 1);
  return { re: a.im / (2 * im), im };
}

/**
 * Exponential.
 *
 *     e^a
 *
 * @param a  a ratio
 * @returns e^a, a ratio
 *
 * Valid for: real parts below 709; it is 0 below −745.
 * Source: Euler
 *
 * @example exponential({ re: 0, im: Math.PI / 2 }).im // 1
 */
export function exponential(a: Complex): Complex {
  const size = Math.exp(a.re);
  return { re: size * Math.cos(a.im), im: size * Math.sin(a.im) };
}
