import type { Analysis } from '../driver/analysis.ts';
import { latchedPair, type LatchedPair } from '../driver/latched-pair.ts';
import type { OperatingPoint } from '../driver/operating-point.ts';
import { fuseOpening } from '../physics/fuse-opening.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ampere, Second } from '../units/si.ts';
import { recommendedFuse } from './recommended-fuse.ts';

/** What a latched pair comes to, which of fuse, current limit and switch acts first; an estimate. */
export function latchedWords({ analysis, point }: { analysis: Analysis; point: OperatingPoint }): string {
  const { design } = analysis;
  const latched = latchedPair({ design, point, from: point.running?.supplyCurrent ?? 0 });
  if ('unknown' in latched) return `what becomes of the switches is not known: ${latched.unknown}`;
  return `${[limitWords({ latched, kind: design.supply.currentLimit?.kind }), endWords({ latched, analysis })].filter((words) => words !== '').join('; ')} (estimate: the junction’s rise with the root of time, class)`;
}

function limitWords({ latched: { limitAt, tooHotAt }, kind }: { latched: LatchedPair; kind: string | undefined }): string {
  if (limitAt === undefined) return '';
  const acts = `the current limit acts ${after(limitAt)}`;
  if (kind !== 'constant') return `${acts} and takes the supply down (${kind ?? ''})`;
  return tooHotAt === undefined ? acts : `${acts} but feeds the pair on`;
}

function endWords({ latched: { tooHotAt, current, junctionLimit }, analysis }: { latched: LatchedPair; analysis: Analysis }): string {
  const amperes = formatQuantity({ value: current, dimension: 'current', digits: 2 });
  const limit = formatQuantity({ value: junctionLimit, dimension: 'temperature' });
  if (tooHotAt === undefined) return `at ${amperes} no junction passes ${limit} within a second: the heatsink decides`;
  return `a junction passes ${limit} ${after(tooHotAt)}, at ${amperes}: ${firstToAct({ tooHotAt, current, analysis })}`;
}

function firstToAct({ tooHotAt, current, analysis }: { tooHotAt: Second; current: Ampere; analysis: Analysis }): string {
  const running = Math.max(...analysis.corners.map(({ point }) => point.running?.supplyCurrent ?? 0));
  const rated = recommendedFuse(running);
  if (rated === undefined) return 'the switch goes first';
  const fuse = `a slow fuse of ${formatQuantity({ value: rated, dimension: 'current' })}`;
  const opening = fuseOpening({ multiple: current / rated });
  if (opening === undefined || opening.earliest > tooHotAt) return `the switch goes before ${fuse}`;
  return opening.latest < tooHotAt ? `${fuse} opens first` : `${fuse} may open first, or not`;
}

function after(time: Second): string {
  return `about ${formatQuantity({ value: time, dimension: 'time', digits: 2 })} after it latches`;
}
