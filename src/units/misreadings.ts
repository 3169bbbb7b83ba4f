import type { Dimension } from './dimension.ts';
import { nameOf, unitOf } from './dimensions-table.ts';
import { labelOf, numberMissing, writeSuch, type QuantityProblem } from './quantity-problem.ts';
import { traps } from './traps.ts';
import { isUnitSymbol } from './unit-symbol.ts';

/** Longest text that is looked at, and deepest brackets. */
const longestText = 200;
const deepestBrackets = 20;

/** Digits raised or lowered, in a circle, or fractions: folded to plain digits they would join the number beside them. */
const oddDigits = /\p{No}/u;

/**
 * What is wrong with a text before one spelling is made of it; whatever takes time comes after this.
 *
 * @param text       as written
 * @param dimension  what is expected
 *
 * @example rawMisreading({ text: '18 V', dimension: 'voltage' }) // undefined
 */
export function rawMisreading({ text, dimension }: { text: string; dimension: Dimension }): QuantityProblem | undefined {
  const label = labelOf(dimension);
  if (text.length > longestText)
    return { id: 'too-long', message: `a quantity has at most ${longestText} characters`, label, help: 'write the result' };
  if (oddDigits.test(text))
    return { id: 'not-arithmetic', message: 'digits stand on the line', label, help: 'write powers with ^ and fractions with /' };
  return undefined;
}

/**
 * The first thing about a text that is wrong before it is read at all.
 *
 * @param text       normalised
 * @param dimension  what is expected
 *
 * @example misreading({ text: '18 V', dimension: 'voltage' }) // undefined
 */
export function misreading({ text, dimension }: { text: string; dimension: Dimension }): QuantityProblem | undefined {
  const label = labelOf(dimension);
  const help = writeSuch(dimension);
  if (text === '') return { id: 'not-a-quantity', message: `nothing is written where ${nameOf(dimension)} is expected`, label, help };
  if (/^[-+]?(?:%|deg[CF])$/.test(text) || text.split('/').every(isUnitSymbol)) return numberMissing(dimension);
  if (depthOf(text) > deepestBrackets || /[-+]{20}/.test(text.replaceAll(' ', '')))
    return { id: 'too-long', message: 'the expression is nested too deeply', label, help: 'write the result' };
  for (const { pattern, only, id, message, help: helpOf } of traps) {
    if (only !== undefined && only !== dimension) continue;
    const match = pattern.exec(text);
    if (match !== null) return { id, message, label, help: helpOf({ match, unit: unitOf(dimension) }) ?? help };
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
