import type { FaultEffect, FaultResult } from '../checks/faults.ts';
import { verdicts } from '../checks/judge.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** Effects that are told by name; further ones are counted. */
const mostTold = 5;

/** A statement a fault: what it does to the checks and whether nothing fails by it. */
export function faultLines(faults: readonly FaultResult[]): readonly string[] {
  return faults.map(({ fault, survives, effects, note }) => {
    const verdict = survives === undefined ? 'not assessed' : survives ? 'nothing fails by it' : 'fails';
    const rank = ({ after }: FaultEffect): number => verdicts.indexOf(after);
    const changed = effects.filter(({ before, after }) => before !== after).toSorted((a, b) => rank(b) - rank(a));
    const failing = changed.filter(({ after }) => after === 'fail');
    const falling = effects.filter(
      ({ before, after, marginBefore, marginAfter }) => before === after && (marginAfter ?? 0) < (marginBefore ?? 0),
    );
    const told =
      [failing, changed, falling]
        .find((some) => some.length > 0)
        ?.slice(0, mostTold)
        .map(effectWords) ?? [];
    const more = effects.length - told.length;
    const words = [
      ...told,
      ...(more > 0 ? [`${more} more ${more === 1 ? 'margin moves' : 'margins move'}`] : []),
      ...(note === undefined ? [] : [note]),
    ];
    return `${fault}: ${verdict}${words.length === 0 ? '' : `; ${words.join('; ')}`}`;
  });
}

function effectWords({ id, before, after, marginBefore, marginAfter }: FaultEffect): string {
  if (before !== after) return `${id} ${before} → ${after}`;
  const percent = (margin: number | null): string =>
    margin === null ? 'none' : `${margin < 0 ? '−' : '+'}${formatQuantity({ value: Math.abs(margin), dimension: 'ratio', digits: 2 })}`;
  return `${id} ${percent(marginBefore)} → ${percent(marginAfter)}`;
}
