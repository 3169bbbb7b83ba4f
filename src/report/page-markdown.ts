import type { Block, Page } from './page.ts';

/** A page as Markdown. */
export function pageMarkdown(page: Page): string {
  return [`# ${escaped(page.title)}`, ...page.blocks.map(blockText), ''].join('\n\n').replace(/\n+$/, '\n');
}

function blockText(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `## ${escaped(block.text)}`;
    case 'alert':
      return [
        `> **${escaped(block.text)}**`,
        ...(block.items.length === 0 ? [] : ['>']),
        ...block.items.map((item) => `> - ${escaped(item)}`),
      ].join('\n');
    case 'paragraph':
      return escaped(block.text);
    case 'list':
      return block.items.map((item) => `- ${escaped(item)}`).join('\n');
    case 'table':
      return [`*${escaped(block.caption)}*`, '', line(block.columns), line(block.columns.map(() => '---')), ...block.rows.map(line)].join(
        '\n',
      );
  }
}

function line(cells: readonly string[]): string {
  return `| ${cells.map((cell) => escaped(cell)).join(' | ')} |`;
}

/** Signs that Markdown would read as its own. */
function escaped(text: string): string {
  return text.replaceAll(/[\\`*_{}[\]<>#|]/g, (sign) => `\\${sign}`);
}
