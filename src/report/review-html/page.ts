import type { Result } from '../../checks/result.ts';
import { escaped } from '../page-html.ts';
import { waivedWords } from '../waiver-words.ts';
import { countWords, gravestVerdict } from '../review-report.ts';
import { shareOfLimit } from './limit-share.ts';
import { isReviewed, type FormatOptions, type Reviewed } from '../reviewed.ts';
import { projectSection, refusalHtml } from './project-section.ts';
import { notesHtml, onlyHtml } from './run-notes.ts';
import { resultPhrase } from './result-phrase.ts';
import { sliderScript } from './slider-script.ts';
import { reviewStyle } from './style.ts';
import { markSymbols, refusedTag, verdictTag } from './verdict-tag.ts';

/**
 * Reviews as one HTML document that needs nothing else: no network, no file beside it, no script but the one that moves the bars. Of
 * several files an overview comes first.
 */
export function reviewHtml(reviewed: readonly Reviewed[], { version, sha256, notes }: FormatOptions): string {
  const [only] = reviewed;
  const isSingle = reviewed.length === 1 && only !== undefined;
  const title = isSingle ? titleOf(only) : `Review of ${reviewed.length} projects`;
  const policy = `default-src 'none'; script-src 'sha256-${sha256(sliderScript, 'base64')}'; style-src 'sha256-${sha256(reviewStyle, 'base64')}'; base-uri 'none'; form-action 'none'`;
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta name="generator" content="tankproof ${escaped(version)}">`,
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(title)}</title>`,
    `<style>${reviewStyle}</style>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#content">to the content</a>',
    markSymbols,
    `<header><h1><bdi>${escaped(title)}</bdi></h1>${isSingle ? fileLine(only) : ''}</header>`,
    '<main id="content">',
    ...(isSingle ? [bodyOf({ one: only, notes, sha256, prefix: '', level: 2 })] : severalFiles({ reviewed, notes, sha256 })),
    '</main>',
    `<footer><p>Reviewed with tankproof ${escaped(version)}. Computed figures: they do not replace measurement, local codes or a licensed practitioner.</p></footer>`,
    `<script>${sliderScript}</script>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function titleOf(one: Reviewed): string {
  return isReviewed(one) ? one.report.title : one.file;
}

function fileLine({ file }: Reviewed): string {
  return `<p class="file"><bdi>${escaped(file)}</bdi></p>`;
}

function bodyOf({
  one,
  notes,
  ...rest
}: {
  one: Reviewed;
  notes: readonly string[];
  sha256: FormatOptions['sha256'];
  prefix: string;
  level: number;
}): string {
  if (isReviewed(one)) return projectSection({ report: one.report, notes, ...rest });
  return refusalHtml(one.problems) + notesHtml(notes);
}

function severalFiles({
  reviewed,
  notes,
  sha256,
}: {
  reviewed: readonly Reviewed[];
  notes: readonly string[];
  sha256: FormatOptions['sha256'];
}): readonly string[] {
  const only = reviewed.flatMap((one) => (isReviewed(one) ? (one.report.only ?? []) : []));
  const columns = ['project', 'file', 'verdict', 'checks', 'closest to its limit'].map((name) => `<th scope="col">${name}</th>`).join('');
  return [
    '<section aria-labelledby="overview"><h2 id="overview">Overview</h2>',
    onlyHtml(only),
    notesHtml(notes),
    `<div class="scroll" tabindex="0" role="group" aria-label="Overview of the projects"><table><caption>Projects in the order of this page</caption><thead><tr>${columns}</tr></thead><tbody>${reviewed.map(overviewRow).join('\n')}</tbody></table></div></section>`,
    ...reviewed.map(
      (one, i) =>
        `<section class="project" aria-labelledby="p${i + 1}"><h2 id="p${i + 1}"><bdi>${escaped(titleOf(one))}</bdi></h2>${fileLine(one)}\n${bodyOf({ one, notes: [], sha256, prefix: `p${i + 1}-`, level: 3 })}\n</section>`,
    ),
  ];
}

function overviewRow(one: Reviewed, index: number): string {
  const head = `<tr><th scope="row"><a href="#p${index + 1}"><bdi>${escaped(titleOf(one))}</bdi></a></th><td><bdi>${escaped(one.file)}</bdi></td>`;
  if (!isReviewed(one)) return `${head}<td>${refusedTag}</td><td></td><td></td></tr>`;
  const { results } = one.report;
  return `${head}<td>${verdictTag(gravestVerdict(results))}</td><td>${escaped(`${countWords(results)}${waivedWords(results)}`)}</td><td>${escaped(closestWords(results))}</td></tr>`;
}

/** The check that uses most of its limit. */
function closestWords(results: readonly Result[]): string {
  const closest = results.reduce<Result | undefined>(
    (a, b) => ((shareOfLimit(b) ?? -1) > (a === undefined ? -1 : (shareOfLimit(a) ?? -1)) ? b : a),
    undefined,
  );
  return closest === undefined ? 'none has a figure' : `${closest.id}: ${resultPhrase(closest)}`;
}
