import type { Dimension } from './dimension.ts';
import { nameOf } from './dimensions-table.ts';
import type { QuantityProblem } from './parse-quantity.ts';

/** Spellings that a parser would refuse in a roundabout way, or read as something else. */
interface Trap {
  readonly pattern: RegExp;
  readonly only?: Dimension;
  readonly id: string;
  readonly message: string;
  readonly help: (match: RegExpExecArray) => string;
}

const traps: readonly Trap[] = [
  {
    pattern: /\d ([pnumkMG]) (ohm|[VAHFWSsJC]|Hz)\b/,
    id: 'split-prefix',
    message: 'a prefix stands apart from its unit',
    help: ([, prefix, unit]) => `write ${prefix}${unit} in one word`,
  },
  { pattern: /^([-+]?\d+),(\d+)/, id: 'decimal-comma', message: 'the decimal sign is a point', help: ([, a, b]) => `write ${a}.${b}` },
  {
    pattern: /^(\d+)([pnumkMGR])(\d+)( ?[A-Za-z]+)?$/,
    id: 'letter-for-point',
    message: 'a letter does not stand for the decimal point',
    help: ([, a, letter, b, unit = '']) => `write ${a}.${b} ${letter === 'R' ? '' : letter}${unit.trim() || 'ohm'}`,
  },
  { pattern: /\b0[xXbBoO]\w/, id: 'not-decimal', message: 'numbers are decimal', help: () => 'write it in decimal digits' },
  { pattern: /\bnan\b|\binf(inity)?\b|∞/i, id: 'not-finite', message: 'the quantity is not a finite number', help: () => 'write a number' },
  {
    pattern: /\b([pnumk]?(?:V|A|W|Hz))_?(rms|RMS|pk|pp|dc|DC|ac|AC|peak)\b/,
    id: 'suffixed-unit',
    message: 'a unit carries no suffix: what is meant is said by the key',
    help: ([, unit]) => `write ${unit}`,
  },
  {
    pattern: /^(.*\d) ?C$/,
    only: 'temperature',
    id: 'wrong-unit',
    message: 'C is the coulomb',
    help: ([, number]) => `write ${number} degC`,
  },
  {
    pattern: /^(.*\d) ?degC$/,
    only: 'temperatureRise',
    id: 'wrong-unit',
    message: 'a temperature rise is given in K',
    help: ([, number]) => `write ${number} K`,
  },
  {
    pattern: /^(.*\d) ?(h|min)$/,
    only: 'time',
    id: 'wrong-unit',
    message: 'a time is given in seconds',
    help: () => 'write it in s, ms, us or ns',
  },
];

/**
 * The first thing about a text that is wrong before it is read at all.
 *
 * @param text             normalised
 * @param dimension        what is expected
 * @param longestText      in characters
 * @param deepestBrackets  levels
 */
export function misreading({
  text,
  dimension,
  longestText,
  deepestBrackets,
}: {
  text: string;
  dimension: Dimension;
  longestText: number;
  deepestBrackets: number;
}): QuantityProblem | undefined {
  const label = `expected ${nameOf(dimension)}`;
  if (text === '') return { id: 'not-a-quantity', message: `nothing is written where ${nameOf(dimension)} is expected`, label };
  if (text.length > longestText)
    return { id: 'too-long', message: `a quantity has at most ${longestText} characters`, label, help: 'write the result' };
  if (depthOf(text) > deepestBrackets || /[-+]{20}/.test(text.replaceAll(' ', '')))
    return { id: 'too-long', message: 'the expression is nested too deeply', label, help: 'write the result' };
  for (const { pattern, only, id, message, help } of traps) {
    if (only !== undefined && only !== dimension) continue;
    const match = pattern.exec(text);
    if (match !== null) return { id, message, label, help: help(match) };
  }
  return undefined;
}

function depthOf(text: string): number {
  let [depth, deepest] = [0, 0];
  for (const char of text) {
    if (char === '(') depth += 1;
    if (char === ')') depth -= 1;
    deepest = Math.max(deepest, depth);
  }
  return deepest;
}
