import type { Verdict } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import type { Quantity } from '../driver/quantities.ts';
import { InputError, type Diagnostic } from '../source/diagnostic.ts';
import type { Dimension } from '../units/dimension.ts';
import type { Ratio } from '../units/si.ts';

/** What is said of a project at a point. */
export interface PointReview {
  readonly quantities: readonly Quantity[];
  readonly results: readonly Result[];
}

/** A key with the values it takes. */
export interface VariedKey {
  readonly name: string;
  readonly dimension: Dimension;
  /** In SI, ascending. */
  readonly values: readonly number[];
  /** Whether the project states it; else it is added at every point. */
  readonly isWritten: boolean;
}

/** What is shown: a quantity with one load, or a check at its worst. */
export type Shown =
  | { readonly kind: 'quantity'; readonly id: string; readonly load: string; readonly dimension: Dimension }
  | { readonly kind: 'check'; readonly id: string; readonly dimension: Dimension; readonly sense: 'at-most' | 'at-least' };

/** What one of the shown ids comes to at a point. SI numbers; null where there is none. */
export interface Cell {
  readonly value: number | null;
  /** Of a check. */
  readonly verdict?: Verdict;
  readonly limit?: number | null;
  readonly margin?: number | null;
  /** Worst load, moment and corner of a check. */
  readonly case?: string;
  readonly reason?: string;
}

/** One point: cells in the order of what is shown, or why the project is refused there. */
export type SweepPoint = { readonly at: readonly number[] } & (
  { readonly cells: readonly (Cell | undefined)[] } | { readonly refused: Diagnostic }
);

/** Every point of a sweep; the last key varies fastest. */
export interface Sweep {
  readonly keys: readonly VariedKey[];
  readonly shown: readonly Shown[];
  readonly timed: boolean;
  readonly points: readonly SweepPoint[];
}

/** Most points of a sweep. */
export const mostPoints = 10_000;

/**
 * One or two keys of a project against quantities and checks.
 *
 * @param keys      one or two
 * @param shown     what is kept of each point
 * @param timed     whether `reviewAt` runs starts and load changes in the time domain
 * @param reviewAt  the ordinary review of the project with these values at the keys; throws an InputError where it is refused
 * @param progress  called after each point with the share that is done
 */
export function sweep({
  keys,
  shown,
  timed,
  reviewAt,
  progress,
}: {
  keys: readonly VariedKey[];
  shown: readonly Shown[];
  timed: boolean;
  reviewAt: (values: readonly number[]) => PointReview;
  progress: (share: Ratio) => void;
}): Sweep {
  const places = keys.reduce<readonly (readonly number[])[]>(
    (before, { values }) => before.flatMap((at) => values.map((value) => [...at, value])),
    [[]],
  );
  const points = places.map((at, i): SweepPoint => {
    const point = pointAt({ at, shown, reviewAt });
    progress((i + 1) / places.length);
    return point;
  });
  return { keys, shown, timed, points };
}

function pointAt({
  at,
  shown,
  reviewAt,
}: {
  at: readonly number[];
  shown: readonly Shown[];
  reviewAt: (values: readonly number[]) => PointReview;
}): SweepPoint {
  try {
    const review = reviewAt(at);
    return { at, cells: shown.map((one) => cellOf({ shown: one, review })) };
  } catch (error) {
    const refused = error instanceof InputError ? error.problems[0] : undefined;
    if (refused === undefined) throw error;
    return { at, refused };
  }
}

/** Undefined where the design has no such part at this point. */
function cellOf({ shown, review: { quantities, results } }: { shown: Shown; review: PointReview }): Cell | undefined {
  if (shown.kind === 'quantity') {
    const found = quantities.find(({ id, case: load }) => id === shown.id && load === shown.load);
    return found && { value: found.value, ...(found.reason === undefined ? {} : { reason: found.reason }) };
  }
  const result = results.find(({ id }) => id === shown.id);
  if (result === undefined) return undefined;
  const { verdict, value, limit, margin, reason } = result;
  return { verdict, value, limit, margin, case: result.case, ...(reason === undefined ? {} : { reason }) };
}
