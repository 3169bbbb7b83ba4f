import type { Block, Page, Table } from './page.ts';

/** Black on white and white on dark red: contrast of 15 and 8 to 1. */
const style = `
  @page { size: A4; margin: 7mm 8mm; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 6mm; max-width: 210mm; color: #1a1a1a; background: #fff; font: 6.8pt/1.17 "Helvetica Neue", Arial, "Liberation Sans", "DejaVu Sans", sans-serif; }
  h1 { margin: 0 0 1mm; font-size: 10.5pt; }
  h2 { margin: 1.4mm 0 0.5mm; font-size: 8.6pt; border-bottom: 0.3mm solid #1a1a1a; break-after: avoid; }
  p { margin: 0.5mm 0; }
  ul { margin: 0.3mm 0; padding-left: 3.6mm; }
  section.alert { margin: 1mm 0; padding: 1mm 2mm; background: #8f1414; color: #fff; }
  section.alert p { font-weight: bold; font-size: 9.5pt; }
  td.short { white-space: nowrap; }
  th.fill { min-width: 16mm; }
  table { width: 100%; margin: 0.6mm 0; border-collapse: collapse; break-inside: avoid; }
  caption { padding: 0.2mm 0; text-align: left; font-style: italic; }
  th, td { padding: 0.1mm 0.8mm; border: 0.2mm solid #767676; text-align: left; vertical-align: top; }
  thead th { background: #e6e6e6; }
  tbody th { font-weight: normal; }
  @media screen { .scroll { overflow-x: auto; } body { font-size: 11pt; max-width: 64rem; } h1 { font-size: 18pt; } h2 { margin-top: 5mm; font-size: 13pt; } }
  @media print { body { padding: 0; } section.alert ul { columns: 2; column-gap: 4mm; } h2:first-of-type + ul { columns: 2; column-gap: 4mm; } section.alert { -webkit-print-color-adjust: exact; print-color-adjust: exact; } }
`;

/** A page as an HTML document that needs nothing else: it prints on A4. */
export function pageHtml(page: Page): string {
  const title = escaped(page.title);
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${title}</title>`,
    `<style>${style}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${title}</h1>`,
    ...page.blocks.map(blockHtml),
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escaped(block.text)}</h2>`;
    case 'alert':
      return `<section class="alert" role="note"><p>${escaped(block.text)}</p>${list(block.items)}</section>`;
    case 'paragraph':
      return `<p>${escaped(block.text)}</p>`;
    case 'list':
      return list(block.items);
    case 'table':
      return table(block);
  }
}

/** Cells of so few characters are not broken. */
const longestShort = 22;

function list(items: readonly string[]): string {
  return items.length === 0 ? '' : `<ul>${items.map((item) => `<li>${escaped(item)}</li>`).join('')}</ul>`;
}

function table({ caption, columns, rows }: Table): string {
  const head = columns.map((column, i) => `<th scope="col"${isEmpty(rows, i) ? ' class="fill"' : ''}>${escaped(column)}</th>`).join('');
  const body = rows.map(([first = '', ...rest]) => {
    const cells = rest.map((cell) => `<td${cell.length <= longestShort ? ' class="short"' : ''}>${escaped(cell)}</td>`).join('');
    return `<tr><th scope="row">${escaped(first)}</th>${cells}</tr>`;
  });
  const whole = `<table><caption>${escaped(caption)}</caption><thead><tr>${head}</tr></thead><tbody>${body.join('')}</tbody></table>`;
  // on a narrow screen it is wider than the page
  return `<div class="scroll" tabindex="0" role="group" aria-label="Table: ${escaped(columns.join(', '))}">${whole}</div>`;
}

/** A column that is filled in by hand. */
function isEmpty(rows: Table['rows'], column: number): boolean {
  return rows.every((row) => row[column] === '');
}

/** Text as it may stand in HTML, in attributes too. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
