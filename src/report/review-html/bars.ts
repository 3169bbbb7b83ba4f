import { verdicts, type Verdict } from '../../checks/judge.ts';
import type { Result } from '../../checks/result.ts';
import { openWhileRunning, runningFailures, type MarginAt, type VoltageMargins, type VoltagePoint } from '../../studies/voltage-margins.ts';
import { timedChecks } from '../../studies/timed-checks.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { escaped } from '../page-html.ts';
import { shareOfLimit } from './limit-share.ts';
import { shortList } from './short-list.ts';
import { resultPhrase } from './result-phrase.ts';
import { verdictClasses, verdictTag } from './verdict-tag.ts';

/** The largest share of a limit that has room in a bar. */
const longest = 1.6;

/** One bar at one voltage, all in words and numbers that need no further computing. */
export interface Bar {
  /** 0 to `longest`, in hundredths of the limit; null without a bar. */
  readonly share: number | null;
  readonly warnShare: number | null;
  readonly verdict: Verdict;
  readonly words: string;
}

/** All bars at one voltage, with a sentence of what holds there. */
export interface BarsAt {
  readonly says: string;
  readonly bars: readonly Bar[];
}

/** Checks in the order of their bars: what fails without a figure, then by how much of the limit is used, then what has no figure. */
export function barOrder(results: readonly Result[]): readonly Result[] {
  const rank = (result: Result): number => {
    const share = shareOfLimit(result);
    if (share !== undefined) return share;
    return result.verdict === 'fail' ? Infinity : verdicts.indexOf(result.verdict) - verdicts.length;
  };
  return results.toSorted((a, b) => (rank(a) === rank(b) ? 0 : rank(b) - rank(a)));
}

/**
 * The bars at every voltage: at the project's own the results of the review, at the others what the closed form says.
 *
 * @param results     in the order of the bars
 * @param closedForm  whether the review left out the time domain
 */
export function barsByVoltage({
  results,
  margins,
  closedForm,
}: {
  results: readonly Result[];
  margins: VoltageMargins;
  closedForm: boolean;
}): readonly BarsAt[] {
  return margins.points.map((point): BarsAt => {
    if (point.isPresent) return { says: presentWords({ point, results, closedForm }), bars: presentBars({ results, closedForm }) };
    return { says: otherWords(point), bars: results.map(({ id }) => otherBar({ id, point })) };
  });
}

function presentBars({ results, closedForm }: { results: readonly Result[]; closedForm: boolean }): readonly Bar[] {
  return results.map((result) => {
    const source = timedChecks.has(result.id) ? (closedForm ? 'closed form' : 'time domain') : '';
    const words = result.value === null ? (result.reason ?? 'no figure') : resultPhrase(result);
    return { ...sharesOf(result), verdict: result.verdict, words: source === '' ? words : `${words} (${source})` };
  });
}

const startOpen = 'closed form, start not assessed';

function otherBar({ id, point }: { id: string; point: VoltagePoint }): Bar {
  const nothing: Bar = { share: null, warnShare: null, verdict: 'not assessed', words: 'no figure at this voltage' };
  if ('refused' in point) return nothing;
  const found = point.margins.find((margin) => margin.id === id);
  if (found === undefined) return nothing;
  return { ...sharesOf(found), verdict: found.verdict, words: otherPhrase(found) };
}

function otherPhrase(found: MarginAt): string {
  if (found.value === null) return found.reason ?? 'no figure at this voltage';
  return found.isTimed ? `${resultPhrase(found)} (${startOpen})` : resultPhrase(found);
}

function sharesOf(result: Pick<Result, 'value' | 'limit' | 'warnAt' | 'dimension' | 'sense'>): Pick<Bar, 'share' | 'warnShare'> {
  const hundredths = (share: number | undefined): number | null =>
    share === undefined ? null : Math.round(1000 * Math.min(longest, share)) / 10;
  const share = hundredths(shareOfLimit(result));
  return { share, warnShare: share === null ? null : hundredths(shareOfLimit({ ...result, value: result.warnAt })) };
}

