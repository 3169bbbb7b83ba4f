import { createUnitClass, type PlainUnit } from 'mathjs';

/** A number type that does not exist here. */
class Absent {}

/** mathjs' units over plain numbers: the arithmetic that its class asks for, without its other number types. */
const Unit = createUnitClass({
  config: { predictable: false, number: 'number' },
  addScalar: (a: number, b: number) => a + b,
  subtractScalar: (a: number, b: number) => a - b,
  multiplyScalar: (a: number, b: number) => a * b,
  divideScalar: (a: number, b: number) => a / b,
  pow: (a: number, b: number) => a ** b,
  abs: Math.abs,
  fix: Math.trunc,
  round: Math.round,
  equal: (a: number, b: number) => a === b,
  isNumeric: (value: unknown) => typeof value === 'number',
  format: String,
  number: Number,
  Complex: Absent,
  BigNumber: Absent,
  Fraction: Absent,
});

export type { PlainUnit };

/** Units read so far; a quantity never changes, so one object serves all. */
const read = new Map<string, PlainUnit>();

/**
 * One of a unit, as a quantity of mathjs.
 *
 * @param unit  a unit or a quotient of units that mathjs knows, such as `uF` or `K/W`
 */
export function one(unit: string): PlainUnit {
  const quantity = read.get(unit) ?? new Unit(1, unit);
  read.set(unit, quantity);
  return quantity;
}
