import { Chalk } from 'chalk';
import type { AxisWindow, ValueRange, ValueRung, WindowStudy } from '../studies/window.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { hanging } from './wrap.ts';

/** How a window may look. */
export interface WindowStyle {
  readonly width: number;
  readonly colourLevel: 0 | 1;
}

interface Told {
  readonly axis: AxisWindow;
  readonly dimension: Dimension;
  readonly style: WindowStyle;
}

/** A value along a window, as it is written into the file: to a tenth of a volt, to three digits. */
export function valueWords({ value, dimension }: { value: number; dimension: Dimension }): string {
  return formatQuantity({ value, dimension, digits: dimension === 'voltage' && value >= 99.95 ? 4 : 3 });
}

/** What `window FILE` prints: both windows with a strip, what sets each end, and what comes next. */
export function windowText({ file, title, study, style }: { file: string; title: string; study: WindowStudy; style: WindowStyle }): string {
  const { width } = style;
  const { supply, load } = study;
  return [
    ...hanging({ text: title, first: `${file}  `, width }),
    '',
    ...axisLines({ what: 'supply voltage', axis: supply, dimension: 'voltage', style }),
    ...(load === undefined
      ? ['', '  no load takes any power: nothing to make heavier']
      : [
          '',
          ...axisLines({
            what: `heaviest load, "${load.name}", at ${valueWords({ value: supply.present, dimension: 'voltage' })}`,
            axis: load,
            dimension: 'power',
            style,
          }),
        ]),
    '',
    ...hanging({ text: footnote(study), first: '  ', width }),
  ].join('\n');
}

function axisLines({ what, axis, dimension, style }: Told & { what: string }): readonly string[] {
  const { width } = style;
  const { present, failingNow, chosen, lower, upper, ranges } = axis;
  const isLoad = dimension === 'power';
  const number = (value: number): string => valueWords({ value, dimension });
  const now = `now ${number(present)}: ${failingNow.length === 0 ? 'no check fails' : `${listed(failingNow)} fail${failingNow.length === 1 ? 's' : ''}`}`;
  if (chosen === undefined)
    return [
      ...headline({
        text: `${what}: no value from ${number(axis.from)} to ${number(axis.to)} at which no check fails`,
        isWell: false,
        style,
      }),
      ...hanging({ text: now, first: '    ', width }),
      ...emptyLines({ axis, dimension, style }),
    ];
  const { starting, surest } = axis;
  const own = surest ?? chosen;
  const all = starting ?? ranges;
  const others = all.filter(({ low, high }) => low !== own.low || high !== own.high);
  const say = (text: string): readonly string[] => hanging({ text, first: '    ', width });
  const between = (range: ValueRange): string => betweenWords({ range, dimension });
  const starts = isLoad ? 'it starts, and no check fails,' : 'starts, and no check fails,';
  return [
    ...(starting === undefined
      ? headline({ text: `${what}: no check fails ${between(chosen)}`, isWell: true, style })
      : surest === undefined
        ? headline({ text: `${what}: no value at which the start is assessed and no check fails`, isWell: false, style })
        : headline({ text: `${what}: ${starts} ${between(surest)}`, isWell: true, style })),
    ...say(now),
    ...(others.length === 0 || surest !== own ? [] : say(`it has a hole: the same holds ${others.map(between).join(', ')}`)),
    ...(starting === undefined || (own.low === chosen.low && own.high === chosen.high)
      ? []
      : say(`no check fails ${between(chosen)}, but outside the former the start is not assessed: no pass there`)),
    '',
    ...strip({ axis, dimension, width }),
    '',
    ...ladderLines({ title: isLoad ? 'more power' : 'upper end', rungs: upper, direction: 'up', dimension, width, from: surest?.high }),
    ...ladderLines({ title: isLoad ? 'less power' : 'lower end', rungs: lower, direction: 'down', dimension, width, from: surest?.low }),
    ...openLines({ axis, width }),
  ];
}

/** What nobody has looked at is no pass: told for both ends, together where it is the same. */
function openLines({ axis: { openAtEnds }, width }: { axis: AxisWindow; width: number }): readonly string[] {
  if (openAtEnds === undefined) return [];
  const { low, high } = openAtEnds;
  const both = high.filter((id) => low.includes(id));
  const rest = (ids: readonly string[]): readonly string[] => ids.filter((id) => !both.includes(id));
  return (
    [
      ['at both ends', both],
      ['at the upper end', rest(high)],
      ['at the lower end', rest(low)],
    ] as const
  ).flatMap(([where, ids]) =>
    ids.length === 0 ? [] : hanging({ text: listed(ids), first: `    not assessed ${where}: `, width, indent: 6 }),
  );
}

