import type { Verdict } from '../checks/judge.ts';
import type { Policies } from '../checks/policy.ts';
import type { Result } from '../checks/result.ts';
import { reviewOf } from '../checks/review.ts';
import { analysisOf } from '../driver/analysis.ts';
import { DesignError } from '../driver/design-error.ts';
import type { Design } from '../project/design.ts';
import type { Ratio, Volt } from '../units/si.ts';
import { timedChecks } from './timed-checks.ts';
import { atVoltage } from './window-designs.ts';

/** How one check stands at one supply voltage, in closed form. */
export interface MarginAt extends Pick<Result, 'id' | 'value' | 'limit' | 'warnAt' | 'margin' | 'dimension' | 'sense' | 'reason'> {
  readonly verdict: Verdict;
  /** Whether the check looks at a start or a change of the load, which the closed form never passes. */
  readonly isTimed: boolean;
}

/** The checks at one supply voltage, or why the project cannot be computed there. */
export type VoltagePoint = { readonly voltage: Volt; readonly isPresent: boolean } & (
  { readonly margins: readonly MarginAt[] } | { readonly refused: string }
);

/** Neighbouring voltages at which no check of the running driver fails: first and last, by their place among the points. */
export interface RunningSpan {
  readonly first: number;
  readonly last: number;
  /** Checks that are not assessed there, though they are at the present voltage: nothing is known of them. */
  readonly open: readonly string[];
}

/** The checks of a design at supply voltages around its own. */
export interface VoltageMargins {
  /** Ascending; one of them is the project's own voltage. */
  readonly points: readonly VoltagePoint[];
  readonly spans: readonly RunningSpan[];
}

/** Shares of the present voltage that are looked at: 0.5 to 1.5. */
const shares: readonly Ratio[] = Array.from({ length: 21 }, (_, i) => (10 + i) / 20);

/**
 * Every check at supply voltages from half to one and a half times the project's own, in closed form, the loads held at the resistance
 * that they have at that. What looks at a start or at a change of the load is not assessed there unless it fails.
 *
 * @param design    the project
 * @param policies  levels by check id, overrides of the project merged in
 */
export function voltageMargins({ design, policies }: { design: Design; policies: Policies }): VoltageMargins {
  const points = shares.map((share): VoltagePoint => {
    const isPresent = share === 1;
    // rounded as it is printed, so that what is shown is the voltage that was computed
    const voltage = isPresent ? design.supply.voltage : Number((design.supply.voltage * share).toPrecision(4));
    try {
      const results = reviewOf({ analysis: analysisOf(atVoltage({ design, voltage })), policies });
      return { voltage, isPresent, margins: results.map(marginAt) };
    } catch (error) {
      if (!(error instanceof DesignError)) throw error;
      return { voltage, isPresent, refused: error.message };
    }
  });
  return { points, spans: spansOf(points) };
}

const startReason = 'starts and changes of the load are not computed at this voltage';

function marginAt({ id, verdict, value, limit, warnAt, margin, dimension, sense, reason }: Result): MarginAt {
  const isTimed = timedChecks.has(id);
  const stays = !isTimed || verdict === 'fail';
  const why = stays ? reason : startReason;
  return {
    id,
    verdict: stays ? verdict : 'not assessed',
    value,
    limit,
    warnAt,
    margin,
    dimension,
    sense,
    isTimed,
    ...(why === undefined ? {} : { reason: why }),
  };
}

/** The checks of the running driver that fail at a point. */
export function runningFailures(point: VoltagePoint): readonly string[] {
  if ('refused' in point) return [];
  return point.margins.flatMap(({ id, verdict, isTimed }) => (verdict === 'fail' && !isTimed ? [id] : []));
}

/** The checks of the running driver that are not assessed at a point. */
export function openWhileRunning(point: VoltagePoint): readonly string[] {
  if ('refused' in point) return [];
  return point.margins.flatMap(({ id, verdict, isTimed }) => (verdict === 'not assessed' && !isTimed ? [id] : []));
}

function spansOf(points: readonly VoltagePoint[]): readonly RunningSpan[] {
  const present = points.find(({ isPresent }) => isPresent);
  const atPresent = new Set(present === undefined ? [] : openWhileRunning(present));
  const spans: RunningSpan[] = [];
  points.forEach((point, i) => {
    if ('refused' in point || runningFailures(point).length > 0) return;
    const open = openWhileRunning(point).filter((id) => !atPresent.has(id));
    const before = spans.at(-1);
    if (before?.last === i - 1 && before.open.join() === open.join()) spans[spans.length - 1] = { ...before, last: i };
    else spans.push({ first: i, last: i, open });
  });
  return spans;
}
