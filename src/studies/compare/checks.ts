import { verdicts, type Verdict } from '../../checks/judge.ts';
import type { Result } from '../../checks/result.ts';
import type { Ratio } from '../../units/si.ts';
import { differ } from './resolution.ts';

/** What became of a check. `moved`: by less than it is worth calling better or worse; `new`, `gone`: only one design has the part. */
export const checkFates = ['worse', 'better', 'moved', 'same', 'new', 'gone'] as const;
export type CheckFate = (typeof checkFates)[number];

/** How one check stands before and after a change; at least one of the two is there. */
export interface CheckChange {
  readonly id: string;
  readonly before?: Result;
  readonly after?: Result;
  readonly fate: CheckFate;
  /** A graver verdict, no longer assessed, or new and not passed. */
  readonly isGraver: boolean;
  /** A less grave verdict. */
  readonly isLighter: boolean;
  /** Room that was lost, see `roomOf`; below zero where some was gained, null where one of the two has none. */
  readonly lost: Ratio | null;
}

/** Room that is lost or gained beyond this is called worse or better: half of the last digit that is printed. */
const worthNaming = 0.0005;
/** A loss that is exactly what is allowed is not more than that. */
const rounding = 1e-9;
/** A temperature loses a hundredth with each kelvin. */
const kelvins = 100;

/**
 * The room between a value and its limit, so that losses of different checks can be compared.
 *
 *     at most: (limit − value)/|limit|   at least: (value − limit)/max(|value|, |limit|)   temperatures: (limit − value)/100 K
 *
 * A minimum is related to the larger of the two, so that what is plenty does not lose much by being less plenty; a temperature is not
 * related to its limit, whose zero is far away.
 *
 * @param result  value and limit in SI
 * @returns a ratio, 1 at most but for temperatures; null without value or limit, or with a limit of zero
 *
 * Source: common practice, no source
 *
 * @example roomOf({ value: 80, limit: 100, sense: 'at-most', dimension: 'voltage' }) // 0.2
 * @example roomOf({ value: 20, limit: 5, sense: 'at-least', dimension: 'count' }) // 0.75
 * @example roomOf({ value: 363.15, limit: 378.15, sense: 'at-most', dimension: 'temperature' }) // 0.15
 */
export function roomOf({ value, limit, sense, dimension }: Pick<Result, 'value' | 'limit' | 'sense' | 'dimension'>): Ratio | null {
  if (value === null || limit === null) return null;
  const distance = sense === 'at-most' ? limit - value : value - limit;
  const base = dimension === 'temperature' ? kelvins : sense === 'at-most' ? Math.abs(limit) : Math.max(Math.abs(value), Math.abs(limit));
  return base === 0 ? null : distance / base;
}

/**
 * What a change did to every check, in the order in which it is to be read: graver verdicts, then by lost room, then what is new, gone
 * or as it was.
 *
 * @param before  results of one review, one a check
 * @param after   of the other
 */
export function checkChanges({ before, after }: { before: readonly Result[]; after: readonly Result[] }): readonly CheckChange[] {
  const old = new Map(before.map((result) => [result.id, result]));
  const now = new Map(after.map((result) => [result.id, result]));
  const changes = [...new Set([...now.keys(), ...old.keys()])].map((id) => changeOf({ id, before: old.get(id), after: now.get(id) }));
  return changes.toSorted((a, b) => group(a) - group(b) || gravity(b) - gravity(a) || weight(b) - weight(a));
}

function changeOf({ id, before, after }: { id: string; before: Result | undefined; after: Result | undefined }): CheckChange {
  if (before === undefined && after !== undefined)
    return { id, after, fate: 'new', isGraver: after.verdict !== 'pass', isLighter: false, lost: null };
  if (before !== undefined && after === undefined) return { id, before, fate: 'gone', isGraver: false, isLighter: false, lost: null };
  const [was, is] = [before!, after!];
  const [rankBefore, rankAfter] = [verdicts.indexOf(was.verdict), verdicts.indexOf(is.verdict)];
  const isLost = is.verdict === 'not assessed' && was.verdict !== 'not assessed';
  const isGraver = isLost || rankAfter > rankBefore;
  const isLighter = !isGraver && rankAfter < rankBefore;
  const [roomBefore, roomAfter] = [roomOf(was), roomOf(is)];
  const lost = roomBefore === null || roomAfter === null ? null : roomBefore - roomAfter;
  return { id, before: was, after: is, fate: fateOf({ was, is, isGraver, isLighter, lost }), isGraver, isLighter, lost };
}

function fateOf({
  was,
  is,
  isGraver,
  isLighter,
  lost,
}: {
  was: Result;
  is: Result;
  isGraver: boolean;
  isLighter: boolean;
  lost: Ratio | null;
}): CheckFate {
  if (isGraver) return 'worse';
  if (isLighter) return 'better';
  const isOther = differ(was.value, is.value) || differ(was.limit, is.limit);
  if (!isOther) return was.reason === is.reason ? 'same' : 'moved';
  if (lost !== null) return lost > worthNaming ? 'worse' : lost < -worthNaming ? 'better' : 'moved';
  // a number that is not there any more, under a verdict that is no pass, says less than before
  if (was.value !== null && is.value === null) return 'worse';
  return was.value === null && is.value !== null ? 'better' : 'moved';
}

/** Verdict changes for the worse, changes of the margin, new checks, gone ones, the rest. */
function group({ fate, isGraver }: CheckChange): number {
  if (isGraver) return 0;
  if (fate === 'new' || fate === 'gone') return 2;
  return fate === 'same' ? 3 : 1;
}

/** Of a verdict that became graver: the gravest first. */
function gravity({ isGraver, after }: CheckChange): number {
  return isGraver ? verdicts.indexOf(after!.verdict) : 0;
}

/** A loss without a number comes before all others. */
function weight({ fate, lost }: CheckChange): number {
  return lost ?? (fate === 'worse' ? Number.MAX_VALUE : fate === 'better' ? -Number.MAX_VALUE : 0);
}

/**
 * Whether a check lost more than it may.
 *
 * @param change  of a check
 * @param room    that may be lost: 0.05 is 5 % of the limit
 * @returns whether its verdict is graver, it is no longer assessed, or it lost more room than that
 */
export function isWorseBy({ isGraver, fate, lost }: CheckChange, room: Ratio): boolean {
  if (isGraver || fate === 'same') return isGraver;
  return lost === null ? fate === 'worse' : lost > room + rounding;
}

/** Verdicts in words of a change: `pass → fail`, or one where it is the same. */
export function verdictsOf({ before, after }: CheckChange): readonly Verdict[] {
  return [...new Set([before, after].flatMap((result) => (result === undefined ? [] : [result.verdict])))];
}
