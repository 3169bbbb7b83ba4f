import { subjectParts } from '../checks/check.ts';
import { verdicts, type Verdict } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import { sourceWords } from '../parts/source-words.ts';
import { comparison } from './comparison.ts';
import { faultLines } from './fault-lines.ts';
import { openReasons } from './open-reasons.ts';
import { operatingLines } from './operating-lines.ts';
import { painter } from './paint.ts';
import { ratingLines } from './rating-lines.ts';
import { oneLine, placeWords, warnsWords, whereWords } from './result-words.ts';
import { countWords, gravestVerdict, unverifiedRatings, type ReviewReport } from './review-report.ts';
import { waivedWords, waiverWords } from './waiver-words.ts';
import { hanging } from './wrap.ts';

/** How the terminal report may look. */
export interface TerminalStyle {
  readonly width: number;
  /** 0 for none; the meanings stand in the words anyway. */
  readonly colourLevel: 0 | 1 | 2 | 3;
  /** Show the basis of every result, of passes too. */
  readonly all: boolean;
  /** All passes in one line. */
  readonly folded?: boolean;
  /** What does not pass and the last line alone. */
  readonly quiet?: boolean;
}

const indent = '    ';
const verdictWidth = 'not assessed'.length;

/** The report of one project as text: what it runs at, checks by part with the gravest last, assumptions, cautions, summary. */
export function terminalReport({ report, style }: { report: ReviewReport; style: TerminalStyle }): string {
  const paint = painter(style.colourLevel);
  const referred = referredResults(report.results);
  const idWidth = Math.max(0, ...report.results.map(({ id }) => id.length));
  const list = (title: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0
      ? []
      : ['', `  ${title}`, ...lines.flatMap((line) => hanging({ text: line, first: `${indent}- `, width: style.width }))];
  const isFolded = style.quiet === true || (style.folded === true && !style.all);
  const shown = report.results.filter((result) => !referred.includes(result) && !(isFolded && result.verdict === 'pass'));
  const body = [
    ...groups(shown).flatMap(({ part, results }) => [
      '',
      `  ${part}`,
      ...results.flatMap((result) => resultLines({ result, style, paint, idWidth })),
    ]),
    ...referredLines({ results: referred, width: style.width }),
  ];
  const head = hanging({ text: oneLine(report.title), first: `${report.file}  `, width: style.width });
  const last = summaryLine({ report, paint });
  // the name of the file stands with what is said of it; alone, on the last line
  const faults = list('single faults, in closed form', faultLines(report.faults ?? []));
  const told = [...body, ...faults];
  if (style.quiet === true) return (told.length === 0 ? [`${report.file}: ${last}`] : [...head, ...told, '', last]).join('\n');
  return [
    ...head,
    '',
    ...operatingLines({ quantities: report.quantities, results: report.results, width: style.width }),
    ...(isFolded ? passLines({ results: report.results, width: style.width }) : []),
    ...told,
    ...list('limits that are not those of the default policy', levelLines(report.results)),
    ...list('assumed', report.assumptions),
    ...list('ratings not from a data sheet: confirm them for the part in hand', ratingLines(unverifiedRatings(report.ratings))),
    ...sourceLines({ report, width: style.width }),
    ...list('cautions', report.cautions),
    '',
    ...summaryLines({ report, paint, width: style.width }),
  ].join('\n');
}

/** All passes in one statement. */
function passLines({ results, width }: { results: readonly Result[]; width: number }): readonly string[] {
  const passed = results.filter(({ verdict }) => verdict === 'pass').map(({ id }) => id);
  return passed.length === 0 ? [] : ['', ...hanging({ text: passed.join(', '), first: `  ${passed.length} passed: `, indent: 4, width })];
}

/** Which limits are from where: `pad.yaml:40: loaded-q, choke-ratio`. */
function levelLines(results: readonly Result[]): readonly string[] {
  const places = [...new Set(results.flatMap(({ levelsFrom }) => levelsFrom ?? []))];
  return places.map(
    (place) =>
      `${place}: ${results
        .filter(({ levelsFrom }) => levelsFrom === place)
        .map(({ id }) => id)
        .join(', ')}`,
  );
}

/** Results without a value of their own that all refer to one other check for the same reason: they are told together; one with a waiver alone, with it. */
function referredResults(results: readonly Result[]): readonly Result[] {
  const refers = ({ verdict, reason = '', waiver }: Result): boolean =>
    verdict === 'not assessed' && waiver === undefined && /: see [a-z-]+$/.test(reason);
  return results.filter((result) => refers(result) && results.some((other) => other !== result && other.reason === result.reason));
}

function referredLines({ results, width }: { results: readonly Result[]; width: number }): readonly string[] {
  return openReasons(results).flatMap(({ ids, reason }) => [
    '',
    ...hanging({ text: `not assessed: ${reason}`, first: '  ', width }),
    ...hanging({ text: ids.join(', '), first: indent, width }),
  ]);
}

/** What the sources of those ratings mean. */
function sourceLines({ report, width }: { report: ReviewReport; width: number }): readonly string[] {
  const words = sourceWords(unverifiedRatings(report.ratings).map(({ rating }) => rating.source));
  return words === '' ? [] : hanging({ text: words, first: `${indent}  `, width });
}

/** Parts with their results: gravest part last, gravest result last within it. */
function groups(results: readonly Result[]): readonly { part: string; results: readonly Result[] }[] {
  const rank = ({ verdict }: Result): number => verdicts.indexOf(verdict);
  return subjectParts
    .map((part) => ({ part, results: results.filter((result) => result.part === part).toSorted((a, b) => rank(a) - rank(b)) }))
    .filter((group) => group.results.length > 0)
    .toSorted((a, b) => rank(a.results.at(-1)!) - rank(b.results.at(-1)!));
}

function resultLines({
  result,
  style,
  paint,
  idWidth,
}: {
  result: Result;
  style: TerminalStyle;
  paint: (verdict: Verdict, text: string) => string;
  idWidth: number;
}): readonly string[] {
  const { verdict, id, remedy, reason } = result;
  const rest = `  ${id.padEnd(idWidth)}  ${comparison(result)}`.trimEnd();
  const plain = `${indent}${verdict.padEnd(verdictWidth)}${rest}`;
  const first = `${indent}${paint(verdict, verdict.padEnd(verdictWidth))}${rest}`;
  const deep = ' '.repeat(indent.length + verdictWidth + 2);
  const detail = (text: string, label = ''): readonly string[] => hanging({ text, first: `${deep}${label}`, width: style.width });
  const warns = warnsWords(result);
  if (verdict === 'pass') {
    const fits = plain.length + 2 + result.case.length <= style.width;
    return [
      fits ? `${first}  ${result.case}` : first,
      ...(fits ? [] : detail(result.case)),
      ...(style.all ? result.basis.flatMap((line) => detail(line)) : []),
    ];
  }
  return [
    first,
    ...detail(whereWords(result)),
    ...(reason === undefined ? [] : detail(reason)),
    ...(warns === undefined ? [] : detail(warns)),
    ...result.basis.flatMap((line) => detail(line)),
    `${deep}${placeWords(result)}`,
    ...(remedy === undefined ? [] : detail(remedy, 'change: ')),
    ...waiverWords(result).flatMap((words) => detail(words)),
  ];
}

function summaryLines({
  report,
  paint,
  width,
}: {
  report: ReviewReport;
  paint: (verdict: Verdict, text: string) => string;
  width: number;
}): readonly string[] {
  const verdict = gravestVerdict(report.results);
  const gravest = report.results.findLast((result) => result.verdict === verdict);
  const failed = report.results.filter((result) => result.verdict === 'fail').map(({ id }) => id);
  return [
    ...(failed.length === 0 ? [] : hanging({ text: failed.join(', '), first: 'failed: ', width })),
    summaryLine({ report, paint }),
    `next: tankproof explain ${verdict === 'pass' ? 'latch-up' : (gravest?.id ?? '')}`.trimEnd(),
  ];
}

function summaryLine({ report, paint }: { report: ReviewReport; paint: (verdict: Verdict, text: string) => string }): string {
  const verdict = gravestVerdict(report.results);
  return `${countWords(report.results)}: ${paint(verdict, verdict)}${waivedWords(report.results)}`;
}
