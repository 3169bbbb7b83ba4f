import type { Block, Page, Table } from './page.ts';
import { hanging, wrapped } from './wrap.ts';

/** A page as plain text. */
export function pageText({ page, width }: { page: Page; width: number }): string {
  const pieces = page.blocks.map((block) => blockLines({ block, width }).join('\n'));
  return [wrapped({ text: page.title, width }).join('\n'), ...pieces].join('\n\n');
}

function blockLines({ block, width }: { block: Block; width: number }): readonly string[] {
  const items = (texts: readonly string[]): readonly string[] => texts.flatMap((text) => hanging({ text, first: '  - ', width }));
  switch (block.kind) {
    case 'heading':
      return wrapped({ text: block.text.toUpperCase(), width });
    case 'alert':
      return [...wrapped({ text: block.text, width }), ...items(block.items)];
    case 'paragraph':
      return hanging({ text: block.text, first: '  ', width });
    case 'list':
      return items(block.items);
    case 'table':
      return tableLines({ table: block, width });
  }
}

const gap = '  ';

function tableLines({ table: { caption, columns, rows }, width }: { table: Table; width: number }): readonly string[] {
  const all = [columns, ...rows];
  const widths = fittedWidths({ all, width: width - gap.length });
  const [head, ...body] = all.map((row) => rowLines({ row, widths }));
  const rule = gap + widths.map((wide) => '-'.repeat(wide)).join(gap);
  return [...hanging({ text: caption, first: gap, width }), ...head!, rule, ...body.flat()];
}

/** Widths of the columns: what they hold, the widest narrowed until all fit. */
function fittedWidths({ all, width }: { all: readonly (readonly string[])[]; width: number }): readonly number[] {
  const widths = all[0]!.map((_, i) => Math.max(...all.map((row) => row[i]!.length)));
  const least = all[0]!.map((_, i) => Math.max(...all.flatMap((row) => wrapped({ text: row[i]!, width: 1 }).map(({ length }) => length))));
  const spare = (): number => widths.reduce((sum, wide) => sum + wide + gap.length, -gap.length) - width;
  while (spare() > 0) {
    const able = widths.map((wide, i) => (wide > least[i]! ? wide : 0));
    const widest = Math.max(...able);
    if (widest === 0) break;
    widths[able.indexOf(widest)]! -= 1;
  }
  return widths;
}

function rowLines({ row, widths }: { row: readonly string[]; widths: readonly number[] }): readonly string[] {
  const cells = row.map((text, i) => wrapped({ text, width: widths[i]! }));
  const height = Math.max(...cells.map(({ length }) => length));
  return Array.from({ length: height }, (_, line) =>
    (gap + cells.map((lines, i) => (lines[line] ?? '').padEnd(widths[i]!)).join(gap)).trimEnd(),
  );
}
