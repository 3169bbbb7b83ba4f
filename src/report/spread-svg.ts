import type { CheckSpread, Spread } from '../studies/spread.ts';
import { correlationText } from './spread-text.ts';
import { intervalText, shareText, tellingChecks } from './spread-words.ts';
import { escaped, svgDocument } from './svg.ts';
import { cellFill, cellPatterns } from './verdict-marks.ts';

const [left, barsWidth, row, top] = [200, 420, 22, 44];
/** Half the width of the bars of a correlation. */
const half = 250;
const mostDriven = 6;

/** A spread as a drawing: for each check the share of builds by verdict with the interval of the fails, then what moves the rooms left. */
export function spreadSvg({ spread, title }: { spread: Spread; title: string }): string {
  const { checks, builds, seed } = spread;
  const y0 = top + 34;
  const shares = checks.map((check, i) => shareRow({ check, builds, y: y0 + i * row }));
  const below = y0 + checks.length * row;
  const driven = tellingChecks(spread, mostDriven);
  const begins = driven.map((_, i) => driven.slice(0, i).reduce((sum, { drivers }) => sum + drivers.length * row + 44, below + 56));
  const panels = driven.map((check, i) => driverPanel({ check, y0: begins[i]! }));
  const end = driven.length === 0 ? below + 40 : begins.at(-1)! + driven.at(-1)!.drivers.length * row + 20;
  const words = `share of ${builds} builds, seed ${seed}: fail with its 95 % interval, then not assessed, warn, pass`;
  const body = [cellPatterns, `<text x="8" y="${top}">${words}</text>`, legend(top + 18), ...shares, axis({ y0, y1: below }), ...panels];
  return svgDocument({ title, height: end, body: body.join('\n') });
}

function legend(y: number): string {
  return (['fail', 'not assessed', 'warn', 'pass'] as const)
    .map((verdict, i) => {
      const x = left + i * 120;
      return `<rect x="${x}" y="${y - 11}" width="22" height="13" fill="${cellFill(verdict)}" stroke="#555555" stroke-width="0.5"/><text x="${x + 28}" y="${y}">${verdict}</text>`;
    })
    .join('');
}

function shareRow({ check: { worst, counts, interval }, builds, y }: { check: CheckSpread; builds: number; y: number }): string {
  let x = left;
  const bars = (['fail', 'not assessed', 'warn', 'pass'] as const).map((verdict) => {
    const wide = (barsWidth * counts[verdict]) / builds;
    const bar =
      wide === 0
        ? ''
        : `<rect x="${x.toFixed(1)}" y="${y}" width="${wide.toFixed(1)}" height="${row - 6}" fill="${cellFill(verdict)}" stroke="#555555" stroke-width="0.5"/>`;
    x += wide;
    return bar;
  });
  const [low, high] = [interval.lower, interval.upper].map((share) => (left + barsWidth * share).toFixed(1));
  const middle = y + (row - 6) / 2;
  const whisker = `<path d="M${low},${middle}H${high}M${low},${middle - 4}V${middle + 4}M${high},${middle - 4}V${middle + 4}" stroke="#000000" stroke-width="1.2"/>`;
  const words = `${shareText(counts.fail / builds)} fail (${intervalText(interval)})`;
  return `<g><text x="${left - 8}" y="${y + 12}" text-anchor="end">${escaped(worst.id)}</text>${bars.join('')}${whisker}<text x="${left + barsWidth + 12}" y="${y + 12}" font-size="12">${escaped(words)}</text></g>`;
}

function axis({ y0, y1 }: { y0: number; y1: number }): string {
  return [0, 25, 50, 75, 100]
    .map((percent) => {
      const x = left + (barsWidth * percent) / 100;
      return `<line x1="${x}" x2="${x}" y1="${y0 - 4}" y2="${y1}" stroke="#999999" stroke-width="0.4"/><text x="${x}" y="${y1 + 14}" text-anchor="middle" font-size="12">${percent} %</text>`;
    })
    .join('');
}

/** Bars to the right where more of a variable leaves more room, to the left where it leaves less. */
function driverPanel({ check: { worst, drivers }, y0 }: { check: CheckSpread; y0: number }): string {
  const zero = left + half;
  const bars = drivers.map(({ id, correlation }, i) => {
    const y = y0 + i * row;
    const wide = half * Math.abs(correlation);
    const x = correlation < 0 ? zero - wide : zero;
    return `<text x="${left - 8}" y="${y + 12}" text-anchor="end">${escaped(id)}</text><rect x="${x.toFixed(1)}" y="${y}" width="${wide.toFixed(1)}" height="${row - 6}" fill="#2b5d8a"/><text x="${zero + half + 12}" y="${y + 12}" font-size="12">${correlationText(correlation)}</text>`;
  });
  const head = `what moves ${worst.id}: rank correlation with the room left, less to the left, more to the right`;
  const line = `<line x1="${zero}" x2="${zero}" y1="${y0 - 4}" y2="${y0 + drivers.length * row - 2}" stroke="#333333"/>`;
  return `<g><text x="8" y="${y0 - 10}" font-weight="bold">${escaped(head)}</text>${bars.join('')}${line}</g>`;
}