function presentWords({ point, results, closedForm }: { point: VoltagePoint; results: readonly Result[]; closedForm: boolean }): string {
  const counted = [...verdicts]
    .reverse()
    .map((verdict) => ({ verdict, count: results.filter((result) => result.verdict === verdict).length }))
    .filter(({ count }) => count > 0)
    .map(({ verdict, count }) => `${count} ${verdict}`);
  const depth = closedForm ? 'closed form, no start passes' : 'starts and changes of the load in the time domain';
  return `${volts(point)}, the project’s own (${depth}): ${counted.join(', ')}.`;
}

function otherWords(point: VoltagePoint): string {
  const head = `${volts(point)} (${startOpen}):`;
  if ('refused' in point) return `${head} cannot be computed: ${point.refused}.`;
  const failing = runningFailures(point);
  const open = openWhileRunning(point).length;
  const said =
    failing.length === 0
      ? 'no check of the running driver fails'
      : `${failing.length} ${failing.length === 1 ? 'check' : 'checks'} of the running driver ${failing.length === 1 ? 'fails' : 'fail'}: ${shortList(failing)}`;
  const rest = open === 0 ? '' : `; ${open} ${open === 1 ? 'is' : 'are'} not assessed`;
  return `${head} ${said}${rest}. Starts, load removal and latch-up are not assessed at this voltage, except where the closed form fails.`;
}

function volts({ voltage }: VoltagePoint): string {
  return formatQuantity({ value: voltage, dimension: 'voltage', digits: 4 });
}

/** The bars at the project's own voltage, with the slider that shows the others; it appears with the script that moves it. */
export function barsHtml({
  results,
  margins,
  closedForm,
  prefix,
}: {
  results: readonly Result[];
  margins: VoltageMargins;
  closedForm: boolean;
  prefix: string;
}): string {
  const ordered = barOrder(results);
  const states = barsByVoltage({ results: ordered, margins, closedForm });
  const present = Math.max(
    0,
    margins.points.findIndex(({ isPresent }) => isPresent),
  );
  const state = states[present]!;
  const [first, last] = [margins.points[0]!, margins.points.at(-1)!];
  const rows = ordered.map(({ id, title }, i) => barRow({ id, title, bar: state.bars[i]!, prefix }));
  return `<div class="bars" data-bars="${prefix}voltages">
<div class="slider" hidden><label for="${prefix}slider">Supply voltage shown by the bars, ${escaped(volts(first))} to ${escaped(volts(last))}</label>
<div class="controls"><input type="range" id="${prefix}slider" min="0" max="${states.length - 1}" step="1" value="${present}" autocomplete="off"><button type="button" data-present="${present}">back to ${escaped(volts(margins.points[present]!))}</button></div></div>
<p class="now"><output for="${prefix}slider">${escaped(state.says)}</output></p>
<table class="bar-table"><caption>Use of each limit, the closest first. The upright line is the limit, the small mark where a warning begins; temperatures count from 0 °C; of what must be at least so much, the share that is needed of what there is.</caption>
<thead><tr><th scope="col">check</th><th scope="col">use</th><th scope="col">verdict</th></tr></thead>
<tbody>${rows.join('\n')}</tbody></table>
<script type="application/json" id="${prefix}voltages">${scriptData(states)}</script>
</div>`;
}

function barRow({
  id,
  title,
  bar: { share, warnShare, verdict, words },
  prefix,
}: {
  id: string;
  title: string;
  bar: Bar;
  prefix: string;
}): string {
  return `<tr class="bar-row ${verdictClasses[verdict]}"><th scope="row"><a href="#${prefix}${id}" title="${escaped(title)}">${id}</a></th><td class="bar"><svg viewBox="0 0 160 10" preserveAspectRatio="none" aria-hidden="true" focusable="false"${share === null ? ' hidden' : ''}><rect class="track" width="160" height="10"/><rect class="use" y="1.5" width="${share ?? 0}" height="7"/><rect class="warn-at" x="${warnShare ?? -9}" width="0.8" height="3"/><rect class="limit" x="100" width="0.8" height="10"/></svg><span class="words">${escaped(words)}</span></td><td>${verdictTag(verdict)}</td></tr>`;
}

/** Data for the script: nothing in it can end the element that it stands in. */
function scriptData(states: readonly BarsAt[]): string {
  const compact = states.map(({ says, bars }) => ({
    says,
    bars: bars.map(({ share, warnShare, verdict, words }) => [share, warnShare, verdict, verdictClasses[verdict], words]),
  }));
  return JSON.stringify(compact).replaceAll('<', '\\u003c').replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029');
}
