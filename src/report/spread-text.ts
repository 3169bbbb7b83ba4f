import type { CheckSpread, Spread } from '../studies/spread.ts';
import { columnsText, type Column, type ColumnCell } from './columns.ts';
import { roomLeft } from './comparison.ts';
import { painter } from './paint.ts';
import { chanceCorrelation, intervalText, limitsText, shareText, spreadNotes, tellingChecks } from './spread-words.ts';
import type { TerminalStyle } from './terminal.ts';
import { hanging } from './wrap.ts';

/** Checks whose drivers are told. */
const mostDriven = 5;
const barWidth = 30;
/** Width from which the share that warns has room too. */
const roomForWarn = 90;

/** A spread as text: what varies, each check at its worst corner and in the builds, what moves those that matter. */
export function spreadText({
  file,
  title,
  spread,
  style: { width, colourLevel, all },
}: {
  file: string;
  title: string;
  spread: Spread;
  style: TerminalStyle;
}): string {
  const paint = painter(colourLevel);
  const { variables, checks, builds, seed } = spread;
  const lines = (text: string, first: string): readonly string[] => hanging({ text, first, width });
  const driven = tellingChecks(spread, all ? Infinity : mostDriven);
  const reasons = checks.flatMap(({ worst: { id }, reason }) => (reason === undefined ? [] : [`${id}: ${reason}`]));
  return [
    ...lines(title, `${file}  `),
    '',
    ...lines(
      variables.length === 0
        ? `${builds} builds, all alike: the project and its parts state no tolerance`
        : `${builds} builds, seed ${seed}; each has its own`,
      '  ',
    ),
    ...(variables.length === 0 ? [] : columnsText({ columns: variableColumns(spread), width, indent: '    ' })),
    '',
    ...columnsText({ columns: checkColumns({ spread, paint, width }), width, indent: '  ' }),
    ...driven.flatMap((check) => driverLines({ check, width, chance: chanceCorrelation(spread) })),
    '',
    ...spreadNotes({ spread }).flatMap((note) => lines(note, '  - ')),
    ...(reasons.length === 0 ? [] : ['', '  not assessed in builds', ...reasons.flatMap((reason) => lines(reason, '  - '))]),
  ].join('\n');
}

function variableColumns({ variables }: Spread): readonly [Column, ...Column[]] {
  const column = (texts: readonly string[]): Column => ({ heading: [], align: 'left', cells: texts.map((text) => ({ text })) });
  return [
    column(variables.map(({ id }) => id)),
    column(variables.map((variable) => limitsText(variable))),
    column(variables.map(({ as }) => as)),
    column(variables.map(({ from }) => from)),
  ];
}

function checkColumns({
  spread: { checks, builds },
  paint,
  width,
}: {
  spread: Spread;
  paint: ReturnType<typeof painter>;
  width: number;
}): readonly [Column, ...Column[]] {
  const worst = checks.map(({ worst: result }): ColumnCell => {
    const { verdict } = result;
    const text = `${verdict} ${roomLeft(result)}`.trimEnd();
    return { text, paint: (padded) => `${paint(verdict, verdict)}${padded.slice(verdict.length)}` };
  });
  const failing = checks.map(({ counts }): ColumnCell => {
    const text = shareText(counts.fail / builds);
    return counts.fail === 0 ? { text } : { text, paint: (padded) => paint('fail', padded) };
  });
  const warning: Column = { heading: ['warn'], align: 'right', cells: checks.map(({ counts }) => share(counts.warn / builds)) };
  return [
    { heading: ['check'], align: 'left', cells: checks.map(({ worst: { id } }) => ({ text: id })) },
    { heading: ['worst corner'], align: 'left', cells: worst },
    { heading: ['builds', 'fail'], align: 'right', cells: failing },
    { heading: ['95 %', 'interval'], align: 'right', cells: checks.map(({ interval }) => ({ text: intervalText(interval) })) },
    { heading: ['not', 'assessed'], align: 'right', cells: checks.map(({ counts }) => share(counts['not assessed'] / builds)) },
    ...(width < roomForWarn ? [] : [warning]),
  ];
}

function share(value: number): ColumnCell {
  return { text: value === 0 ? '-' : shareText(value) };
}

/** Sorted bars: how far the room left rises (+) or falls (−) with each variable that moves it more than chance does. */
function driverLines({
  check: { worst, drivers },
  width,
  chance,
}: {
  check: CheckSpread;
  width: number;
  chance: number;
}): readonly string[] {
  const wide = Math.max(...drivers.map(({ id }) => id.length));
  const told = drivers.filter(({ correlation }) => Math.abs(correlation) >= chance);
  const others = drivers.filter((driver) => !told.includes(driver)).map(({ id }) => id);
  return [
    '',
    ...hanging({ text: `what moves ${worst.id}: rank correlation, + leaves more room, − less`, first: '  ', width }),
    ...told.map(({ id, correlation }) => {
      const bar = (correlation < 0 ? '-' : '+').repeat(Math.round(Math.abs(correlation) * barWidth));
      return `    ${id.padEnd(wide)}  ${correlationText(correlation)}  ${bar}`.trimEnd();
    }),
    ...(others.length === 0
      ? []
      : hanging({ text: `${others.join(', ')}: no more than chance (${chance.toFixed(2)})`, first: '    ', width })),
  ];
}

/** `+0.98`, with a sign that lines up. */
export function correlationText(correlation: number): string {
  const text = Math.abs(correlation).toFixed(2);
  return `${text === '0.00' ? ' ' : correlation < 0 ? '−' : '+'}${text}`;
}
