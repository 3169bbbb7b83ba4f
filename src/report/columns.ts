import { wrapped } from './wrap.ts';

/** One cell: its text, and how it is painted once it is as wide as its column. */
export interface ColumnCell {
  readonly text: string;
  readonly paint?: (padded: string) => string;
}

/** A column under a heading of one or more statements, each on lines of its own. */
export interface Column {
  readonly heading: readonly string[];
  readonly cells: readonly ColumnCell[];
  readonly align: 'left' | 'right';
}

const gap = '  ';
/** A statement of a heading is broken so that it is no wider than this, or than the cells. */
const headingWidth = 14;

/**
 * Columns side by side, the first of them repeated at the left of each block where they are too wide for one.
 *
 * @param columns  all with as many cells; the first names the rows
 * @param width    in columns of the terminal
 * @param indent   before every line
 */
export function columnsText({
  columns: [first, ...others],
  width,
  indent,
}: {
  columns: readonly [Column, ...Column[]];
  width: number;
  indent: string;
}): readonly string[] {
  const key = laidOut(first);
  const blocks: LaidOut[][] = [];
  let room = 0;
  for (const column of others.map(laidOut)) {
    if (column.width + gap.length > room || blocks.length === 0) {
      blocks.push([]);
      room = width - indent.length - key.width;
    }
    blocks.at(-1)!.push(column);
    room -= column.width + gap.length;
  }
  return blocks.flatMap((block, i) => [...(i === 0 ? [] : ['']), ...blockLines([key, ...block]).map((line) => `${indent}${line}`)]);
}

interface LaidOut {
  readonly width: number;
  readonly heading: readonly string[];
  readonly cells: readonly ColumnCell[];
  readonly align: 'left' | 'right';
}

function laidOut({ heading, cells, align }: Column): LaidOut {
  const widest = Math.max(0, ...cells.map(({ text }) => text.length));
  const lines = heading.flatMap((text) => wrapped({ text, width: Math.max(headingWidth, widest) }));
  return { width: Math.max(widest, ...lines.map((line) => line.length)), heading: lines, cells, align };
}

function blockLines(columns: readonly LaidOut[]): readonly string[] {
  const height = Math.max(...columns.map(({ heading }) => heading.length));
  const padded = (text: string, { width, align }: LaidOut): string => (align === 'left' ? text.padEnd(width) : text.padStart(width));
  const headings = Array.from({ length: height }, (_, row) => columns.map((column) => padded(column.heading[row] ?? '', column)));
  const rows = columns[0]!.cells.map((_, row) =>
    columns.map((column) => {
      const { text, paint } = column.cells[row]!;
      return paint === undefined ? padded(text, column) : paint(padded(text, column));
    }),
  );
  return [...headings, ...rows].map((cells) => cells.join(gap).trimEnd());
}
