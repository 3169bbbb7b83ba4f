import type { Result } from '../checks/result.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { roomLeft } from './comparison.ts';
import { waiverWords } from './waiver-words.ts';

/** `switch IRFP250N: lamp away, at switch-on`: the part, and the case that came closest. */
export function whereWords({ subject, case: where }: Pick<Result, 'subject' | 'case'>): string {
  return `${subject}: ${where}`;
}

/** `warns above 160 V`, where it warns. */
export function warnsWords({
  verdict,
  warnAt,
  sense,
  dimension,
}: Pick<Result, 'verdict' | 'warnAt' | 'sense' | 'dimension'>): string | undefined {
  if (verdict !== 'warn' || warnAt === null) return undefined;
  return `warns ${sense === 'at-most' ? 'above' : 'below'} ${formatQuantity({ value: warnAt, dimension })}`;
}

/** `pad.yaml:5:3`: the line that set the value. */
export function placeWords({ at }: Pick<Result, 'at'>): string {
  return `${at.path}:${at.line}:${at.column}`;
}

/** A result on one line: `fail: 10.9 A, at most 6 A (−82 %); bank 6 × pp-box-330n-630v: empty coil, supply +5 %`. */
export function resultSentence(result: Result): string {
  const { verdict, value, limit, dimension, sense, reason } = result;
  const number = (si: number): string => formatQuantity({ value: si, dimension });
  const against = limit === null ? '' : `, ${sense === 'at-most' ? 'at most' : 'at least'} ${number(limit)} (${room(result)})`;
  const compared = value === null ? verdict : `${verdict}: ${number(value)}${against}`;
  return [compared, whereWords(result), ...(reason === undefined ? [] : [reason])].join('; ');
}

/** Past a limit that only warns, a share below zero would read as a fail. */
export function room(result: Result): string {
  return result.verdict === 'warn' && (result.margin ?? 0) < 0 ? 'past, warns' : roomLeft(result);
}

/** What a result that needs a look rests on, where its value was set, and what to change; a statement each. */
export function resultDetails(result: Result): readonly string[] {
  const { basis, remedy } = result;
  const warns = warnsWords(result);
  return [
    ...(warns === undefined ? [] : [warns]),
    ...basis,
    placeWords(result),
    ...(remedy === undefined ? [] : [`change: ${remedy}`]),
    ...waiverWords(result),
  ];
}

/** Text on one line, as a heading, a cell or a token may hold it. */
export function oneLine(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}
