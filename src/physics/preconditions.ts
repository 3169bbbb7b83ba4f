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
  for (const [name, value] of Object.entries(values))
    if (!Number.isFinite(value)) throw new RangeError(`${name} ${value} is not a finite number`);
}

/**
 * Refuses arguments of a formula that are not finite and above zero.
 *
 * @param values  arguments by name, any unit
 * @returns nothing
 *
 * Valid for: any numbers.
 * Errors: RangeError that names the first argument that is NaN, infinite, zero or negative.
 * Source: none, a precondition.
 *
 * @example requirePositive({ diameter: 1e-3 }) // undefined
 */
export function requirePositive(values: Readonly<Record<string, number>>): void {
  requireFinite(values);
  for (const [name, value] of Object.entries(values)) if (!(value > 0)) throw new RangeError(`${name} ${value} is not above zero`);
}

/**
 * Hands on the result of a formula if it is finite.
 *
 * @param name   what was computed
 * @param value  the result, any unit
 * @returns the value, in its unit
 *
 * Valid for: any number.
 * Errors: RangeError where the value is NaN or infinite: the arguments lie beyond what numbers can hold.
 * Source: none, a postcondition.
 *
 * @example finiteResult({ name: 'loss', value: 2 }) // 2
 */
export function finiteResult({ name, value }: { name: string; value: number }): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} has no finite value`);
  return value;
}
