import type { Verdict } from '../../checks/judge.ts';
import { sourceWords } from '../../parts/source-words.ts';
import type { Diagnostic } from '../../source/diagnostic.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { faultLines } from '../fault-lines.ts';
import { escaped } from '../page-html.ts';
import { ratingLines } from '../rating-lines.ts';
import { waivedWords } from '../waiver-words.ts';
import { countWords, gravestVerdict, unverifiedRatings, type ReviewReport } from '../review-report.ts';
import type { FormatOptions } from '../reviewed.ts';
import { barsHtml } from './bars.ts';
import { circuitDrawing } from './circuit-drawing.ts';
import { marginChart } from './margin-chart.ts';
import { everyCheckHtml, notesHtml, onlyHtml } from './run-notes.ts';
import { checkTables, listHtml, openResults, quantityTable } from './tables.ts';
import { refusedTag, verdictClasses, verdictTag } from './verdict-tag.ts';
import { waveformsHtml } from './waveforms.ts';

/** The verdict of the whole, boxed in its colour. */
function summary({ verdict, words }: { verdict: Verdict; words: string }): string {
  return `<p class="summary ${verdictClasses[verdict]}">${verdictTag(verdict)} <span>${escaped(words)}</span></p>`;
}

/** Why a file could not be reviewed. */
export function refusalHtml(problems: readonly Diagnostic[]): string {
  const items = problems.map(({ id, message, help, at }) => {
    const place = at === undefined ? '' : `<p class="place">${escaped(`${at.path}:${at.line}:${at.column}`)}</p>`;
    return `<li>${escaped(message)} [${id}]${place}${help === undefined ? '' : `<p>help: ${escaped(help)}</p>`}</li>`;
  });
  return `<p class="summary fail">${refusedTag}</p><ul>${items.join('')}</ul>`;
}

/**
 * All that is said of one project, below its title.
 *
 * @param notes   of the run, where it is of this project alone
 * @param prefix  of the ids in this section
 * @param level   of its headings
 * Errors: RangeError for a report that was made without its sheet.
 */
export function projectSection({
  report,
  notes,
  sha256,
  prefix,
  level,
}: {
  report: ReviewReport;
  notes: readonly string[];
  sha256: FormatOptions['sha256'];
  prefix: string;
  level: number;
}): string {
  const { file, results, only, sheet } = report;
  if (sheet === undefined) throw new RangeError('a page is made of a report with its sheet');
  const closedForm = sheet.waveforms === undefined;
  const volts = formatQuantity({ value: sheet.outline.voltage, dimension: 'voltage' });
  const sections: readonly (readonly [id: string, title: string, body: string])[] = [
    ['cautions', 'Cautions', `<div class="cautions">${listHtml(report.cautions)}</div>`],
    ['open', 'What does not pass', openResults({ results, only, prefix })],
    ['circuit', `Circuit at ${volts}`, circuitDrawing({ outline: sheet.outline, results, prefix })],
    ['limits', 'Use against limit', everyCheckHtml(only) + barsHtml({ results, margins: sheet.margins, closedForm, prefix })],
    ['voltage', 'Margin against supply voltage', everyCheckHtml(only) + marginChart({ margins: sheet.margins, file, prefix })],
    ['waveforms', 'Switch-on and steady waveforms', waveformsHtml({ waveforms: sheet.waveforms, prefix })],
    ['nominal', `Nominal values at ${volts}`, quantityTable(report.quantities)],
    [
      'checks',
      `${only === undefined ? 'Every check' : 'The checks that were made'} at ${volts}: formula, inputs, source`,
      checkTables({ results, policies: sheet.policies, prefix, level: level + 1 }),
    ],
    ...(report.faults === undefined ? [] : [['faults', 'Single faults, in closed form', listHtml(faultLines(report.faults))] as const]),
    ['assumed', 'Assumed', listHtml(report.assumptions)],
    ['ratings', 'Ratings not from a data sheet: confirm them for the part in hand', ratingsHtml(report)],
  ];
  const links = sections.map(([id, title]) => `<li><a href="#${prefix}${id}">${escaped(title)}</a></li>`);
  return [
    summary({
      verdict: gravestVerdict(results),
      words: `${countWords(results)}${waivedWords(results)}${closedForm ? '; closed form only: no start passes' : ''}`,
    }),
    onlyHtml(only ?? []),
    notesHtml(notes),
    `<nav aria-label="Sections of ${escaped(report.title)}"><ul>${links.join('')}</ul></nav>`,
    ...sections.map(
      ([id, title, body]) =>
        `<section aria-labelledby="${prefix}${id}"><h${level} id="${prefix}${id}">${escaped(title)}</h${level}>\n${body}\n</section>`,
    ),
    `<p class="quiet">Data of the parts used: SHA-256 <code>${sha256(sheet.parts, 'hex')}</code></p>`,
  ].join('\n');
}

function ratingsHtml(report: ReviewReport): string {
  const ratings = unverifiedRatings(report.ratings);
  if (ratings.length === 0) return '<p>None: every rating used was read in a data sheet.</p>';
  return `${listHtml(ratingLines(ratings))}<p class="quiet">${escaped(sourceWords(ratings.map(({ rating }) => rating.source)))}</p>`;
}
