import { csvField, csvNumber } from './csv.ts';
import { unitOf } from '../units/dimensions-table.ts';
import type { Cell, Shown, Sweep } from '../studies/sweep.ts';

function headings(shown: Shown): readonly string[] {
  const unit = unitOf(shown.dimension);
  if (shown.kind === 'quantity') return [`${shown.id} of ${shown.load} [${unit}]`];
  return [`${shown.id} verdict`, `${shown.id} [${unit}]`, `${shown.id} limit [${unit}]`, `${shown.id} margin`, `${shown.id} case`];
}

function fields({ shown, cell }: { shown: Shown; cell: Cell | undefined }): readonly string[] {
  if (shown.kind === 'quantity') return [csvNumber(cell?.value)];
  return [cell?.verdict ?? '', csvNumber(cell?.value), csvNumber(cell?.limit), csvNumber(cell?.margin), cell?.case ?? ''];
}

/** A sweep as comma-separated values: a row a point, SI units in the heading, why a point is refused in the last column. */
export function sweepCsv({ keys, shown, points }: Sweep): string {
  const header = [...keys.map(({ name, dimension }) => `${name} [${unitOf(dimension)}]`), ...shown.flatMap(headings), 'refused'];
  const rows = points.map((point) => [
    ...point.at.map(csvNumber),
    ...shown.flatMap((one, i) => fields({ shown: one, cell: 'cells' in point ? point.cells[i] : undefined })),
    'refused' in point ? point.refused.message : '',
  ]);
  return [header, ...rows].map((row) => `${row.map(csvField).join(',')}\n`).join('');
}

/** A sweep as a JSON document; its schema is shared/sweep.schema.json. SI units, numbers not strings. */
export function sweepJson({ file, title, sweep, version }: { file: string; title: string; sweep: Sweep; version: string }): object {
  const { keys, shown, timed, points } = sweep;
  return {
    tankproof: { version, sweepVersion: 1 },
    file,
    title,
    method: timed ? 'time domain' : 'closed form',
    vary: keys.map(({ name, dimension, isWritten, values }) => ({ key: name, unit: unitOf(dimension), inFile: isWritten, values })),
    show: shown.map((one) => ({
      kind: one.kind,
      id: one.id,
      unit: unitOf(one.dimension),
      ...(one.kind === 'quantity' ? { case: one.load } : { sense: one.sense }),
    })),
    points: points.map((point) => ({
      at: point.at,
      ...('refused' in point
        ? { refused: { id: point.refused.id, message: point.refused.message } }
        : { shown: point.cells.map((cell) => (cell === undefined ? null : jsonCell(cell))) }),
    })),
  };
}

function jsonCell({ verdict, value, limit, margin, case: where, reason }: Cell): object {
  return {
    value,
    ...(verdict === undefined ? {} : { verdict, limit: limit ?? null, margin: margin ?? null, case: where }),
    ...(reason === undefined ? {} : { reason }),
  };
}
