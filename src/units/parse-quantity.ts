import type { Dimension } from './dimension.ts';
import { dimensions, examplesOf, nameOf, unitOf } from './dimensions-table.ts';
import { ExpressionRefusal, expressionValue, UnknownUnit, type Value } from './expression.ts';
import { misreading } from './misreadings.ts';
import { one, type PlainUnit } from './plain-unit.ts';
import { isUnitSymbol, unitsMeant } from './unit-symbol.ts';

/** What is wrong with the text of a quantity. */
export interface QuantityProblem {
  readonly id: string;
  readonly message: string;
  readonly label?: string;
  readonly help?: string;
}

/** An SI number, or what is wrong. */
export type ParsedQuantity = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly problem: QuantityProblem };

/** Longest text that is looked at, and deepest brackets. */
const longestText = 200;
const deepestBrackets = 20;

/**
 * A quantity as people write it, as an SI number.
 *
 * @param text       such as `1.8 uH`, `2 * 47 uF`, `5 %`, `30 °C`
 * @param dimension  what is expected
 * @returns the number in SI (a temperature in K, a ratio as a plain number), finite; or one problem with what to write instead
 *
 * @example parseQuantity({ text: '2 * 47 µF', dimension: 'capacitance' }) // { ok: true, value: 94e-6 }
 * @example parseQuantity({ text: '30 °C', dimension: 'temperature' }) // { ok: true, value: 303.15 }
 */
export function parseQuantity({ text, dimension }: { text: string; dimension: Dimension }): ParsedQuantity {
  const direct = directValue({ text, dimension });
  if (direct !== undefined) return finite(direct);
  const plain = normalised(text);
  const problem = misreading({ text: plain, dimension, longestText, deepestBrackets });
  if (problem !== undefined) return { ok: false, problem };
  try {
    return dimension === 'temperature' ? temperature(plain) : inDimension({ value: valueOf(plain), dimension });
  } catch (error) {
    return { ok: false, problem: problemOf({ error, text: plain, dimension }) };
  }
}

