import type { Verdict } from '../checks/judge.ts';
import type { Cell, Shown, Sweep, SweepPoint, VariedKey } from '../studies/sweep.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** A letter a verdict, where a word has no room; always told beside. */
export const verdictLetters: Readonly<Record<Verdict, string>> = { pass: 'p', warn: 'w', fail: 'F', 'not assessed': '?' };

/** What the letters mean. */
export const letterWords = 'p pass, w warn, F fail, ? not assessed, x refused';

/** What is shown, in words: `drain.peak, lamp away`. */
export function shownName(shown: Shown): string {
  return shown.kind === 'quantity' ? `${shown.id}, ${shown.load}` : shown.id;
}

/** A value of a key, with as many digits as its steps need. */
export function keyValue({ key: { dimension }, value }: { key: VariedKey; value: number }): string {
  return formatQuantity({ value, dimension, digits: 6 });
}

/** The cell of a point under an index of what is shown; undefined where the point is refused or has no such part. */
export function cellAt(point: SweepPoint, index: number): Cell | undefined {
  return 'cells' in point ? point.cells[index] : undefined;
}

/** The letter of a point: of its verdict, `x` where it is refused, `-` where there is nothing, `*` for a quantity. */
export function signOf({ point, shown, index }: { point: SweepPoint; shown: Shown; index: number }): string {
  if ('refused' in point) return 'x';
  const cell = point.cells[index];
  if (cell === undefined) return '-';
  if (shown.kind === 'quantity') return cell.value === null ? '?' : '*';
  return cell.verdict === undefined ? '-' : verdictLetters[cell.verdict];
}

/** `supply.voltage, 12 V to 36 V, 25 points` for each key. */
export function keyLines({ keys }: Pick<Sweep, 'keys'>): readonly string[] {
  return keys.map((key) => {
    const { name, values, isWritten } = key;
    const [from, to] = [values[0]!, values.at(-1)!].map((value) => keyValue({ key, value }));
    const written = isWritten ? '' : ' (not in the file; added to it at every point)';
    // the file is edited at this key alone
    const held = name === 'supply.voltage' ? '; a load given by its power keeps the power (window keeps its resistance)' : '';
    return `${name} from ${from} to ${to}, ${values.length} values${written}${held}`;
  });
}

/** How the points were computed. */
export function methodWords({ timed, shown }: Pick<Sweep, 'timed' | 'shown'>): string {
  const values = shown.some(({ kind }) => kind === 'quantity') ? 'quantities at nominal values; ' : '';
  const checks = shown.some(({ kind }) => kind === 'check') ? 'checks at their worst load and corner; ' : '';
  return `${values}${checks}${timed ? 'starts and load changes in the time domain (--closed-form leaves that out)' : 'closed form, no start is run in the time domain'}`;
}
