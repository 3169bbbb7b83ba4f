import type { Result } from '../checks/result.ts';
import { formatQuantity } from '../units/format-quantity.ts';

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
