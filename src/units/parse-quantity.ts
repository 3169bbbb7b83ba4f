import type { Dimension } from './dimension.ts';
import { unitOf } from './dimensions-table.ts';
import { expressionValue, UnknownUnit } from './expression.ts';
import { misreading, rawMisreading } from './misreadings.ts';
import { one, type PlainUnit } from './plain-unit.ts';
import {
  bareNumber,
  labelOf,
  notFinite,
  notQuantity,
  numberMissing,
  unknownUnit,
  writeSuch,
  wrongUnit,
  type QuantityProblem,
} from './quantity-problem.ts';
import { ExpressionRefusal, type Value } from './unit-arithmetic.ts';
import { isUnitSymbol, unitInstead } from './unit-symbol.ts';

export type { QuantityProblem };

/** An SI number, or what is wrong. */
export type ParsedQuantity = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly problem: QuantityProblem };

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
export function parseQuantity({ text: written, dimension }: { text: string; dimension: Dimension }): ParsedQuantity {
  // a square in a unit, `A/mm²`, is the only raised digit that cannot be misread
  const text = written.replaceAll(/(?<=\/ ?[munk]?m)²/g, '^2');
  const rawProblem = rawMisreading({ text, dimension });
  if (rawProblem !== undefined) return { ok: false, problem: rawProblem };
  const direct = directValue({ text, dimension });
  if (direct !== undefined) return finite(direct);
  const plain = normalised(text);
  const problem = misreading({ text: plain, dimension });
  if (problem !== undefined) return { ok: false, problem };
  try {
    const parsed = dimension === 'temperature' ? temperature(plain) : inDimension({ text: plain, dimension });
    return parsed.ok && !/\d/.test(plain) ? { ok: false, problem: numberMissing(dimension) } : parsed;
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
    .replaceAll(/°\s*C/g, 'degC')
    .replaceAll(/°\s*F/g, 'degF')
    .replaceAll('\u2212', '-')
    .replace(/^\s*\u2013/, '-')
    .replaceAll(/[×·⋅]/g, '*')
    .replaceAll(/[÷∕⁄]/g, '/')
    .replaceAll(/\/\s*degC\b/g, '/K')
    .replaceAll(/(?<![A-Za-z])degC\s*\/(?=\s*[numk]?W\b)/g, 'K/')
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

function inDimension({ text, dimension }: { text: string; dimension: Dimension }): ParsedQuantity {
  const value = valueOf(text);
  const unit = unitOf(dimension);
  const number = typeof value === 'number' ? value : dimensionless(value);
  if (number !== undefined) return unit === '1' ? finite(number) : { ok: false, problem: unitMissing({ text, dimension }) };
  const quantity = value as PlainUnit;
  if (unit !== '1' && quantity.equalBase(one(unit))) return finite(quantity.value ?? Number.NaN);
  const meant = unit === '1' ? undefined : textMeant({ text, unit });
  return { ok: false, problem: wrongUnit({ value: quantity, dimension, ...(meant === undefined ? {} : { meant }) }) };
}

function unitMissing({ text, dimension }: { text: string; dimension: Dimension }): QuantityProblem {
  return text.includes('%') ? wrongUnit({ dimension }) : bareNumber(dimension);
}

function dimensionless(value: PlainUnit): number | undefined {
  return value.dimensions.every((power) => power === 0) ? (value.value ?? undefined) : undefined;
}

/** The same number with the unit that was probably meant: `10 mm` for an inductance, siemens for seconds, coulomb for kelvin. */
function textMeant({ text, unit }: { text: string; unit: string }): string | undefined {
  const [, number, symbol = ''] = /^([-+\d.eE]*\d) ?(\S+)$/.exec(text) ?? [];
  if (number === undefined) return undefined;
  const instead = [unitInstead({ written: symbol, wanted: unit }), symbol.replace(/S$/, 's'), symbol.replace(/C(?=\/|$)/, 'K')];
  const found = instead.find((other) => other !== undefined && isUnit(other) && one(other).equalBase(one(unit)));
  return found === undefined ? undefined : `${number} ${found}`;
}

function finite(value: number): ParsedQuantity {
  if (!Number.isFinite(value)) return { ok: false, problem: notFinite };
  return { ok: true, value: value === 0 ? 0 : value };
}

const kelvinOf: Readonly<Record<string, (degrees: number) => number>> = {
  degC: (degrees) => degrees + 273.15,
  degF: (degrees) => (degrees - 32) / 1.8 + 273.15,
};

/** An absolute temperature is one number with degC or K: arithmetic with an offset scale does not mean what it says. */
function temperature(text: string): ParsedQuantity {
  const [, number = '', scale = ''] = /^(.*[\d.)]) ?(degC|degF|m?K)$/.exec(text) ?? [];
  const isSeveral = /deg[CF]|K/.test(number);
  const value = isSeveral
    ? undefined
    : valueOf(number === '' ? text.replaceAll('degC', 'K') : `${number} ${kelvinOf[scale] ? 'K' : scale}`);
  if (typeof value === 'number') return { ok: false, problem: unitMissing({ text, dimension: 'temperature' }) };
  if (value !== undefined && !value.equalBase(one('K'))) return { ok: false, problem: wrongUnit({ value, dimension: 'temperature' }) };
  if (value === undefined || number === '') {
    const help = 'write the temperature as one number, such as 50 degC';
    const problem = { id: 'temperature-arithmetic', message: 'temperatures do not add up', label: 'expected one temperature', help };
    return { ok: false, problem };
  }
  const kelvin = (kelvinOf[scale] ?? Number)(value.value ?? Number.NaN);
  if (!Number.isFinite(kelvin) || kelvin >= 0) return finite(kelvin);
  const message = `${text} lies below absolute zero`;
  return { ok: false, problem: { id: 'below-absolute-zero', message, label: labelOf('temperature'), help: 'check the sign and the unit' } };
}

function problemOf({ error, text, dimension }: { error: unknown; text: string; dimension: Dimension }): QuantityProblem {
  if (error instanceof ExpressionRefusal)
    return { id: error.id, message: error.message, label: labelOf(dimension), help: error.help ?? writeSuch(dimension) };
  return error instanceof UnknownUnit ? unknownUnit({ word: error.word, text, dimension }) : notQuantity({ text, dimension });
}
