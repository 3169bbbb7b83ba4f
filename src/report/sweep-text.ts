import type { Verdict } from '../checks/judge.ts';
import type { Cell, Shown, Sweep, SweepPoint } from '../studies/sweep.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { columnsText, type Column, type ColumnCell } from './columns.ts';
import { comparison, roomLeft } from './comparison.ts';
import { painter } from './paint.ts';
import { sweepChart } from './sweep-chart.ts';
import { cellAt, keyLines, keyValue, letterWords, methodWords, shownName, verdictLetters } from './sweep-words.ts';
import type { TerminalStyle } from './terminal.ts';
import { hanging } from './wrap.ts';

type Paint = (verdict: Verdict, text: string) => string;

/** Reasons and refusals that are told; the rest are counted. */
const mostReasons = 4;

/** A sweep as text: a table and a chart for one key, a grid of the values of both for two, then what was refused or not assessed. */
export function sweepText({
  file,
  title,
  sweep,
  style: { width, colourLevel },
}: {
  file: string;
  title: string;
  sweep: Sweep;
  style: Pick<TerminalStyle, 'width' | 'colourLevel'>;
}): string {
  const paint = painter(colourLevel);
  const lines = (text: string, first = '  '): readonly string[] => hanging({ text, first, width });
  return [
    ...hanging({ text: title, first: `${file}  `, width }),
    '',
    ...keyLines(sweep).flatMap((line) => lines(line)),
    ...lines(methodWords(sweep)),
    '',
    ...(sweep.keys.length === 1 ? tableLines({ sweep, width, paint }) : gridLines({ sweep, width, paint })),
    ...notesOf(sweep).flatMap((note, i) => [...(i === 0 ? [''] : []), ...hanging({ text: note, first: '  ', width })]),
  ].join('\n');
}

function tableLines({ sweep, width, paint }: { sweep: Sweep; width: number; paint: Paint }): readonly string[] {
  const { keys, shown, points } = sweep;
  const [key] = keys as [Sweep['keys'][number]];
  const first: Column = {
    heading: [key.name],
    align: 'right',
    cells: points.map(({ at }) => ({ text: keyValue({ key, value: at[0]! }) })),
  };
  const columns = shown.map((one, index) => column({ shown: one, index, points, paint }));
  return [
    ...columnsText({ columns: [first, ...columns], width, indent: '  ' }),
    ...shown.flatMap((one, index) => sweepChart({ key, points, shown: one, index, width })),
  ];
}

function column({ shown, index, points, paint }: { shown: Shown; index: number; points: readonly SweepPoint[]; paint: Paint }): Column {
  const heading = shown.kind === 'quantity' ? [shown.id, shown.load] : [shown.id];
  const verdictWidth = Math.max(...points.map((point) => (cellAt(point, index)?.verdict ?? 'refused').length));
  const cells = points.map((point): ColumnCell => {
    if ('refused' in point) return { text: 'refused' };
    const cell = point.cells[index];
    if (cell === undefined) return { text: 'no such part' };
    const { verdict } = cell;
    if (shown.kind === 'quantity' || verdict === undefined) return { text: valueOf({ cell, shown }) };
    const compared = comparison({ verdict, value: cell.value, limit: cell.limit ?? null, margin: cell.margin ?? null, ...judgedBy(shown) });
    const word = verdict.padEnd(verdictWidth);
    const text = `${word} ${compared}`.trimEnd();
    return { text, paint: (padded) => `${paint(verdict, padded.slice(0, word.length))}${padded.slice(word.length)}` };
  });
  return { heading, align: shown.kind === 'quantity' ? 'right' : 'left', cells };
}

function judgedBy(shown: Shown & { readonly kind: 'check' }): { dimension: Shown['dimension']; sense: 'at-most' | 'at-least' } {
  return { dimension: shown.dimension, sense: shown.sense };
}

function valueOf({ cell, shown: { dimension } }: { cell: Cell; shown: Shown }): string {
  return cell.value === null ? 'not known' : formatQuantity({ value: cell.value, dimension, digits: 4 });
}

/** For each shown id a row a value of the second key and a column a value of the first. */
function gridLines({ sweep, width, paint }: { sweep: Sweep; width: number; paint: Paint }): readonly string[] {
  const { keys, shown, points } = sweep;
  const [across, down] = keys as [Sweep['keys'][number], Sweep['keys'][number]];
  const rows = down.values.map((value) => ({ text: keyValue({ key: down, value }) }));
  return shown.flatMap((one, index) => {
    const columns = across.values.map((value, i): Column => ({
      heading: [keyValue({ key: across, value })],
      align: 'right',
      cells: down.values.map((_, j) => gridCell({ point: points[i * down.values.length + j]!, shown: one, index, paint })),
    }));
    const legend = one.kind === 'check' ? `; room left; ${letterWords}` : '';
    return [
      ...(index === 0 ? [] : ['']),
      ...hanging({ text: `${shownName(one)}: ${across.name} across, ${down.name} down${legend}`, first: '  ', width }),
      '',
      ...columnsText({ columns: [{ heading: [], align: 'right', cells: rows }, ...columns], width, indent: '  ' }),
    ];
  });
}

function gridCell({ point, shown, index, paint }: { point: SweepPoint; shown: Shown; index: number; paint: Paint }): ColumnCell {
  if ('refused' in point) return { text: 'x' };
  const cell = point.cells[index];
  if (cell === undefined) return { text: '-' };
  const { verdict } = cell;
  if (shown.kind === 'quantity' || verdict === undefined) return { text: cell.value === null ? '?' : valueOf({ cell, shown }) };
  const room = roomLeft({ value: cell.value, limit: cell.limit ?? null, margin: cell.margin ?? null, dimension: shown.dimension });
  return { text: `${verdictLetters[verdict]} ${room}`.trimEnd(), paint: (padded) => paint(verdict, padded) };
}

/** What was refused, and what is not known, with the reason of each once. */
function notesOf({ keys, shown, points }: Sweep): readonly string[] {
  const placed = ({ at }: SweepPoint): string => at.map((value, i) => keyValue({ key: keys[i]!, value })).join(', ');
  const refused = grouped(points.flatMap((point) => ('refused' in point ? [{ reason: point.refused.message, where: placed(point) }] : [])));
  const unknown = shown.flatMap((one, index) =>
    grouped(
      points.flatMap((point) => {
        const reason = cellAt(point, index)?.reason;
        return reason === undefined ? [] : [{ reason, where: placed(point) }];
      }),
    ).map((text) => `${shownName(one)}: ${text}`),
  );
  return [...refused.map((text) => `refused: ${text}`), ...unknown];
}

function grouped(all: readonly { reason: string; where: string }[]): readonly string[] {
  // reasons that differ in their numbers alone are one
  const groups = new Map<string, { reason: string; where: string; others: number }>();
  for (const { reason, where } of all) {
    const kind = reason.replaceAll(/\d[\d.]*/g, '0');
    const group = groups.get(kind);
    if (group === undefined) groups.set(kind, { reason, where, others: 0 });
    else group.others += 1;
  }
  const told = [...groups.values()].map(
    ({ reason, where, others }) =>
      `${reason} (at ${where}${others === 0 ? '' : `, and ${others} more such ${others === 1 ? 'point' : 'points'}`})`,
  );
  const rest = told.length - mostReasons;
  return rest > 0 ? [...told.slice(0, mostReasons), `${rest} more reasons, all in --json and --csv`] : told;
}
