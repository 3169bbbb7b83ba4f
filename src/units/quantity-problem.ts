import type { Dimension } from './dimension.ts';
import { dimensions, examplesOf, nameOf, unitOf } from './dimensions-table.ts';
import { one, type PlainUnit } from './plain-unit.ts';
import { unitInstead, unitsMeant } from './unit-symbol.ts';

/** What is wrong with the text of a quantity. */
export interface QuantityProblem {
  readonly id: string;
  readonly message: string;
  readonly label?: string;
  readonly help?: string;
}

/** Longest piece of a text that a message repeats. */
const longestShown = 40;

/**
 * A text as a message repeats it: short, and without characters that are invisible or steer a terminal.
 *
 * @param text  as written
 *
 * @example shown('12\u0007 V') // '12? V'
 */
export function shown(text: string): string {
  const printable = text.replaceAll(/\p{C}/gu, '?');
  return printable.length > longestShown ? `${printable.slice(0, longestShown)}…` : printable;
}

/**
 * The label of every problem.
 *
 * @example labelOf('voltage') // 'expected a voltage'
 */
export function labelOf(dimension: Dimension): string {
  return `expected ${nameOf(dimension)}`;
}

/**
 * What to write, where nothing better is known.
 *
 * @example writeSuch('voltage') // 'write a voltage such as "18 V" or "850 mV"'
 */
export function writeSuch(dimension: Dimension): string {
  const [first, second] = examplesOf(dimension);
  return `write ${nameOf(dimension)} such as "${first}" or "${second}"`;
}

/**
 * A number where a unit is due.
 *
 * @param dimension  what is expected
 *
 * @example bareNumber('voltage').id // 'bare-number'
 */
export function bareNumber(dimension: Dimension): QuantityProblem {
  return {
    id: 'bare-number',
    message: `the unit is missing: ${nameOf(dimension)} is expected`,
    label: labelOf(dimension),
    help: writeSuch(dimension),
  };
}

/**
 * A unit without a number.
 *
 * @param dimension  what is expected
 *
 * @example numberMissing('voltage').message // 'the number is missing'
 */
export function numberMissing(dimension: Dimension): QuantityProblem {
  return { id: 'not-a-quantity', message: 'the number is missing', label: labelOf(dimension), help: writeSuch(dimension) };
}

/** A result that no number holds. */
export const notFinite: QuantityProblem = {
  id: 'not-finite',
  message: 'the quantity is not a finite number',
  label: 'too large, divided by zero, or a root of a negative number',
  help: 'write a finite number',
};

/**
 * A quantity of another kind than expected.
 *
 * @param value      what the text comes to; left out for a percentage
 * @param dimension  what is expected
 * @param meant      the text that was probably meant, if there is a plausible one
 */
export function wrongUnit({ value, dimension, meant }: { value?: PlainUnit; dimension: Dimension; meant?: string }): QuantityProblem {
  const found = value && dimensions.find((other) => unitOf(other) !== '1' && value.equalBase(one(unitOf(other))));
  const is = value === undefined ? 'this is a percentage' : found === undefined ? 'this has another unit' : `this is ${nameOf(found)}`;
  return {
    id: 'wrong-unit',
    message: `${is}, ${nameOf(dimension)} is expected`,
    label: labelOf(dimension),
    help: meant === undefined ? writeSuch(dimension) : `did you mean "${meant}"? Otherwise ${writeSuch(dimension)}`,
  };
}

/** A suggestion of another kind than the expected one would lead astray, one side of a quotient only helps where one is written. */
function isOf({ unit, text, dimension }: { unit: string; text: string; dimension: Dimension }): boolean {
  const wanted = unitOf(dimension).split('/');
  return (wanted.length === 1 || text.includes('/')) && wanted.some((part) => part !== '1' && one(unit).equalBase(one(part)));
}

/**
 * A word that is no unit, with those that may have been meant.
 *
 * @param word       as written
 * @param text       that it stands in
 * @param dimension  what is expected
 *
 * @example unknownUnit({ word: 'KHz', text: '10 KHz', dimension: 'frequency' }).help // 'did you mean "10 kHz"?'
 */
export function unknownUnit({ word, text, dimension }: { word: string; text: string; dimension: Dimension }): QuantityProblem {
  if (word === 'degC' || word === 'degF') {
    const message = `this is a temperature, ${nameOf(dimension)} is expected`;
    return { id: 'wrong-unit', message, label: labelOf(dimension), help: writeSuch(dimension) };
  }
  const instead = unitInstead({ written: word, wanted: unitOf(dimension) });
  const meant = instead === undefined ? unitsMeant(word).filter((unit) => isOf({ unit, text, dimension })) : [instead];
  const [, number] = /^([-+]?[\d.]+(?:[eE][-+]?\d+)?) ?[A-Za-z]+$/.exec(text) ?? [];
  const whole = number === undefined ? meant : meant.map((unit) => `"${number} ${unit}"`);
  const help = whole.length > 0 ? `did you mean ${whole.join(' or ')}?` : writeSuch(dimension);
  return { id: 'unknown-unit', message: `"${shown(word)}" is not a unit`, label: labelOf(dimension), help };
}

/**
 * A text that makes no sense at all.
 *
 * @param text       as written
 * @param dimension  what is expected
 *
 * @example notQuantity({ text: '3 V +', dimension: 'voltage' }).message // '"3 V +" is not a voltage'
 */
export function notQuantity({ text, dimension }: { text: string; dimension: Dimension }): QuantityProblem {
  const message = `"${shown(text)}" is not ${nameOf(dimension)}`;
  return { id: 'not-a-quantity', message, label: labelOf(dimension), help: writeSuch(dimension) };
}
