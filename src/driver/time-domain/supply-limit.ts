import type { Design } from '../../project/design.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import type { Ampere, Ratio } from '../../units/si.ts';
import type { Unknown } from '../known.ts';
import type { OperatingPoint } from '../operating-point.ts';
import { riseAtDriver } from '../rail.ts';
import { timedAllowance } from '../timed-allowance.ts';
import type { TimedEvent } from './outcome.ts';

/**
 * Share of the running current below which a supply of constant current cannot keep a driver at half its voltage, which is the least
 * that counts as running: at half of it the tank takes half the current. Half of that again, since the running current is an estimate
 * that takes the bank's loss at its most.
 */
const leastShare: Ratio = 0.25;

const whatItDoes = {
  hiccup: 'switches off past its limit and tries again (hiccup): whether it comes up again',
  foldback: 'gives less and less past its limit (foldback): how much is left then',
} as const;

/** Whether a supply gives way at its limit in a way that its current alone does not tell: it folds back, or switches off and tries again. */
export function isGivingWay({ supply: { currentLimit } }: Design): boolean {
  return currentLimit !== undefined && currentLimit.kind !== 'constant';
}

/**
 * What keeps a supply that gives way at its limit from being judged by a run without that limit: the current it gives, with the
 * allowance for what was not run, comes to the limit.
 *
 * @param design   the project
 * @param source   highest current out of the source, in A; may be infinite
 * @returns why, and what the supply would have to give, in A; undefined where it keeps away from its limit or holds its current there
 */
export function pastLimit({ design, source }: { design: Design; source: Ampere }): Pick<TimedEvent, 'why' | 'needs'> | undefined {
  const { currentLimit } = design.supply;
  if (currentLimit === undefined || currentLimit.kind === 'constant') return undefined;
  const needs = source * (1 + timedAllowance.current);
  if (needs <= currentLimit.current) return undefined;
  const ampere = (value: Ampere): string => formatQuantity({ value, dimension: 'current' });
  const supply = `from a supply of ${ampere(currentLimit.current)} that ${whatItDoes[currentLimit.kind]} is not known`;
  if (!Number.isFinite(needs)) return { why: `charging the bulk capacitor takes a current without bound ${supply}` };
  const reserve = `${ampere(needs)} with ${100 * timedAllowance.current} % in reserve`;
  return { why: `it takes ${ampere(source)} at its peak, ${reserve}, ${supply}`, needs };
}

/**
 * An event as it was run on a supply without limit: undecided where the project's own gives way before. One that does not even run
 * then stays what it is.
 *
 * @param design  the project
 * @param event   the run
 * @param before  what the supply gave before it began, in A
 */
export function withinLimit({ design, event, before = 0 }: { design: Design; event: TimedEvent; before?: Ampere }): TimedEvent {
  if (event.outcome !== 'runs') return event;
  const past = pastLimit({ design, source: Math.max(event.peaks.source, before) });
  return past === undefined ? event : { ...event, outcome: 'undecided', ...past };
}

/**
 * Whether a supply of constant current gives so much less than the driver takes that it comes to no running state: no run tells more,
 * and one that waits for a bulk capacitor to be charged takes long.
 *
 * @param design  the project
 * @param point   load and corner
 * @returns why nothing is run; undefined where the supply may do, has no limit or one that is held against a run without it
 */
export function starvedBy({ design, point: { running } }: { design: Design; point: OperatingPoint }): Unknown | undefined {
  const { currentLimit } = design.supply;
  if (running === undefined || currentLimit?.kind !== 'constant' || currentLimit.current >= leastShare * running.supplyCurrent)
    return undefined;
  const ampere = (value: Ampere): string => formatQuantity({ value, dimension: 'current' });
  return {
    unknown: `the supply gives ${ampere(currentLimit.current)} of the ${ampere(running.supplyCurrent)} that the running driver takes`,
  };
}

/** What a bulk capacitor took before gates that are held until the rail is up were released; nothing where a start is followed from zero. */
export function chargedBefore(design: Design): Ampere {
  const { bulkCapacitance = 0, voltage } = design.supply;
  return design.gates.pullUp.hold && bulkCapacitance > 0 ? (bulkCapacitance * voltage) / riseAtDriver(design) : 0;
}
