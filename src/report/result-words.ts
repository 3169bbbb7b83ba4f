import type { Result } from '../checks/result.ts';
import type { AppliedWaiver } from '../checks/waiver.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { roomLeft } from './comparison.ts';

/** A result on one line: `fail: 10.9 A, at most 6 A (−82 %); bank 6 × pp-box-330n-630v: empty coil, supply +5 %`. */
export function resultSentence(result: Result): string {
  const { verdict, value, limit, dimension, sense, subject, case: where, reason } = result;
  const number = (si: number): string => formatQuantity({ value: si, dimension });
  const against = limit === null ? '' : `, ${sense === 'at-most' ? 'at most' : 'at least'} ${number(limit)} (${room(result)})`;
  const compared = value === null ? verdict : `${verdict}: ${number(value)}${against}`;
  return [compared, `${subject}: ${where}`, ...(reason === undefined ? [] : [reason])].join('; ');
}

/** Past a limit that only warns, a share below zero would read as a fail. */
export function room(result: Result): string {
  return result.verdict === 'warn' && (result.margin ?? 0) < 0 ? 'past, warns' : roomLeft(result);
}

/** What a result that needs a look rests on, where its value was set, and what to change; a statement each. */
export function resultDetails({ basis, at, remedy, warnAt, verdict, sense, dimension, waiver }: Result): readonly string[] {
  const line = warnAt === null ? '' : formatQuantity({ value: warnAt, dimension });
  return [
    ...(verdict === 'warn' && warnAt !== null ? [`warns ${sense === 'at-most' ? 'above' : 'below'} ${line}`] : []),
    ...basis,
    `${at.path}:${at.line}:${at.column}`,
    ...(remedy === undefined ? [] : [`change: ${remedy}`]),
    ...(waiver === undefined ? [] : [waiverWords(waiver)]),
  ];
}

/** `waived until 2027-03-31: the pad is potted (limits.yaml:12:5)`. */
export function waiverWords({ expired, expires, reason, at }: AppliedWaiver): string {
  const place = `${at.path}:${at.line}:${at.column}`;
  return expired ? `its waiver expired on ${expires}: ${reason} (${place})` : `waived until ${expires}: ${reason} (${place})`;
}

/** Text on one line, as a heading, a cell or a token may hold it. */
export function oneLine(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}