function headline({
  text,
  isWell,
  style: { width, colourLevel },
}: {
  text: string;
  isWell: boolean;
  style: WindowStyle;
}): readonly string[] {
  const chalk = new Chalk({ level: colourLevel });
  const paint = isWell ? chalk.green : chalk.red;
  return hanging({ text, first: '  ', width }).map((line) => `  ${paint(line.slice(2))}`);
}

function betweenWords({ range: { low, high }, dimension }: { range: ValueRange; dimension: Dimension }): string {
  return `from ${valueWords({ value: low, dimension })} to ${valueWords({ value: high, dimension })}`;
}

function listed(ids: readonly string[]): string {
  return ids.join(', ');
}

/** The values that were looked at as a line, the present one marked above it. */
function strip({
  axis: { from, to, ranges, starting, present },
  dimension,
  width,
}: {
  axis: AxisWindow;
  dimension: Dimension;
  width: number;
}): readonly string[] {
  const columns = Math.min(width, 100) - 8;
  const scale = (value: number): number => (dimension === 'power' ? Math.log(value) : value);
  const column = (value: number): number => Math.round(((columns - 1) * (scale(value) - scale(from))) / (scale(to) - scale(from)));
  const isIn = (found: readonly ValueRange[], i: number): boolean => found.some(({ low, high }) => column(low) <= i && i <= column(high));
  const cells = Array.from({ length: columns }, (_, i) => (!isIn(ranges, i) ? '.' : isIn(starting ?? ranges, i) ? '=' : '-')).join('');
  const at = Math.min(columns - 1, Math.max(0, column(present)));
  const [first, last] = [from, to].map((value) => valueWords({ value, dimension })) as [string, string];
  const open = cells.includes('-') ? '   - start not assessed' : '';
  return [
    `    ${' '.repeat(at)}v`,
    `    ${cells}`,
    `    ${first}${last.padStart(columns - first.length)}`,
    `    = no check fails${open}   . a check fails   v now`,
  ];
}

function ladderLines({
  title,
  rungs,
  direction,
  dimension,
  width,
  from,
}: {
  title: string;
  rungs: readonly ValueRung[];
  direction: 'up' | 'down';
  dimension: Dimension;
  width: number;
  /** Where the start is assessed to, if that comes before the first rung. */
  from?: number | undefined;
}): readonly string[] {
  const label = 13;
  const limits = rungs.map(({ value, checks }, i) => {
    const end = `${i === 0 ? 'nothing fails' : 'nothing else fails'} ${direction} to here, where the search ends`;
    return { value, words: checks.length === 0 ? end : `${i === 0 ? 'set by' : 'without that, set by'} ${listed(checks)}` };
  });
  const isShort = from !== undefined && from !== rungs[0]?.value;
  const all = [...(isShort ? [{ value: from, words: 'beyond that the start is not assessed' }] : []), ...limits];
  return all.flatMap(({ value, words }, i) => {
    const number = valueWords({ value, dimension }).padStart(8);
    return hanging({ text: words, first: `    ${(i === 0 ? title : '').padEnd(label)}${number}  `, width });
  });
}

function emptyLines({ axis: { always, rest, crossing }, dimension, style: { width } }: Told): readonly string[] {
  const say = (text: string): readonly string[] => hanging({ text, first: '    ', width });
  return [
    ...(always.length === 0 ? [] : say(`at every value: ${listed(always)}: mend these first, see tankproof explain`)),
    ...(rest.length === 0 ? [] : say(`without them no check fails ${rest.map((range) => betweenWords({ range, dimension })).join(', ')}`)),
    ...(crossing === undefined
      ? []
      : say(
          `two checks cross: ${crossing.below} fails below ${valueWords({ value: crossing.until, dimension })}, ${crossing.above} above ${valueWords({ value: crossing.from, dimension })}`,
        )),
  ];
}

function footnote({ depth, supply: { coarse } }: WindowStudy): string {
  const step = Math.max(...coarse.slice(1).map((value, i) => value - coarse[i]!));
  const events =
    depth === 'time domain' ? 'with switch-on, load put on and load removal in the time domain' : 'in closed form, which passes no start';
  return `every load at every corner of the tolerances, ${events}. A load given by its power keeps the resistance that it has at the project's own voltage. Looked at every ${valueWords({ value: step, dimension: 'voltage' })}, ends to 0.1 V and 1 % of the power; a hole narrower than that between two such values is not seen. That no check fails is no promise: warnings, what is not assessed and what is not modelled remain.`;
}