/** One spelling for what is written in many: signs, prefixes, degrees. */
function normalised(text: string): string {
  return text
    .normalize('NFKC')
    .replaceAll('\u03BC', 'u')
    .replaceAll(/\u03A9|[Oo]hms?\b|OHMS?\b/g, 'ohm')
    .replaceAll(/°\s*C|\bdegC\b/g, 'degC')
    .replaceAll(/°\s*F/g, 'degF')
    .replaceAll(/\u2212|\u2013/g, '-')
    .replaceAll(/[×·⋅]/g, '*')
    .replaceAll(/\/\s*degC\b/g, '/K')
    .replaceAll(/\bdegC\s*\//g, 'K/')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

const plainForm = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?) ?([A-Za-z]+(?:\/[A-Za-z]+)?|%)?$/;

/** Whether a word, or the quotient of two, is a unit. */
const isUnit = (text: string): boolean => text.split('/').every(isUnitSymbol);

/** A plain number and unit of the expected kind, as most files have them, need no further look. */
function directValue({ text, dimension }: { text: string; dimension: Dimension }): number | undefined {
  const unit = unitOf(dimension);
  const [, number = '', symbol = ''] = plainForm.exec(text) ?? [];
  if (number === '') return undefined;
  if (unit === '1') return symbol === '%' ? Number(number) / 100 : symbol === '' ? Number(number) : undefined;
  if (dimension === 'temperature') return symbol === 'degC' && Number(number) >= -273.15 ? Number(number) + 273.15 : undefined;
  if (!isUnit(symbol) || !one(symbol).equalBase(one(unit))) return undefined;
  const value = one(symbol).multiply(Number(number));
  return typeof value === 'number' ? undefined : (value.value ?? undefined);
}

/** The plain form needs no parser; both ways give the same bits, since a unit is scaled by a prefix and multiplied by a number. */
function valueOf(text: string): Value {
  const [, number = '', unit = ''] = plainForm.exec(text) ?? [];
  return number !== '' && isUnit(unit) ? one(unit).multiply(Number(number)) : expressionValue(text);
}

function inDimension({ value, dimension }: { value: Value; dimension: Dimension }): ParsedQuantity {
  const unit = unitOf(dimension);
  const number = typeof value === 'number' ? value : dimensionless(value);
  if (unit === '1') return number === undefined ? wrongUnit({ value: value as PlainUnit, dimension }) : finite(number);
  if (number !== undefined) return bareNumber(dimension);
  const quantity = value as PlainUnit;
  if (!quantity.equalBase(one(unit))) return wrongUnit({ value: quantity, dimension });
  return finite(quantity.value ?? Number.NaN);
}

function dimensionless(value: PlainUnit): number | undefined {
  return value.dimensions.every((power) => power === 0) ? (value.value ?? undefined) : undefined;
}

function finite(value: number): ParsedQuantity {
  if (Number.isFinite(value)) return { ok: true, value };
  return {
    ok: false,
    problem: {
      id: 'not-finite',
      message: 'the quantity is not a finite number',
      label: 'too large, or divided by zero',
      help: 'write a finite number',
    },
  };
}

/** An absolute temperature is one number with degC or K: arithmetic with an offset scale does not mean what it says. */
function temperature(text: string): ParsedQuantity {
  const [, number, scale] = /^(.+?) ?(degC|degF|K)$/.exec(text) ?? [];
  if (number === undefined || scale === undefined) {
    const value = valueOf(text.replaceAll('degC', 'K'));
    return typeof value === 'number' ? bareNumber('temperature') : wrongUnit({ value, dimension: 'temperature' });
  }
  if (/deg[CF]|K/.test(number)) {
    const help = 'write the temperature as one number, such as 50 degC';
    return {
      ok: false,
      problem: { id: 'temperature-arithmetic', message: 'degrees Celsius do not add up', label: 'expected one temperature', help },
    };
  }
  const value = expressionValue(number);
  if (typeof value !== 'number') return wrongUnit({ value, dimension: 'temperature' });
  const kelvin = scale === 'degC' ? value + 273.15 : scale === 'K' ? value : (value - 32) / 1.8 + 273.15;
  if (kelvin < 0)
    return {
      ok: false,
      problem: { id: 'below-absolute-zero', message: `${text} lies below absolute zero`, help: 'check the sign and the unit' },
    };
  return finite(kelvin);
}

function writeOne(dimension: Dimension): string {
  const [first, second] = examplesOf(dimension);
  return `write ${nameOf(dimension)} such as "${first}" or "${second}"`;
}

function bareNumber(dimension: Dimension): ParsedQuantity {
  return {
    ok: false,
    problem: {
      id: 'bare-number',
      message: `the unit is missing: ${nameOf(dimension)} is expected`,
      label: `expected ${nameOf(dimension)}`,
      help: writeOne(dimension),
    },
  };
}

function wrongUnit({ value, dimension }: { value: PlainUnit; dimension: Dimension }): ParsedQuantity {
  const found = dimensions.find((other) => unitOf(other) !== '1' && value.equalBase(one(unitOf(other))));
  const is = found === undefined ? 'this has another unit' : `this is ${nameOf(found)}`;
  return {
    ok: false,
    problem: {
      id: 'wrong-unit',
      message: `${is}, ${nameOf(dimension)} is expected`,
      label: `expected ${nameOf(dimension)}`,
      help: writeOne(dimension),
    },
  };
}

/** A suggestion of another kind than the expected one would lead astray. */
function isOf({ unit, dimension }: { unit: string; dimension: Dimension }): boolean {
  const wanted = unitOf(dimension);
  return wanted.includes('/') || (wanted !== '1' && one(unit).equalBase(one(wanted)));
}

function problemOf({ error, text, dimension }: { error: unknown; text: string; dimension: Dimension }): QuantityProblem {
  const label = `expected ${nameOf(dimension)}`;
  if (error instanceof ExpressionRefusal) return { id: error.id, message: error.message, label, help: error.help ?? writeOne(dimension) };
  if (error instanceof UnknownUnit) {
    const meant = unitsMeant(error.word).filter((unit) => isOf({ unit, dimension }));
    const help = meant.length > 0 ? `did you mean ${meant.join(', ')}?` : writeOne(dimension);
    return { id: 'unknown-unit', message: `"${error.word}" is not a unit`, label, help };
  }
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  return { id: 'not-a-quantity', message: `"${shown}" is not ${nameOf(dimension)}`, label, help: writeOne(dimension) };
}
