import type { Verdict } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import { checkFates, verdictsOf, type CheckChange, type CheckFate } from '../studies/compare/checks.ts';
import { isSame, type Comparison } from '../studies/compare/comparison.ts';
import { conditionDimension } from '../parts/rating-dimension.ts';
import type { InputChange } from '../studies/compare/inputs.ts';
import type { QuantityChange } from '../studies/compare/quantities.ts';
import type { RatingChange } from '../studies/compare/ratings.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { roomLeft } from './comparison.ts';
import { oneLine } from './result-words.ts';

/** What the column of lost room means. */
export const lostWords =
  'change: of the room between value and limit, in % of the limit, of a minimum in % of the larger of the two, of temperatures in K';

/** `18 V → 24 V`, with as many digits as it takes to tell them apart, up to so many; one where they read the same. */
function movedText({ from, to, dimension, digits: most }: { from: number; to: number; dimension: Dimension; digits: number }): string {
  const counts = [3, 4, 5, 6].filter((digits) => digits <= most);
  const texts = counts.map((digits) => [from, to].map((value) => formatQuantity({ value, dimension, digits })));
  const [a, b] = texts.find(([one, other]) => one !== other) ?? texts[0]!;
  return a === b ? a! : `${a} → ${b}`;
}

/** `pass → fail`; `new: pass`, `gone: was pass`; with what became of a waiver. */
export function verdictText(change: CheckChange): string {
  const words = verdictsOf(change);
  if (change.fate === 'gone') return `gone: was ${words[0]!}`;
  const { waiver } = change.after!;
  const fate = waiver?.expired === true ? 'waiver expired' : waiver?.beyond === undefined ? 'waived' : 'past its waiver';
  const waived = waiver === undefined ? '' : `, ${fate}`;
  return `${change.fate === 'new' ? `new: ${words[0]!}` : words.join(' → ')}${waived}`;
}

/** The verdict that a change is coloured by: that of today. */
export function verdictNow({ before, after }: CheckChange): Verdict {
  return (after ?? before!).verdict;
}

/** `82.4 V → 210 V of 200 V`; nothing where there is no value. */
export function valueText({ before, after }: CheckChange): string {
  const { dimension, sense } = (after ?? before)!;
  const value = pairText({ from: before?.value, to: after?.value, dimension, digits: 4 });
  const limit = pairText({ from: before?.limit, to: after?.limit, dimension, digits: 3 });
  return value === '' ? '' : limit === '' ? value : `${value} ${sense === 'at-most' ? 'of' : 'min'} ${limit}`;
}

function pairText({
  from,
  to,
  dimension,
  digits,
}: {
  from: number | null | undefined;
  to: number | null | undefined;
  dimension: Dimension;
  digits: number;
}): string {
  const known = [from, to].flatMap((value) => (value === null || value === undefined ? [] : [value]));
  if (known.length === 2) return movedText({ from: known[0]!, to: known[1]!, dimension, digits });
  if (known.length === 0) return '';
  const text = formatQuantity({ value: known[0]!, dimension });
  if (from === undefined || to === undefined) return text;
  return from === null ? `no value → ${text}` : `${text} → no value`;
}

/** `+59 % → −5.2 %`, as `check` prints the room that is left. */
export function marginText({ before, after }: CheckChange): string {
  const left = (result: Result | undefined): string => (result === undefined ? '' : roomLeft(result));
  return [...new Set([left(before), left(after)])].filter((text) => text !== '').join(' → ');
}

/** Room that was lost, below zero, or gained: `−64 %`, `+3 K`; nothing where there is no number. */
export function lostText({ lost, before, after }: CheckChange): string {
  if (lost === null) return '';
  const isTemperature = (after ?? before)!.dimension === 'temperature';
  const size = Math.abs(lost) * 100;
  const number = size < 0.05 ? '0' : size < 10 ? size.toFixed(1).replace(/\.0$/, '') : size.toFixed(0);
  return `${number === '0' ? '' : lost > 0 ? '−' : '+'}${number} ${isTemperature ? 'K' : '%'}`;
}

/** What a change came to, in one line that begins with it. */
export function headline(comparison: Comparison): string {
  const { change, checks, inputs, ratings, quantities } = comparison;
  if (isSame(comparison)) {
    const { length } = inputs.rewritten;
    return `no difference${length === 0 ? '' : `: ${counted(length, 'value is', 'values are')} written in another way`}`;
  }
  const verdictWords = verdictChanges(checks);
  const statements = [...(verdictWords.length === 0 && change !== 'none' ? ['no verdict changed'] : verdictWords), ...marginWords(checks)];
  if (change !== 'none') return `${change}: ${statements.join('; ')}`;
  const changed = inputs.changes.length + ratings.length;
  const moved = [
    ...(quantities.length === 0 ? [] : [counted(quantities.length, 'quantity moved', 'quantities moved')]),
    ...(changed === 0 ? [] : [counted(changed, 'input changed', 'inputs changed')]),
    ...statements,
  ];
  return `no difference in any verdict or margin${moved.length === 0 ? '' : `; ${moved.join('; ')}`}`;
}

