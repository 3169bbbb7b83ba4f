import { openWhileRunning, runningFailures, type MarginAt, type VoltageMargins, type VoltagePoint } from '../../studies/voltage-margins.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { axisMarks } from '../axis.ts';
import { escaped } from '../page-html.ts';
import { shareOfLimit } from './limit-share.ts';
import { shortList } from './short-list.ts';

const [width, height] = [900, 380];
const [left, right, top, bottom] = [64, 20, 44, 52];
/** Lines that can be told apart. */
const mostLines = 6;
const dashes = ['', '8 4', '2 3', '10 3 2 3', '5 5', '14 4'];
/** Use of a limit at the upper edge. */
const highest = 1.5;

/** Use of the closest limits against supply voltage, the window marked; what is drawn as words and as a table too. */
export function marginChart({ margins, file, prefix }: { margins: VoltageMargins; file: string; prefix: string }): string {
  const { lines, beyond } = closestChecks(margins);
  return `<figure><div class="scroll" tabindex="0" role="group" aria-label="Chart of margin against supply voltage">
<svg class="chart" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${prefix}margin-title"><title id="${prefix}margin-title">Use of the closest limits against supply voltage, in closed form. ${escaped(windowWords(margins))}</title>
${chartBody({ margins, lines })}
</svg></div>
<figcaption><ul class="legend">${lines.map(legendItem).join('')}</ul>${beyond.length === 0 ? '' : `<p>Above the edge at every voltage: ${shortList(beyond)}.</p>`}</figcaption></figure>
<p><strong>${escaped(windowWords(margins))}</strong> Loads are held at the resistance they have at the project’s own voltage. The window that counts starts and load removal in the time domain: <code>tankproof window ${escaped(file)}</code>.</p>
${voltageTable({ margins, prefix })}`;
}

const volts = (value: number): string => formatQuantity({ value, dimension: 'voltage', digits: 4 });

/** Where no check of the running driver fails, in words. */
export function windowWords({ points, spans }: VoltageMargins): string {
  const [least, most] = [points[0]!, points.at(-1)!];
  const looked = `${points.length} voltages from ${volts(least.voltage)} to ${volts(most.voltage)}`;
  const how = `(closed form, at ${looked}; starts, load removal and latch-up are not assessed)`;
  if (spans.length === 0) return `At every voltage a check of the running driver fails ${how}.`;
  const named = spans.map(({ first, last, open }) => {
    const [from, to] = [points[first]!.voltage, points[last]!.voltage];
    const without = open.length === 0 ? '' : `, where ${open.join(', ')} ${open.length === 1 ? 'is' : 'are'} not assessed`;
    return `${first === last ? `at ${volts(from)}` : `from ${volts(from)} to ${volts(to)}`}${without}`;
  });
  return `No check of the running driver fails ${named.join('; ')} ${how}.`;
}

interface ClosestLine {
  readonly id: string;
  readonly shares: readonly (number | undefined)[];
  readonly dash: string;
  /** Voltages at which it fails. */
  readonly fails: readonly number[];
}

/** Checks of the running driver that use most of their limit somewhere in the range, the closest at the present voltage first. */
function closestChecks({ points }: VoltageMargins): { readonly lines: readonly ClosestLine[]; readonly beyond: readonly string[] } {
  const found = (point: VoltagePoint, id: string): MarginAt | undefined =>
    'refused' in point ? undefined : point.margins.find((margin) => margin.id === id);
  const ids = [
    ...new Set(points.flatMap((point) => ('refused' in point ? [] : point.margins.filter(({ isTimed }) => !isTimed).map(({ id }) => id)))),
  ];
  const present = points.findIndex(({ isPresent }) => isPresent);
  const all = ids.map((id) => {
    const shares = points.map((point) => {
      const margin = found(point, id);
      return margin === undefined ? undefined : shareOfLimit(margin);
    });
    const fails = points.flatMap((point) => (found(point, id)?.verdict === 'fail' ? [point.voltage] : []));
    return { id, shares, fails };
  });
  const most = ({ shares }: { shares: ClosestLine['shares'] }): number => Math.max(-1, ...shares.map((share) => share ?? -1));
  const least = ({ shares }: { shares: ClosestLine['shares'] }): number => Math.min(Infinity, ...shares.flatMap((share) => share ?? []));
  const drawn = all.filter((line) => most(line) >= 0 && least(line) < highest);
  const lines = drawn
    .toSorted((a, b) => b.fails.length - a.fails.length || most(b) - most(a))
    .slice(0, mostLines)
    .toSorted((a, b) => (b.shares[present] ?? -1) - (a.shares[present] ?? -1))
    .map((line, i) => ({ ...line, dash: dashes[i]! }));
  return { lines, beyond: all.filter((line) => most(line) >= 0 && least(line) >= highest).map(({ id }) => id) };
}

function legendItem({ id, dash, fails }: ClosestLine, index: number): string {
  const where =
    fails.length === 0
      ? 'does not fail in this range'
      : fails.length === 1
        ? `fails at ${volts(fails[0]!)}`
        : `fails at ${fails.length} of these voltages, ${volts(fails[0]!)} to ${volts(fails.at(-1)!)}`;
  return `<li><svg class="sample" width="48" height="10" viewBox="0 0 48 10" aria-hidden="true" focusable="false"><path class="line line-${index}" d="M0 5H48" stroke-dasharray="${dash}"/></svg> ${id}: ${where}</li>`;
}

