import type { CheckSpread, Spread, SpreadVariable } from '../studies/spread.ts';
import { notInBuilds } from '../studies/spread.ts';
import { timedChecks } from '../studies/timed-checks.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** A share in percent. */
export function shareText(share: number): string {
  return formatQuantity({ value: share, dimension: 'ratio', digits: share > 0.99 && share < 1 ? 4 : 3 });
}

/** `11.7 to 13 %` */
export function intervalText({ lower, upper }: CheckSpread['interval']): string {
  return `${shareText(lower).replace(' %', '')} to ${shareText(upper)}`;
}

/** The limits of a variable: `±5 %`, `2 V to 4 V`. */
export function limitsText({ low, high, dimension }: SpreadVariable): string {
  if (dimension === 'ratio') return `±${formatQuantity({ value: (high - low) / 2, dimension })}`;
  return `${formatQuantity({ value: low, dimension })} to ${formatQuantity({ value: high, dimension })}`;
}

/** How values lie, in words. */
export const spreadingWords = {
  uniform: 'uniform: every value between the limits alike',
  normal: 'normal: limits at 3 standard deviations, none beyond',
  limit: 'limit: at one limit or the other',
} as const;

/** What the figures rest on, a statement each. */
export function spreadNotes({ spread: { timed, checks, variables } }: { spread: Spread }): readonly string[] {
  const unlike = checks.filter(({ worst: { id } }) => timedChecks.has(id)).map(({ worst: { id } }) => id);
  const used = [...new Set(variables.map(({ as }) => as))];
  return [
    ...used.map((as) => spreadingWords[as]),
    'a project states limits and not how parts lie between them: the shares rest on that assumption, and on variables that do not depend on each other',
    `builds are computed in closed form, without the time domain: ${unlike.join(', ')} rest on bounds${timed ? '; the worst corners have their starts and load changes in the time domain' : ''}`,
    'intervals: Wilson 1927, 95 %; a build that is not assessed counts as one that may fail or not',
    `${notInBuilds} is not among the builds; see switch-surge-voltage`,
    'not varied: ratings stated as a maximum or minimum, resistors, temperature, loads; capacitors of a bank differ from each other as in check; a coil of known shape is as warm in every build as at its worst current',
  ];
}

/** Checks of which most is to be said: those that fail in builds, most first, else those with the least room. */
export function tellingChecks({ checks }: Spread, most: number): readonly CheckSpread[] {
  const troubled = checks.filter(({ counts }) => counts.fail + counts.warn > 0);
  const worstFirst = troubled.toSorted((a, b) => b.counts.fail - a.counts.fail || b.counts.warn - a.counts.warn);
  const told = firstDriven(worstFirst, most);
  if (told.length > 0) return told;
  const room = new Map(checks.map((check) => [check, least(check)]));
  return firstDriven(
    checks.toSorted((a, b) => room.get(a)! - room.get(b)!),
    Math.min(most, 3),
  );
}

/** The first of those that something drives; it takes a while to say of a check, so the rest are not asked. */
function firstDriven(checks: readonly CheckSpread[], most: number): readonly CheckSpread[] {
  const told: CheckSpread[] = [];
  for (const check of checks) {
    if (told.length >= most) break;
    if (check.drivers.length > 0) told.push(check);
  }
  return told;
}

function least({ margins }: CheckSpread): number {
  return margins.reduce((a, b) => (b < a ? b : a), Infinity);
}

/** Correlations below this are no more than chance makes of so many builds: three standard deviations of none. */
export function chanceCorrelation({ builds }: Pick<Spread, 'builds'>): number {
  return 3 / Math.sqrt(Math.max(1, builds - 1));
}
