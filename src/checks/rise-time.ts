import type { Analysis } from '../driver/analysis.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck, type Finding } from './check.ts';
import { riseTimeByEnvelope } from './rise-time-by-envelope.ts';
import { isWellAsItIs, longestTried, riseWindow } from './rise-window.ts';
import { startRemedy } from './start-remedy.ts';
import { measured, subjects, unassessed } from './words.ts';
import { decisiveStart } from './worst-start.ts';

const path = 'supply.riseTime';

/** From the shortest rise time on so much more before it passes: the search ends within 5 %, a rail's rise is seldom known to 10 %. */
const reserve = 1.25;

export default defineCheck({
  id: 'rise-time',
  part: 'oscillation',
  title: 'rise time of the supply, against the window in which it starts within the drain rating',
  since: '0.2.0',
  dimension: 'time',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Compares the rise time of the supply with the window in which the driver starts: the shortest from which on every longer one neither latches nor takes the drains past their rating, and the longest that still starts.',
    why: 'A rail that rises within the slow resonance of chokes and tank drives the drains up to twice the running peak and the choke current with them; one that creeps up keeps both switches half on where the gates hang on it. The dependence has holes, so that a faster rail may look better than a slower one.',
    formula:
      'starts run in the time domain at 0 and at the rise times that overshoot most, up to 100 ms, each end to 5 %; warns within 1.25 of the shortest, and where the rise itself is well but a slower one is not; with --closed-form the shortest by the envelope, the gates being up before the supply',
    source: 'integration of the circuit, see latch-up; with --closed-form the envelope of tank and chokes (check-values A-start)',
    remedy: 'a supply that rises more slowly, with the gates on their own rail',
  },
  subject: subjects.supply,
  run: ({ analysis, instance }) => {
    if (analysis.design.gates.pullUp.hold || decisiveStart(analysis) !== instance) return [];
    return [analysis.starts === undefined ? riseTimeByEnvelope(analysis) : inWindow(analysis)];
  },
});

function inWindow(analysis: Analysis): Finding {
  const { design, starts = [] } = analysis;
  const value = design.supply.riseTime ?? 0;
  const lacking = starts.find((start) => 'unknown' in start);
  if (lacking !== undefined && 'unknown' in lacking) return unassessed({ unknown: lacking.unknown, path });
  const isWell = starts.every((start) => 'outcome' in start && start.outcome === 'runs');
  // where only fails count: one that starts within the rating is none, wherever the window about it ends
  if (analysis.wanted === 'fails' && isWell && isWellAsItIs(analysis))
    return measured({ value, levels: { warnAt: 0, limit: 0, failAt: 0 }, path });
  const window = riseWindow(analysis);
  const time = (seconds: number): string => formatQuantity({ value: seconds, dimension: 'time' });
  const outcomes = starts.map((start) => ('outcome' in start ? start.outcome : undefined));
  const end = outcomes.includes('latches') ? 'both switches latch' : outcomes.includes('stalls') ? 'it does not start' : undefined;
  const isDecided = end !== undefined;
  if (window === undefined) {
    const unknown = 'no rise time was found with which every load starts within the drain rating';
    return isDecided ? { kind: 'hopeless', reason: unknown, path } : unassessed({ unknown, path });
  }
  const { shortest, longest, badBelow, badAbove, whyBelow } = window;
  // the project's own start has been followed for longer than those of the search
  const whyAbove = (badAbove === value ? end : undefined) ?? window.whyAbove;
  const ends = [
    badBelow === undefined
      ? 'it starts even on a live rail'
      : `${time(shortest)} is the shortest: with ${time(badBelow)} ${whyBelow ?? 'a load does not start'}`,
    badAbove === undefined
      ? `${time(longest)} still starts, longer ones were not ${longest < longestTried ? 'followed' : 'tried'}`
      : `${time(longest)} is the longest: with ${time(badAbove)} ${whyAbove ?? 'a load does not start'}`,
  ];
  const isPastLimit = !isDecided && starts.some((start) => 'needs' in start);
  if (isPastLimit && (value > longest || value < shortest))
    return unassessed({ unknown: `${time(value)} takes the supply to its limit, see latch-up; ${ends.join('; ')}`, path });
  if (value > longest) {
    if (badAbove === undefined)
      return unassessed({ unknown: `a rise in ${time(value)} takes longer than it is followed; ${ends.join('; ')}`, path });
    const reason = `${time(value)} is too long: from ${time(badAbove)} on ${whyAbove ?? 'a load does not start'}`;
    return { kind: 'hopeless', reason, path, remedy: () => startRemedy(analysis) };
  }
  return measured({
    value,
    levels: { warnAt: reserve * shortest, limit: shortest, failAt: isWell ? 0 : shortest },
    path,
    basis: () => [
      ...ends,
      'time domain at the corners where the drains go highest and where a pair latches first, thresholds 2 % apart; a pair that differs more moves the ends',
    ],
    remedy: () => startRemedy(analysis),
  });
}
