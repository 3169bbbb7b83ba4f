/**
 * Refuses arguments of a formula that are not finite.
 *
 * @param values  arguments by name, any unit
 * @returns nothing
 *
 * Valid for: any numbers.
 * Errors: RangeError that names the first argument that is NaN or infinite.
 * Source: none, a precondition.
 *
 * @example requireFinite({ voltage: -3 }) // undefined
 */
export function requireFinite(values: Readonly<Record<string, number>>): void {
  for (const name in values) if (!Number.isFinite(values[name])) throw new RangeError(`${name} ${values[name]} is not a finite number`);
}

/**
 * Refuses arguments that are not finite and above zero, so that no formula returns a number that means nothing.
 *
 * @param named  the arguments by the name that the message gives, in the units of the formula
 * @returns nothing
 *
 * Valid for: numbers.
 * Errors: RangeError that names the first argument which is not finite and above zero.
 * Source: arithmetic
 *
 * @example requirePositive({ radius: 0.1 }) // undefined
 */
export function requirePositive(named: Readonly<Record<string, number>>): void {
  // a loop over names makes no lists, and these guards run millions of times
  for (const name in named) {
    const value = named[name]!;
    if (!(value > 0 && value < Infinity)) throw new RangeError(`${name} is ${value}; it must be finite and above zero`);
  }
}

/**
 * Refuses arguments that do not lie from one number to another, both included.
 *
 * @param named  the arguments by the name that the message gives, in the units of the formula
 * @param from   smallest value allowed, in the same units
 * @param to     largest value allowed, in the same units; left out, any finite one
 * @returns nothing
 *
 * Valid for: numbers.
 * Errors: RangeError that names the first argument which is not finite or lies outside.
 * Source: arithmetic
 *
 * @example requireWithin({ named: { turns: 3 }, from: 1 }) // undefined
 */
export function requireWithin({
  named,
  from,
  to = Number.MAX_VALUE,
}: {
  named: Readonly<Record<string, number>>;
  from: number;
  to?: number;
}): void {
  for (const name in named) {
    const value = named[name]!;
    if (value >= from && value <= to) continue;
    const upper = to === Number.MAX_VALUE ? 'finite' : `at most ${to}`;
    throw new RangeError(`${name} is ${value}; it must be at least ${from} and ${upper}`);
  }
}

/**
 * The result of a formula, unless it has run out of the numbers that a computer holds.
 *
 * @param name   of the result, for the message
 * @param value  the result, in any unit
 * @returns the value
 *
 * Valid for: numbers.
 * Errors: RangeError where the value is not finite.
 * Source: arithmetic
 *
 * @example finite({ name: 'inductance', value: 1e-6 }) // 1e-6
 */
export function finite({ name, value }: { name: string; value: number }): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} is ${value}: the arguments leave the range of numbers`);
  return value;
}
