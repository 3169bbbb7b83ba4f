import type { Analysis } from '../driver/analysis.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { breakdownAt } from './breakdown.ts';
import type { Finding } from './check.ts';
import { gentleWords, riseScan, shortestRise } from './gentle-start.ts';
import { lacking, measured, notOscillating, unassessed } from './words.ts';
import { worstWithLoad } from './worst-start.ts';

const path = 'supply.riseTime';

/** Share of the rated drain voltage from which the rise time warns. */
const nearShare = 0.8;

/** The rise time against the shortest that the envelope of tank and chokes allows, the gates being up before the supply. */
export function riseTimeByEnvelope(analysis: Analysis): Finding {
  const { design, start } = analysis;
  if ('unknown' in start) return unassessed({ unknown: start.unknown, path });
  const rating = design.switches.mosfet.ratings.drainVoltage;
  if (rating === undefined) return lacking({ part: design.switches.mosfet.name, key: 'drainVoltage', path: 'switches.part' });
  const highest = breakdownAt({ design, rated: rating.value });
  const cases = design.loads.flatMap((load) => {
    const worst = worstWithLoad({ corners: analysis.corners, load });
    return worst === undefined ? [] : [worst.point];
  });
  if (cases.some(({ running }) => running === undefined)) return unassessed({ ...notOscillating, path });
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
  return measured({
    value: design.supply.riseTime ?? 0,
    doubt,
    levels: { warnAt: Math.max(warnAt, limit), limit, failAt: keepsItself ? 0 : limit },
    path,
    basis: () => [
      start.why,
      limit === 0 ? 'even a live rail keeps the drains within their rating' : `${time(limit)} or more keeps the drains within their rating`,
    ],
    remedy: () =>
      comfortable === undefined ? `a supply that rises in ${time(limit)} or more` : gentleWords({ analysis, riseTime: comfortable }),
  });
}
