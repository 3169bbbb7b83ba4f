import { requireFinite } from './preconditions.ts';

/**
 * Where a function changes sign between two arguments.
 *
 * @param of    the function, continuous between the arguments; infinite values count by their sign
 * @param from  argument of one sign, any unit
 * @param to    argument of the other sign, same unit
 * @returns the argument at the change of sign, to the last digit or two, on the side of `to`
 *
 * Valid for: one change of sign between the arguments; of several, one is found.
 * Errors: RangeError where an argument is not finite or the function has the same sign, or no value, at both.
 * Source: false position with the stale end weighed down (Illinois; Dowell & Jarratt 1971), bisection where it does not close in
 *
 * @example bracketedRoot({ of: (x) => x * x - 2, from: 0, to: 2 }) // 1.4142135623730951
 */
export function bracketedRoot({ of, from, to }: { of: (x: number) => number; from: number; to: number }): number {
  requireFinite({ from, to });
  let [a, b] = [from, to];
  let [fa, fb] = [of(a), of(b)];
  if (fb === 0) return b;
  if (!(fa * fb < 0) && fa !== 0) throw new RangeError(`no change of sign between ${from} and ${to}`);
  for (let i = 0, side = 0; i < 200 && Math.abs(b - a) > 4e-16 * (Math.abs(a) + Math.abs(b)); i++) {
    const straight = b - (fb * (b - a)) / (fb - fa);
    const inside = straight > Math.min(a, b) && straight < Math.max(a, b);
    const x = inside && i % 4 !== 3 ? straight : (a + b) / 2;
    const fx = of(x);
    if (Number.isNaN(fx)) throw new RangeError(`no value at ${x}`);
    if (fx === 0) return x;
    if (fx > 0 === fb > 0) {
      [b, fb] = [x, fx];
      if (side === 1) fa /= 2;
      side = 1;
    } else {
      [a, fa] = [x, fx];
      if (side === -1) fb /= 2;
      side = -1;
    }
  }
  return b;
}
