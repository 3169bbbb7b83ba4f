import type { AxisWindow, ValueRange, WindowStudy } from '../studies/window.ts';
import type { Dimension } from '../units/dimension.ts';
import { escaped, svgDocument, svgWidth as width } from './svg.ts';
import { valueWords } from './window-text.ts';

const [full, pale] = ['#2e7d32', '#b9d7ba'] as const;
const [left, right, row] = [20, 20, 22] as const;

/** Both windows as a drawing: the ranges, each rung of the ladders as a line with its checks, the present value. */
export function windowSvg({ study, title }: { study: WindowStudy; title: string }): string {
  const axes: readonly { readonly name: string; readonly axis: AxisWindow; readonly dimension: Dimension }[] = [
    { name: 'supply voltage', axis: study.supply, dimension: 'voltage' },
    ...(study.load === undefined ? [] : [{ name: `power of "${study.load.name}"`, axis: study.load, dimension: 'power' as const }]),
  ];
  let top = 40;
  const body = axes.map(({ name, axis, dimension }) => {
    const { lines, height } = axisBody({ name, axis, dimension, top });
    top += height;
    return lines;
  });
  return svgDocument({ title: `${title}: where no check fails`, height: top + 10, body: body.join('\n') });
}

function axisBody({
  name,
  axis: { from, to, ranges, starting, present, lower, upper },
  dimension,
  top,
}: {
  name: string;
  axis: AxisWindow;
  dimension: Dimension;
  top: number;
}): { lines: string; height: number } {
  const scale = (value: number): number => (dimension === 'power' ? Math.log(value) : value);
  const x = (value: number): string => {
    const share = Math.min(1, Math.max(0, (scale(value) - scale(from)) / (scale(to) - scale(from))));
    return (left + share * (width - left - right)).toFixed(1);
  };
  const number = (value: number): string => escaped(valueWords({ value, dimension }));
  const bar = ({ low, high }: ValueRange, fill: string): string =>
    `<rect x="${x(low)}" y="${top + 12}" width="${(Number(x(high)) - Number(x(low))).toFixed(1)}" height="20" fill="${fill}"/>`;
  const bars = [
    ...ranges.map((range) => bar(range, starting === undefined ? full : pale)),
    ...(starting ?? []).map((range) => bar(range, full)),
  ];
  const rungs = [...lower, ...upper].filter(({ checks }) => checks.length > 0).toSorted((a, b) => a.value - b.value);
  const marks = rungs.map(({ value, checks }, i) => {
    const y = top + 70 + i * row;
    const isRight = Number(x(value)) > width / 2;
    return `<line x1="${x(value)}" x2="${x(value)}" y1="${top + 12}" y2="${y}" stroke="#888" stroke-width="0.7"/><text x="${Number(x(value)) + (isRight ? -4 : 4)}" y="${y}" text-anchor="${isRight ? 'end' : 'start'}">${number(value)} ${escaped(checks.join(', '))}</text>`;
  });
  const now = `<path d="M ${x(present)} ${top + 40} v -34" stroke="#c0392b" stroke-width="2"/><text x="${x(present)}" y="${top + 52}" text-anchor="middle">now ${number(present)}</text>`;
  const frame = `<text x="${left}" y="${top + 2}">${escaped(name)}: green where ${starting === undefined ? 'no check fails' : 'it starts and no check fails, pale where the start is not assessed'}; ${number(from)} to ${number(to)}${dimension === 'power' ? ', logarithmic' : ''}</text><rect x="${left}" y="${top + 12}" width="${width - left - right}" height="20" fill="#eeeeee" stroke="#888"/>`;
  return { lines: [frame, ...bars, ...marks, now].join('\n'), height: 90 + rungs.length * row };
}
