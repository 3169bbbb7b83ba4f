import type { Verdict } from '../checks/judge.ts';

/** How a drawing shows a verdict: colour, and a shape or a pattern that says the same without it. */
export const verdictColours: Readonly<Record<Verdict | 'refused', string>> = {
  pass: '#2e7d32',
  warn: '#b26a00',
  fail: '#b71c1c',
  'not assessed': '#555555',
  refused: '#555555',
};

/** A mark at a place: circle passes, triangle warns, square fails, open circle not assessed, cross refused. */
export function verdictMark({ verdict, x, y }: { verdict: Verdict | 'refused'; x: number; y: number }): string {
  const colour = verdictColours[verdict];
  const [left, right, top, bottom] = [x - 4, x + 4, y - 4, y + 4].map((number) => number.toFixed(1));
  switch (verdict) {
    case 'pass':
      return `<circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="3" fill="${colour}"/>`;
    case 'warn':
      return `<polygon points="${left},${bottom} ${right},${bottom} ${x.toFixed(1)},${top}" fill="${colour}"/>`;
    case 'fail':
      return `<rect x="${left}" y="${top}" width="8" height="8" fill="${colour}"/>`;
    case 'not assessed':
      return `<circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="3.5" fill="#ffffff" stroke="${colour}"/>`;
    case 'refused':
      return `<path d="M${left},${top}L${right},${bottom}M${left},${bottom}L${right},${top}" stroke="${colour}"/>`;
  }
}

/** What the marks mean, in a row that begins at a place. */
export function markLegend({ x, y }: { x: number; y: number }): string {
  return (['pass', 'warn', 'fail', 'not assessed', 'refused'] as const)
    .map((verdict, i) => {
      const at = x + i * 120;
      return `${verdictMark({ verdict, x: at, y: y - 4 })}<text x="${at + 10}" y="${y}">${verdict}</text>`;
    })
    .join('');
}

const tints: Readonly<Record<Verdict, string>> = { pass: '#dcefdc', warn: '#ffe2ad', fail: '#f3b5ae', 'not assessed': '#e6e6e6' };

/** Patterns of the cells of a map: plain passes, strokes warn, crossed strokes fail, dots are not assessed. */
export const cellPatterns = `<defs>${(['pass', 'warn', 'fail', 'not assessed'] as const)
  .map((verdict) => {
    const strokes = {
      pass: '',
      warn: '<path d="M0,8L8,0" stroke="#b26a00" stroke-width="0.8"/>',
      fail: '<path d="M0,8L8,0M0,0L8,8" stroke="#b71c1c" stroke-width="0.8"/>',
      'not assessed': '<circle cx="4" cy="4" r="1" fill="#555555"/>',
    }[verdict];
    return `<pattern id="${patternId(verdict)}" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8" fill="${tints[verdict]}"/>${strokes}</pattern>`;
  })
  .join('')}</defs>`;

function patternId(verdict: Verdict): string {
  return `verdict-${verdict.replace(' ', '-')}`;
}

/** The fill of a map's cell. */
export function cellFill(verdict: Verdict): string {
  return `url(#${patternId(verdict)})`;
}
