import type { Ratio } from '../units/si.ts';
import { requireWithin } from './preconditions.ts';

const multiplier = 6364136223846793005n;

/**
 * A stream of random 32-bit numbers that is the same wherever it is run: PCG32, variant XSH-RR.
 *
 *     s ← 6364136223846793005·s + (2·stream + 1) mod 2^64;  number = rotate right by s>>59 of ((s>>18) ⊕ s)>>27
 *
 * @param seed    where in the stream it begins, a whole number, 0 or more
 * @param stream  which of the streams, a whole number, 0 or more
 * @returns a function that gives the next number, 0 to 2^32 − 1, no unit
 *
 * Valid for: sampling; not for secrets. Period 2^64.
 * Errors: RangeError where seed or stream is no whole number from 0 to 2^53 − 1.
 * Source: O’Neill 2014, PCG, HMC-CS-2014-0905; first six numbers of seed 42, stream 54 as its demonstration program prints them
 *
 * @example randomNumbers({ seed: 42, stream: 54 })() // 2707161783
 */
export function randomNumbers({ seed, stream }: { seed: number; stream: number }): () => number {
  requireWithin({ named: { seed, stream }, from: 0, to: Number.MAX_SAFE_INTEGER });
  if (!Number.isInteger(seed) || !Number.isInteger(stream)) throw new RangeError(`seed ${seed} and stream ${stream} must be whole numbers`);
  const increment = 2n * BigInt(stream) + 1n;
  let state = 0n;
  const next = (): number => {
    const old = state;
    state = BigInt.asUintN(64, old * multiplier + increment);
    const mixed = Number(BigInt.asUintN(32, ((old >> 18n) ^ old) >> 27n));
    const turn = Number(old >> 59n);
    return ((mixed >>> turn) | (mixed << (-turn & 31))) >>> 0;
  };
  next();
  state = BigInt.asUintN(64, state + BigInt(seed));
  next();
  return next;
}

/** How a value lies between its limits. */
export type Spreading = 'uniform' | 'normal' | 'limit';

/**
 * A draw from −1 to 1, the limits of a tolerance.
 *
 *     uniform: (2·n + 1)/2^32 − 1;  limit: either end;  normal: √(−2·ln u)·cos(2π·v)/3, drawn again where it lies outside
 *
 * @param as    uniform: all values alike; normal: the limits at three standard deviations, none beyond; limit: at one end or the other
 * @param next  gives random numbers, 0 to 2^32 − 1
 * @returns a ratio, −1 to 1
 *
 * Valid for: any source of even 32-bit numbers.
 * Errors: none.
 * Source: Box and Muller 1958 for the normal one
 *
 * @example drawn({ as: 'uniform', next: () => 2 ** 31 }) // 2.3283064365386963e-10
 */
export function drawn({ as, next }: { as: Spreading; next: () => number }): Ratio {
  const unit = (): number => (next() + 0.5) / 2 ** 32;
  if (as === 'uniform') return 2 * unit() - 1;
  if (as === 'limit') return unit() < 0.5 ? -1 : 1;
  for (;;) {
    const normal = Math.sqrt(-2 * Math.log(unit())) * Math.cos(2 * Math.PI * unit());
    if (Math.abs(normal) <= 3) return normal / 3;
  }
}