function chartBody({ margins: { points, spans }, lines }: { margins: VoltageMargins; lines: readonly ClosestLine[] }): string {
  const [from, to] = [points[0]!.voltage, points.at(-1)!.voltage];
  const x = (voltage: number): number => left + ((width - left - right) * (voltage - from)) / (to - from);
  const y = (share: number): number => height - bottom - ((height - top - bottom) * Math.min(highest, share)) / highest;
  const number = (value: number): string => value.toFixed(1);
  const bands = spans.map(({ first, last, open }) => {
    const [x0, x1] = [x(points[first]!.voltage), x(points[last]!.voltage)];
    const [begin, wide] = first === last ? [x0 - 3, 6] : [x0, x1 - x0];
    return `<rect class="window${open.length === 0 ? '' : ' less'}" x="${number(begin)}" y="${top}" width="${number(wide)}" height="${height - top - bottom}"/>`;
  });
  const label =
    spans.length === 0
      ? `<text x="${left}" y="${top - 10}">at every voltage a check of the running driver fails</text>`
      : `<text x="${left}" y="${top - 10}">shaded: no check of the running driver fails (closed form, start not assessed)${spans.some(({ open }) => open.length > 0) ? '; dashed edge: less is assessed there' : ''}</text>`;
  const rows = axisMarks({ from: 0, to: highest, count: 6 }).map(
    (mark) =>
      `<path class="grid" d="M${left} ${number(y(mark))}H${width - right}"/><text x="${left - 8}" y="${number(y(mark) + 5)}" text-anchor="end">${formatQuantity({ value: mark, dimension: 'ratio' })}</text>`,
  );
  const columns = axisMarks({ from, to, count: 8 }).map(
    (mark) =>
      `<path class="grid" d="M${number(x(mark))} ${height - bottom}v5"/><text x="${number(x(mark))}" y="${height - bottom + 22}" text-anchor="middle">${escaped(volts(mark))}</text>`,
  );
  const present = points.find(({ isPresent }) => isPresent)?.voltage ?? from;
  return [
    ...bands,
    label,
    ...rows,
    ...columns,
    `<path class="at-limit" d="M${left} ${number(y(1))}H${width - right}"/><text x="${left + 6}" y="${number(y(1) - 6)}">limit</text>`,
    `<path class="present" d="M${number(x(present))} ${top}V${height - bottom}"/><text x="${number(x(present) + 5)}" y="${height - bottom - 8}">project: ${escaped(volts(present))}</text>`,
    `<g>${lines.map((line, i) => `<path class="line line-${i}" d="${strokeOf({ line, points, x, y })}" stroke-dasharray="${line.dash}"/>`).join('')}</g>`,
    `<text x="${left - 56}" y="${top - 26}">use of the limit</text><text x="${width - right}" y="${height - 6}" text-anchor="end">supply voltage</text>`,
  ].join('\n');
}

/** A line that is broken where there is no figure; what lies above the edge runs along it. */
function strokeOf({
  line,
  points,
  x,
  y,
}: {
  line: ClosestLine;
  points: readonly VoltagePoint[];
  x: (voltage: number) => number;
  y: (share: number) => number;
}): string {
  let pen = 'M';
  return line.shares
    .map((share, i) => {
      if (share === undefined) {
        pen = 'M';
        return '';
      }
      const step = `${pen}${x(points[i]!.voltage).toFixed(1)} ${y(share).toFixed(1)}`;
      pen = 'L';
      return step;
    })
    .join('');
}

function voltageTable({ margins: { points }, prefix }: { margins: VoltageMargins; prefix: string }): string {
  const rows = points.map((point) => {
    const name = `${volts(point.voltage)}${point.isPresent ? ' (project)' : ''}`;
    if ('refused' in point)
      return `<tr><th scope="row">${escaped(name)}</th><td colspan="3">cannot be computed: ${escaped(point.refused)}</td></tr>`;
    const failing = runningFailures(point);
    const open = openWhileRunning(point).length;
    return `<tr><th scope="row" class="tight">${escaped(name)}</th><td>${failing.length === 0 ? 'none' : shortList(failing)}</td><td>${open}</td><td class="tight">${closestAt(point.margins)}</td></tr>`;
  });
  return `<div class="scroll" tabindex="0" role="group" aria-label="Table of supply voltages"><table id="${prefix}voltage-table"><caption>The running driver by supply voltage, in closed form; starts, load removal and latch-up are not assessed here</caption><thead><tr><th scope="col">supply</th><th scope="col">fails while running</th><th scope="col">not assessed</th><th scope="col">closest limit</th></tr></thead><tbody>${rows.join('')}</tbody></table></div>`;
}

function closestAt(margins: readonly MarginAt[]): string {
  const shares = margins.flatMap((margin) => {
    const share = margin.isTimed || margin.verdict === 'not assessed' ? undefined : shareOfLimit(margin);
    return share === undefined ? [] : [{ id: margin.id, share }];
  });
  const closest = shares.reduce<{ id: string; share: number } | undefined>(
    (a, b) => (a === undefined || b.share > a.share ? b : a),
    undefined,
  );
  if (closest === undefined) return 'none';
  const share = Number.isFinite(closest.share)
    ? formatQuantity({ value: closest.share, dimension: 'ratio', digits: 2 })
    : 'nothing of what is needed';
  return `${closest.id}, ${share.replaceAll(' ', '\u00a0')}`;
}
