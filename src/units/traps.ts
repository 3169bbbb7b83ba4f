import type { Dimension } from './dimension.ts';
import { isUnitSymbol } from './unit-symbol.ts';

/** A spelling that a parser would refuse in a roundabout way, or read as something else. */
interface Trap {
  readonly pattern: RegExp;
  readonly only?: Dimension;
  readonly id: string;
  readonly message: string;
  /** What to write, from the match and the SI unit of what is expected; undefined where only an example helps. */
  readonly help: (argument: { match: RegExpExecArray; unit: string }) => string | undefined;
}

/** A number with a comma, written with a point for the decimals and nothing between thousands. */
function withPoint(number: string): string {
  const [comma, point] = [number.lastIndexOf(','), number.lastIndexOf('.')];
  if (number.indexOf(',') !== comma || comma < point) return number.replaceAll(',', '');
  return number.replaceAll('.', '').replace(',', '.');
}

/** The first that matches is told; the texts are normalised. */
export const traps: readonly Trap[] = [
  {
    pattern: /\d ?[A-Za-z%]* ?(?:\.\.+|[–—]|\bto\b) ?[-+]?[\d.]|^[\d.]+ ?- ?[\d.]+ ?[A-Za-z]+$/,
    id: 'not-arithmetic',
    message: 'one value is expected, not a range',
    help: () => undefined,
  },
  {
    pattern: /([\d.]*\d) ?(?:([pnumkMG]) (ohm|[VAHFWSsJC]|Hz)|(K) (ohm|Hz|V))\b/,
    id: 'split-prefix',
    message: 'a prefix stands apart from its unit',
    help: ({ match: [, number, prefix = 'k', unit, , kiloUnit] }) => `write ${number} ${prefix}${unit ?? kiloUnit}`,
  },
  {
    pattern: /^([-+]?)(\d{1,3}(?:[ '’_]\d{3})+)(?![\d,])(.*)$/,
    id: 'digit-grouping',
    message: 'nothing stands between the digits of a number',
    help: ({ match: [, sign, digits = '', rest] }) => `write ${sign}${digits.replaceAll(/\D/g, '')}${rest}`,
  },
  {
    pattern: /^([^([{,]*?)((?:\d[\d.,]*)?,[\d.,]*\d)(.*)$/,
    id: 'decimal-comma',
    message: 'the decimal sign is a point',
    help: ({ match: [, before = '', number = '', after = ''] }) => {
      const thousands = /^\d{1,3},\d{3}$/.test(number) ? `, or ${before}${number.replace(',', '')}${after} for thousands` : '';
      return `write ${before}${withPoint(number).replace(/^\./, '0.')}${after}${thousands}`;
    },
  },
  {
    pattern: /^([-+]?)(\d+) (\d+\/\d+)(?![\d.])(.*)$/,
    id: 'not-arithmetic',
    message: 'a sign is missing between a number and a fraction',
    help: ({ match: [, sign, whole, fraction, rest] }) => `write ${sign}(${whole} + ${fraction})${rest}`,
  },
  {
    pattern: /^(\d*)([pnumkMGKR]|(?<=\d)[VAWFHS])(\d+) ?([A-Za-z]+)?$/,
    id: 'letter-for-point',
    message: 'a letter does not stand for the decimal point',
    help: ({ match: [, whole, letter = '', decimals, written], unit }) => {
      if (unit === '1') return 'write the number in digits';
      const kind = written ?? unit;
      const full = [letter.replace('K', 'k') + kind, letter.replace('R', 'ohm')].find(
        (other) => isUnitSymbol(other) && other.endsWith(kind),
      );
      return full === undefined ? undefined : `write ${whole === '' ? '0' : whole}.${decimals} ${full}`;
    },
  },
  { pattern: /\b0[xXbBoO]\w/, id: 'not-decimal', message: 'numbers are decimal', help: () => 'write it in decimal digits' },
  {
    pattern: /\d ?[xX] ?\d/,
    id: 'not-arithmetic',
    message: 'times is written *',
    help: ({ match }) => `write ${match.input.replace(/(\d) ?[xX] ?(?=\d)/, '$1 * ')}`,
  },
  { pattern: /\bnan\b|\binf(inity)?\b|∞/i, id: 'not-finite', message: 'the quantity is not a finite number', help: () => 'write a number' },
  {
    pattern: /^(.*?)\b([pnumkMG]?(?:V|A|W|Hz|ohm|F|H))[_ ]?(?:rms|RMS|pk|PK|pp|PP|p-p|p|dc|DC|ac|AC|peak|max|min|typ|nom)\b(.*)$/,
    id: 'suffixed-unit',
    message: 'a unit carries no suffix: what is meant is said by the key',
    help: ({ match: [, before = '', unit, after = ''] }) => `write ${before}${unit}${after}`,
  },
  {
    pattern: /^(.*?) ?(?:\+ ?\/ ?-|±|(?<!.)\+ ?-) ?(.*)$/,
    id: 'not-arithmetic',
    message: 'one value is expected, not a range',
    help: ({ match: [, before, value] }) => `write ${before === '' ? value : before}`,
  },
  {
    pattern: /^(.*[A-Za-z%])[;,.]$/,
    id: 'not-a-quantity',
    message: 'nothing stands behind the unit',
    help: ({ match: [, before] }) => `write ${before}`,
  },
  { pattern: /#/, id: 'not-arithmetic', message: 'a comment does not belong in a quantity', help: () => 'write it outside the quotes' },
  {
    pattern: /^(.*[A-Za-z%]) (?:max|min|typ|nom)\.?$/,
    id: 'suffixed-unit',
    message: 'a unit carries no suffix: what is meant is said by the key',
    help: ({ match: [, before] }) => `write ${before}`,
  },
  {
    pattern: /^([\d.]+) ?\/ ?([\d.]+) ?%$/,
    id: 'not-arithmetic',
    message: 'it is not clear whether the percentage is divided or divides',
    help: ({ match: [, above, below] }) => `write (${above}/${below}) %, or ${above}/${below}`,
  },
  {
    pattern: /^(.*\d) ?(?:"|”|′′|'')$/,
    only: 'length',
    id: 'unknown-unit',
    message: 'a mark does not stand for the inch',
    help: ({ match: [, number] }) => `write ${number} in`,
  },
  {
    pattern: /^(.*\d) ?(?:percent|pct)$/,
    only: 'ratio',
    id: 'unknown-unit',
    message: 'a percentage is written %',
    help: ({ match: [, number] }) => `write ${number} %`,
  },
  {
    pattern: /^(.*\d) ?C$/,
    only: 'temperature',
    id: 'wrong-unit',
    message: 'C is the coulomb',
    help: ({ match: [, number] }) => `write ${number} degC`,
  },
  {
    pattern: /^(.*\d) ?F$/,
    only: 'temperature',
    id: 'wrong-unit',
    message: 'F is the farad',
    help: ({ match: [, number] }) => `write ${number} degF`,
  },
  {
    pattern: /^(.*\d) ?(?:c|o ?[cC]?|deg ?c|deg C|deg|DEGC|° ?c?|[cC]el[sc]ius)$/,
    only: 'temperature',
    id: 'unknown-unit',
    message: 'degrees Celsius are written degC or °C',
    help: ({ match: [, number] }) => `write ${number} degC`,
  },
  {
    pattern: /^(.*\d) ?(?:°|deg) ?K$/,
    id: 'unknown-unit',
    message: 'the kelvin has no degree sign',
    help: ({ match: [, number] }) => `write ${number} K`,
  },
  {
    pattern: /^([-+\d.]+ ?)?.*degC/,
    only: 'temperatureRise',
    id: 'wrong-unit',
    message: 'a temperature rise is given in K',
    help: ({ match: [all, number = ''] }) =>
      all === `${number}degC` ? `write ${number.trim()} K` : 'write the difference in K, such as 10 K',
  },
  {
    pattern: /^(.*\d) ?(h|hr|hours?|min|minutes?|days?)$/,
    only: 'time',
    id: 'wrong-unit',
    message: 'a time is given in seconds',
    help: () => 'write it in s, ms, us or ns',
  },
];
