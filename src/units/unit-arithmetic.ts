import type { PlainUnit } from './plain-unit.ts';

/** What an expression comes to. */
export type Value = number | PlainUnit;

/** A piece of an expression that is not arithmetic with units. */
export class ExpressionRefusal extends Error {
  readonly id: string;
  readonly help: string | undefined;
  constructor({ id, message, help }: { id: string; message: string; help?: string }) {
    super(message);
    this.name = 'ExpressionRefusal';
    this.id = id;
    this.help = help;
  }
}

/** The refusal of an operator that is none of arithmetic. */
function notArithmetic(operator: string): ExpressionRefusal {
  return operator === '%'
    ? new ExpressionRefusal({
        id: 'not-arithmetic',
        message: 'a percentage stands alone or at the end',
        help: 'write one percentage, such as 5 %, or put brackets round it',
      })
    : new ExpressionRefusal({ id: 'not-arithmetic', message: `"${operator}" is not arithmetic`, help: 'use +, -, *, /, ^ and brackets' });
}

/**
 * A value with a sign before it.
 *
 * @param name      mathjs' name of the operation
 * @param operator  as written
 * @param value     what the sign stands before
 * Errors: ExpressionRefusal for anything but plus and minus.
 *
 * @example signed({ name: 'unaryMinus', operator: '-', value: 2 }) // -2
 */
export function signed({ name, operator, value }: { name: string; operator: string; value: Value }): Value {
  if (name === 'unaryMinus') return typeof value === 'number' ? -value : value.multiply(-1);
  if (name === 'unaryPlus') return value;
  throw notArithmetic(operator);
}

/**
 * Two values joined by an operator.
 *
 * @param name      mathjs' name of the operation
 * @param operator  as written
 * @param left      before the operator
 * @param right     behind it
 * Errors: ExpressionRefusal for anything but + - * / ^, for a sum of different kinds, for an exponent with a unit.
 *
 * @example joined({ name: 'divide', operator: '/', left: 24, right: 2 }) // 12
 */
export function joined({ name, operator, left: a, right: b }: { name: string; operator: string; left: Value; right: Value }): Value {
  switch (name) {
    case 'add':
      return sum(a, b, 1);
    case 'subtract':
      return sum(a, b, -1);
    case 'multiply':
      return typeof a === 'number' ? (typeof b === 'number' ? a * b : b.multiply(a)) : a.multiply(b);
    case 'divide':
      return typeof a === 'number' ? (typeof b === 'number' ? a / b : (b.pow(-1) as PlainUnit).multiply(a)) : a.divide(b);
    case 'pow':
      if (typeof b !== 'number') throw new ExpressionRefusal({ id: 'not-arithmetic', message: 'an exponent has no unit' });
      return typeof a === 'number' ? a ** b : a.pow(b);
    default:
      throw notArithmetic(operator);
  }
}

/**
 * A quantity and a percentage of it, more or less.
 *
 * @param name   `add` or `subtract`
 * @param value  what the percentage is taken of
 * @param ratio  the percentage, as a ratio
 * Errors: ExpressionRefusal where the value has no unit: `0.05 + 2 %` could be 0.07 or 0.051.
 */
export function changedBy({ name, value, ratio }: { name: string; value: Value; ratio: Value }): Value {
  if (typeof value === 'number' || typeof ratio !== 'number') {
    throw new ExpressionRefusal({
      id: 'not-arithmetic',
      message: 'a percentage is added to nothing but a quantity with a unit',
      help: 'write the result',
    });
  }
  return sum(value, value.multiply(ratio), name === 'add' ? 1 : -1);
}

function sum(a: Value, b: Value, sign: 1 | -1): Value {
  if (typeof a === 'number' && typeof b === 'number') return a + sign * b;
  if (typeof a === 'number' || typeof b === 'number' || !a.equalBase(b)) {
    throw new ExpressionRefusal({
      id: 'wrong-unit',
      message: 'only quantities of the same kind add up',
      help: 'give both sides a unit of the same kind',
    });
  }
  return plainSum(a, b, sign);
}

/** Sum in the SI unit of the first. */
function plainSum(a: PlainUnit, b: PlainUnit, sign: 1 | -1): Value {
  const total = (a.value ?? Number.NaN) + sign * (b.value ?? Number.NaN);
  const single = a.divide(a.value === null || a.value === 0 ? 1 : a.value);
  if (typeof single === 'number') return total;
  return a.value === 0 ? (sign === 1 ? b : b.multiply(-1)) : single.multiply(total);
}
