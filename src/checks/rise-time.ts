import type { Analysis, Case } from '../driver/analysis.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { breakdownAt } from './breakdown.ts';
import { defineCheck, type Finding } from './check.ts';
import { gentleWords, riseScan, shortestRise } from './gentle-start.ts';
import { lacks, subjects, unassessed } from './words.ts';

const path = 'supply.riseTime';

/** Share of the rated drain voltage from which the rise time warns. */
const nearShare = 0.8;

export default defineCheck({
  id: 'rise-time',
  part: 'oscillation',
  title: 'rise time of the supply, against the shortest that keeps the drains within their rating',
  since: '0.2.0',
  dimension: 'time',
  sense: 'at-least',
  model: 'none',
  docs: {
    what: 'Compares the rise time of the supply with the shortest from which on every longer one, up to a second, keeps the drain peak at switch-on within the rated drain voltage, the gates being up before it.',
    why: 'A rail that rises within the slow resonance of chokes and tank drives the drains up to twice the running peak; the dependence has holes, so that a faster rail may look better than a slower one.',
    formula:
      'smallest of 0, 20 µs … 1 s whose every longer one keeps the envelope’s peak at or below V_DSS; warns by the same at 0.8·V_DSS, and where the rise itself is well but a slower one is not',
    source: 'envelope of tank and chokes (check-values A-start) with the allowances of switch-surge-voltage, scanned',
    remedy: 'a supply that rises more slowly, with the gates on their own rail',
  },
  subject: subjects.supply,
  run: ({ analysis, instance }) => {
    const worst = worstAtSwitchOn(analysis);
    if (analysis.design.gates.pullUp.hold || worst !== instance) return [];
    return [findingOf(analysis)];
  },
});

function findingOf(analysis: Analysis): Finding {
  const { design, start } = analysis;
  if ('unknown' in start) return unassessed({ ...start, path });
  const rating = design.switches.mosfet.ratings.drainVoltage;
  if (rating === undefined)
    return unassessed({ ...lacks({ part: design.switches.mosfet.name, key: 'drainVoltage' }), path: 'switches.part' });
  const highest = breakdownAt({ design, rated: rating.value });
  const cases = design.loads.flatMap((load) => {
    const worst = worstAtSwitchOn({ ...analysis, corners: analysis.corners.filter(({ point }) => point.load === load) });
    return worst === undefined ? [] : [worst.point];
  });
  const scan = riseScan({ design, cases });
  const limit = shortestRise({ scan, highest });
  if (limit === undefined) {
    return unassessed({ unknown: 'no rise time up to a second keeps the drains within their rating: see switch-surge-voltage', path });
  }
  const comfortable = shortestRise({ scan, highest: nearShare * highest });
  const warnAt = comfortable ?? 2;
  // a start that is well itself only warns of the slower ones that are not
  const keepsItself = analysis.corners.every(
    ({ switchOn }) => switchOn === undefined || ('drainPeak' in switchOn && switchOn.doubt === undefined && switchOn.drainPeak <= highest),
  );
  // the scan rests on the envelope, which near the end of its range is no basis for a pass
  const range = analysis.corners.map(({ point }) => point.range).find(({ kind }) => kind !== 'inside');
  const doubt =
    range === undefined || range.kind === 'inside' ? undefined : `${range.note}: no basis for a pass; see choke-ratio and loaded-q`;
  const time = (value: number): string => formatQuantity({ value, dimension: 'time' });
  return {
    kind: 'measured',
    value: design.supply.riseTime ?? 0,
    ...(doubt === undefined ? {} : { doubt }),
    levels: { warnAt: Math.max(warnAt, limit), limit, failAt: keepsItself ? 0 : limit },
    path,
    basis: () => [
      start.why,
      limit === 0 ? 'even a live rail keeps the drains within their rating' : `${time(limit)} or more keeps the drains within their rating`,
    ],
    remedy: () =>
      comfortable === undefined ? `a supply that rises in ${time(limit)} or more` : gentleWords({ analysis, riseTime: comfortable }),
  };
}

/** The load and corner with the highest drain peak at switch-on; the first where none is known. */
function worstAtSwitchOn({ corners }: Analysis): Case | undefined {
  const peakOf = ({ switchOn }: Case): number => (switchOn !== undefined && 'drainPeak' in switchOn ? switchOn.drainPeak : -1);
  const candidates = corners.filter(({ switchOn }) => switchOn !== undefined);
  const [first] = candidates;
  return first && candidates.reduce((a, b) => (peakOf(b) > peakOf(a) ? b : a), first);
}
