import type { Verdict } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import { isWaived, type AppliedWaiver } from '../checks/waiver.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/**
 * What became of the waiver of a result, `waived until 2027-03-31: the pad is potted (limits.yaml:12:5)`; nothing where it has none.
 */
export function waiverWords(result: Pick<Result, 'waiver' | 'verdict' | 'value' | 'dimension' | 'sense'>): readonly string[] {
  const { waiver } = result;
  if (waiver === undefined) return [];
  const { expired, expires, reason, at, beyond } = waiver;
  const why = `${reason} (${at.path}:${at.line}:${at.column})`;
  const outside = beyond === undefined ? '' : uncovered({ result, waiver, beyond });
  if (expired) return [`its waiver expired on ${expires}${outside === '' ? '' : ` and ${outside}`}: ${why}`];
  return [outside === '' ? `waived until ${expires}: ${why}` : `its waiver ${outside}: ${why}`];
}

/** ` (2 waived)` behind what results came to; nothing where none is. */
export function waivedWords(results: readonly Pick<Result, 'waiver'>[]): string {
  const waived = results.filter(isWaived).length;
  return waived === 0 ? '' : ` (${waived} waived)`;
}

const verdictNames: Readonly<Record<Verdict, string>> = {
  pass: 'a pass',
  warn: 'a warning',
  'not assessed': 'what is not assessed',
  fail: 'a fail',
};

/** `covers a warning, not a fail`; `covers up to 170 V, not 182 V`. */
function uncovered({
  result: { verdict, value, dimension, sense },
  waiver: { verdict: gravest = 'fail', upTo },
  beyond,
}: {
  result: Pick<Result, 'verdict' | 'value' | 'dimension' | 'sense'>;
  waiver: AppliedWaiver;
  beyond: NonNullable<AppliedWaiver['beyond']>;
}): string {
  if (beyond === 'verdict' || upTo === undefined) return `covers ${verdictNames[gravest]}, not ${verdictNames[verdict]}`;
  const way = sense === 'at-most' ? 'up' : 'down';
  const number = (si: number, digits = 3): string => formatQuantity({ value: si, dimension, digits });
  if (value === null) return `covers ${way} to ${number(upTo)}, and there is no value to hold against it`;
  // as many digits as tell the two apart; a temperature has one decimal at most
  const digits = [3, 4, 5, 6, 8, 12, 15].find((count) => number(upTo, count) !== number(value, count));
  if (digits === undefined) return `covers ${way} to ${number(upTo)}, which the value is just past`;
  return `covers ${way} to ${number(upTo, digits)}, not ${number(value, digits)}`;
}
