import type { Verdict } from '../checks/judge.ts';
import { isWaived } from '../checks/waiver.ts';
import { painter } from './paint.ts';
import { gravestVerdict, verdictCounts } from './review-report.ts';
import { isReviewed, outcomeWords, resultsOf, type Reviewed } from './reviewed.ts';
import { hanging } from './wrap.ts';

const headings = ['verdict', 'fail', 'not assessed', 'warn', 'pass', 'file'] as const;
const refusedWord = 'could not run';
const widths = [refusedWord, ...headings.slice(1)].map(({ length }) => length);

/**
 * What all files came to: a line a file in the order in which they were named, its name last and whole, then what they came to together.
 *
 * @param quiet  leave out files that pass
 */
export function reviewSummary({
  reviewed,
  notes,
  style: { width, colourLevel, quiet },
}: {
  reviewed: readonly Reviewed[];
  notes: readonly string[];
  style: { readonly width: number; readonly colourLevel: 0 | 1 | 2 | 3; readonly quiet: boolean };
}): string {
  const paint = painter(colourLevel);
  const rows = reviewed.flatMap((one) => {
    if (!isReviewed(one))
      return [row({ word: refusedWord, counts: ['', '', '', ''], name: one.file, paint: (text) => paint('not assessed', text) })];
    const [verdict, counts] = [gravestVerdict(one.report.results), verdictCounts(one.report.results)];
    if (quiet && verdict === 'pass') return [];
    const numbers = [counts.fail, counts['not assessed'], counts.warn, counts.pass].map(String);
    return [row({ word: verdict, counts: numbers, name: one.file, paint: (text) => paint(verdict, text) })];
  });
  const [word, ...counts] = headings;
  const head = row({ word, counts: counts.slice(0, -1), name: 'file', paint: (text) => text });
  return [
    ...(rows.length === 0 ? [] : [head, ...rows, '']),
    ...notes.flatMap((note) => hanging({ text: note, first: 'note: ', width })),
    `${reviewed.length} ${reviewed.length === 1 ? 'file' : 'files'}: ${tally(reviewed)}: ${outcomeWords(reviewed)}${waivedWords(reviewed)}`,
  ].join('\n');
}

function row({
  word,
  counts,
  name,
  paint,
}: {
  word: string;
  counts: readonly string[];
  name: string;
  paint: (padded: string) => string;
}): string {
  const cells = counts.map((count, i) => count.padStart(widths[i + 1]!));
  return `  ${[paint(word.padEnd(widths[0]!)), ...cells, name].join('  ')}`;
}

/** How many files came to what: `5 fail, 1 could not run, 2 pass`. */
function tally(reviewed: readonly Reviewed[]): string {
  const words = reviewed.map((one) => (isReviewed(one) ? gravestVerdict(one.report.results) : refusedWord));
  const order: readonly (Verdict | typeof refusedWord)[] = [refusedWord, 'fail', 'not assessed', 'warn', 'pass'];
  return order
    .map((word) => ({ word, count: words.filter((one) => one === word).length }))
    .filter(({ count }) => count > 0)
    .map(({ word, count }) => `${count} ${word}`)
    .join(', ');
}

function waivedWords(reviewed: readonly Reviewed[]): string {
  const waived = resultsOf(reviewed).filter(isWaived).length;
  return waived === 0 ? '' : ` (${waived} ${waived === 1 ? 'result' : 'results'} waived)`;
}
