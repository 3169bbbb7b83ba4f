import type { QuantityChange } from '../studies/compare/quantities.ts';
import { columnsText, type Column } from './columns.ts';
import { isTold, quantityText, shareText } from './compare-words.ts';

const indent = '    ';
/** Widest that a table is laid out before it is seen whether it fits. */
const anyWidth = 1000;

/**
 * Quantities that moved as text: a row a quantity and a column a load, or a table a load where they are too wide.
 *
 * @param all  tell those that hardly moved, too
 */
export function quantityLines({
  quantities,
  width,
  all,
}: {
  quantities: readonly QuantityChange[];
  width: number;
  all: boolean;
}): readonly string[] {
  const both = quantities.filter(({ before, after }) => before !== undefined && after !== undefined);
  const told = all ? both : both.filter(isTold);
  const slight = both.length - told.length;
  const loads = [...new Set(told.map((change) => change.case))];
  const together = tableLines({ told, loads });
  const isWide = together.some((line) => line.length > width);
  const lines = isWide ? loads.flatMap((load, i) => [...(i === 0 ? [] : ['']), ...tableLines({ told, loads: [load] })]) : together;
  return [
    ...(told.length === 0 ? [] : ['', '  quantities, nominal', ...lines]),
    ...(slight === 0 ? [] : [`${indent}${slight} ${slight === 1 ? 'quantity' : 'quantities'} moved by less than 0.1 % or 0.1 K`]),
  ];
}

function tableLines({ told, loads }: { told: readonly QuantityChange[]; loads: readonly string[] }): readonly string[] {
  const own = told.filter((change) => loads.includes(change.case));
  const ids = [...new Set(own.map(({ id }) => id))];
  if (ids.length === 0) return [];
  const columns = loads.map((load): Column => {
    const changes = own.filter((change) => change.case === load);
    const widest = (text: (change: QuantityChange) => string): number => Math.max(...changes.map((change) => text(change).length));
    const [value, share] = [widest(quantityText), widest(shareText)];
    const cells = ids.map((id) => {
      const change = changes.find((one) => one.id === id);
      return { text: change === undefined ? '' : `${quantityText(change).padEnd(value)}  ${shareText(change).padStart(share)}`.trimEnd() };
    });
    return { heading: [load], align: 'left', cells };
  });
  const names: Column = { heading: [], align: 'left', cells: ids.map((text) => ({ text })) };
  return columnsText({ columns: [names, ...columns], width: anyWidth, indent });
}