function verdictChanges(checks: readonly CheckChange[]): readonly string[] {
  const ids = (chosen: readonly CheckChange[]): string => listed(chosen.map(({ id }) => id));
  const graver = (verdict: Verdict): readonly CheckChange[] =>
    checks.filter(({ isGraver, after }) => isGraver && after?.verdict === verdict);
  const lighter = (verdict: Verdict): readonly CheckChange[] =>
    checks.filter(({ isLighter, after }) => isLighter && after?.verdict === verdict);
  const said = (chosen: readonly CheckChange[], one: string, several: string): readonly string[] =>
    chosen.length === 0 ? [] : [`${ids(chosen)} ${chosen.length === 1 ? one : several}`];
  const gone = checks.filter(({ fate }) => fate === 'gone');
  return [
    ...said(graver('fail'), 'fails now', 'fail now'),
    ...said(graver('not assessed'), 'is not assessed now', 'are not assessed now'),
    ...said(graver('warn'), 'warns now', 'warn now'),
    ...said(lighter('not assessed'), 'is not assessed now', 'are not assessed now'),
    ...said(lighter('warn'), 'only warns now', 'only warn now'),
    ...said(lighter('pass'), 'passes now', 'pass now'),
    ...said(gone, 'is not checked any more', 'are not checked any more'),
  ];
}

function marginWords(checks: readonly CheckChange[]): readonly string[] {
  const of = (fate: CheckFate): readonly CheckChange[] => checks.filter((change) => change.fate === fate && change.lost !== null);
  const [worse, better] = [of('worse'), of('better')];
  const most = worse.toSorted((a, b) => b.lost! - a.lost!)[0];
  return [
    ...(most === undefined ? [] : [`${counted(worse.length, 'margin', 'margins')} lost, most ${most.id} ${lostText(most)}`]),
    ...(better.length === 0 ? [] : [`${counted(better.length, 'margin', 'margins')} gained`]),
  ];
}

/** Names in a row; beyond three they are counted. */
function listed(names: readonly string[]): string {
  return names.length <= 4 ? names.join(', ') : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;
}

function counted(count: number, one: string, several: string): string {
  return `${count} ${count === 1 ? one : several}`;
}

/** `loads.lamp.power`, whatever line ends a name holds. */
export function keyText({ name }: InputChange): string {
  return oneLine(name);
}

/** `18 V → 24 V`, `new: 25 W`, `gone: was 25 W`. */
export function inputText({ before, after }: InputChange): string {
  const written = (text: string): string => (text.trim() === '' ? 'nothing' : oneLine(text));
  if (before === undefined) return `new: ${written(after!.text)}`;
  return after === undefined ? `gone: was ${written(before.text)}` : `${written(before.text)} → ${written(after.text)}`;
}

/** `line 5`, `line 5, was 6`, `was line 6`. */
export function lineText({ before, after }: InputChange): string {
  if (after === undefined) return `was line ${before!.at.line}`;
  return before === undefined || before.at.line === after.at.line
    ? `line ${after.at.line}`
    : `line ${after.at.line}, was ${before.at.line}`;
}

/** `switches.part IRFP250N: onResistance 75 mΩ → 55 mΩ, …`, one for each part. */
export function ratingTexts(ratings: readonly RatingChange[]): readonly string[] {
  return [...new Set(ratings.map(({ place }) => place))].map((place) => {
    const own = ratings.filter((rating) => rating.place === place);
    const names = [...new Set([own[0]!.part.before, own[0]!.part.after])].join(' → ');
    return `${place} ${names}: ${own.map(ratingText).join(', ')}`;
  });
}

function ratingText({ key, of, dimension, before, after }: RatingChange): string {
  const [condition] = Object.entries<string | number>(of ?? {}).map(([name, value]) =>
    typeof value === 'string' ? value : formatQuantity({ value, dimension: conditionDimension(name) }),
  );
  const at = condition === undefined ? '' : ` (${condition})`;
  const number = (value: number): string => formatQuantity({ value, dimension });
  if (before === undefined) return `${key}${at} new: ${number(after!.value)}`;
  if (after === undefined) return `${key}${at} gone: was ${number(before.value)}`;
  return `${key}${at} ${movedText({ from: before.value, to: after.value, dimension, digits: 6 })}`;
}

/** `56.5 V → 75.2 V`. */
export function quantityText({ before, after, dimension }: QuantityChange): string {
  return pairText({ from: before?.value, to: after?.value, dimension, digits: 4 });
}

/** `+33 %`, of temperatures `+5.8 K`; nothing where there are no two numbers. */
export function shareText({ before, after, dimension, by }: QuantityChange): string {
  const [from, to] = [before?.value ?? null, after?.value ?? null];
  const move = dimension === 'temperature' && from !== null && to !== null ? to - from : by;
  if (move === null) return '';
  const size = formatQuantity({ value: Math.abs(move), dimension: by === null ? 'temperatureRise' : 'ratio', digits: 2 });
  return `${move < 0 ? '−' : '+'}${size}`;
}

/** Moves of quantities below this are counted and not told: a thousandth, a tenth of a kelvin. */
const slight = { share: 1e-3, kelvin: 0.1 };

/** Whether the move of a quantity is worth a line: there are two loads to compare, and it moved by more than a thousandth. */
export function isTold({ before, after, by, dimension }: QuantityChange): boolean {
  if (before === undefined || after === undefined) return false;
  if (by !== null) return Math.abs(by) >= slight.share;
  if (before.value === null || after.value === null || dimension !== 'temperature') return true;
  return Math.abs(after.value - before.value) >= slight.kelvin;
}

/** How many checks came to each fate. */
export function fateCounts(checks: readonly CheckChange[]): Readonly<Record<CheckFate, number>> {
  const counts = Object.fromEntries(checkFates.map((fate) => [fate, 0])) as Record<CheckFate, number>;
  for (const { fate } of checks) counts[fate] += 1;
  return counts;
}
