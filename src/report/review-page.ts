import { verdicts } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { faultLines } from './fault-lines.ts';
import { operatingSentences } from './operating-lines.ts';
import type { Block, Page } from './page.ts';
import { ratingLines } from './rating-lines.ts';
import { oneLine, room } from './result-words.ts';
import { gravestVerdict, unverifiedRatings, verdictCounts, type ReviewReport } from './review-report.ts';
import { waiverWords } from './waiver-words.ts';
import { isReviewed, outcomeWords, type FormatOptions, type RefusedFile, type Reviewed } from './reviewed.ts';

/** A review of one or several files as a page: the table of the files, then of each what needs a look, gravest first. */
export function reviewPage(reviewed: readonly Reviewed[], { version, all, notes }: FormatOptions): Page {
  const [first] = reviewed;
  const title = reviewed.length === 1 && first !== undefined ? first.file : `${reviewed.length} files`;
  return {
    title: `tankproof: ${title}: ${outcomeWords(reviewed)}`,
    blocks: [
      filesTable(reviewed),
      ...(notes.length === 0 ? [] : [{ kind: 'list' as const, items: notes }]),
      ...reviewed.flatMap((one) => (isReviewed(one) ? reportBlocks({ report: one.report, all }) : refusalBlocks(one))),
      { kind: 'paragraph', text: `tankproof ${version}` },
    ],
  };
}

function filesTable(reviewed: readonly Reviewed[]): Block {
  return {
    kind: 'table',
    caption: 'files, in the order in which they were named',
    columns: ['file', 'title', 'verdict', 'failed', 'not assessed', 'warned', 'passed'],
    rows: reviewed.map((one) => {
      if (!isReviewed(one)) return [one.file, '', 'could not run', '', '', '', ''];
      const counts = verdictCounts(one.report.results);
      const numbers = [counts.fail, counts['not assessed'], counts.warn, counts.pass].map(String);
      return [one.file, oneLine(one.report.title), gravestVerdict(one.report.results), ...numbers];
    }),
  };
}

function refusalBlocks({ file, problems }: RefusedFile): readonly Block[] {
  return [
    { kind: 'heading', text: `${file}: could not run` },
    {
      kind: 'list',
      items: problems.map(({ id, message, help, at }) =>
        [
          `${message} [${id}]`,
          ...(at === undefined ? [] : [`${at.path}:${at.line}:${at.column}`]),
          ...(help === undefined ? [] : [help]),
        ].join('; '),
      ),
    },
  ];
}

function reportBlocks({ report, all }: { report: ReviewReport; all: boolean }): readonly Block[] {
  const graver = (a: Result, b: Result): number => verdicts.indexOf(b.verdict) - verdicts.indexOf(a.verdict);
  const told = report.results.filter(({ verdict }) => all || verdict !== 'pass').toSorted(graver);
  const passed = report.results.filter(({ verdict }) => verdict === 'pass');
  const listed = (caption: string, items: readonly string[]): readonly Block[] =>
    items.length === 0
      ? []
      : [
          { kind: 'paragraph', text: caption },
          { kind: 'list', items },
        ];
  return [
    { kind: 'heading', text: `${report.file}: ${gravestVerdict(report.results)}` },
    { kind: 'paragraph', text: oneLine(report.title) },
    { kind: 'list', items: operatingSentences(report).map(({ load, words }) => `${load}: ${words}`) },
    ...(told.length === 0 ? [] : [resultsTable(told)]),
    ...(all || passed.length === 0
      ? []
      : [{ kind: 'paragraph' as const, text: `${passed.length} passed: ${passed.map(({ id }) => id).join(', ')}` }]),
    ...listed('Single faults, in closed form:', faultLines(report.faults ?? [])),
    ...listed('Assumed:', report.assumptions),
    ...listed('Ratings not from a data sheet; confirm them for the part in hand:', ratingLines(unverifiedRatings(report.ratings))),
    ...listed('Cautions:', report.cautions),
  ];
}

function resultsTable(results: readonly Result[]): Block {
  return {
    kind: 'table',
    caption: 'at the worst load and corner of the tolerances',
    columns: ['check', 'verdict', 'value', 'limit', 'margin', 'where and why', 'change', 'place'],
    rows: results.map((result) => {
      const { id, verdict, value, limit, dimension, sense, subject, case: where, reason, basis, remedy, at } = result;
      const number = (si: number | null): string => (si === null ? '' : formatQuantity({ value: si, dimension }));
      const against = limit === null ? '' : `${sense === 'at-most' ? 'at most' : 'at least'} ${number(limit)}`;
      const why = [
        ...waiverWords(result),
        `${subject}: ${where}`,
        ...(reason === undefined ? [] : [reason]),
        ...(verdict === 'pass' ? [] : basis),
      ].join('; ');
      return [id, verdict, number(value), against, room(result), why, remedy ?? '', `${at.path}:${at.line}:${at.column}`];
    }),
  };
}
