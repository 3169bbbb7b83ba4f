import type { Result } from '../../checks/result.ts';
import { escaped } from '../page-html.ts';
import { gravestVerdict } from '../review-report.ts';
import { shareOfLimit } from './limit-share.ts';
import { countWords, projectSection, refusalHtml, type SheetProject } from './project-section.ts';
import { resultPhrase } from './result-phrase.ts';
import { sliderScript } from './slider-script.ts';
import { reviewStyle } from './style.ts';
import { markSymbols, verdictTag } from './verdict-tag.ts';

/**
 * Reviews as one HTML document that needs nothing else: no network, no file beside it, no script but the one that moves the bars.
 *
 * @param projects  in the order of the page; of several an overview comes first
 * @param version   of the tool
 * @param sha256    of a text, in base64: the policy of the page names its own script and style by it, so that nothing else runs
 */
export function reviewHtml({
  projects,
  version,
  sha256,
}: {
  projects: readonly SheetProject[];
  version: string;
  sha256: (text: string) => string;
}): string {
  const [only] = projects;
  const isSingle = projects.length === 1 && only !== undefined;
  const title = isSingle ? titleOf(only) : `Review of ${projects.length} projects`;
  const policy = `default-src 'none'; script-src 'sha256-${sha256(sliderScript)}'; style-src 'sha256-${sha256(reviewStyle)}'; base-uri 'none'; form-action 'none'`;
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta name="generator" content="tankproof ${escaped(version)}">`,
    `<title>${escaped(title)}</title>`,
    `<style>${reviewStyle}</style>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#content">to the content</a>',
    markSymbols,
    `<header><h1><bdi>${escaped(title)}</bdi></h1>${isSingle ? fileLine(only) : ''}</header>`,
    '<main id="content">',
    ...(isSingle ? [bodyOf({ project: only, prefix: '', level: 2 })] : severalProjects(projects)),
    '</main>',
    `<footer><p>Reviewed with tankproof ${escaped(version)}. Computed figures: they do not replace measurement, local codes or a licensed practitioner.</p></footer>`,
    `<script>${sliderScript}</script>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function titleOf(project: SheetProject): string {
  return 'report' in project ? project.report.title : project.file;
}

function fileLine({ file }: SheetProject): string {
  return `<p class="file"><bdi>${escaped(file)}</bdi></p>`;
}

function bodyOf({ project, prefix, level }: { project: SheetProject; prefix: string; level: number }): string {
  return 'report' in project ? projectSection({ project, prefix, level }) : refusalHtml(project.problems);
}

function severalProjects(projects: readonly SheetProject[]): readonly string[] {
  const rows = projects.map((project, i) => {
    const link = `<th scope="row"><a href="#p${i + 1}"><bdi>${escaped(titleOf(project))}</bdi></a></th><td><bdi>${escaped(project.file)}</bdi></td>`;
    if (!('report' in project))
      return `<tr>${link}<td><span class="verdict fail"><svg class="mark" aria-hidden="true" focusable="false"><use href="#mark-fail"/></svg> <span class="word">could not run</span></span></td><td></td><td></td></tr>`;
    const { report } = project;
    return `<tr>${link}<td>${verdictTag(gravestVerdict(report.results))}</td><td>${escaped(countWords(report))}</td><td>${escaped(closestWords(report.results))}</td></tr>`;
  });
  return [
    '<section aria-labelledby="overview"><h2 id="overview">Overview</h2>',
    `<div class="scroll" tabindex="0" role="group" aria-label="Overview of the projects"><table><caption>Projects in the order of this page</caption><thead><tr><th scope="col">project</th><th scope="col">file</th><th scope="col">verdict</th><th scope="col">checks</th><th scope="col">closest to its limit</th></tr></thead><tbody>${rows.join('\n')}</tbody></table></div></section>`,
    ...projects.map(
      (project, i) =>
        `<section class="project" aria-labelledby="p${i + 1}"><h2 id="p${i + 1}"><bdi>${escaped(titleOf(project))}</bdi></h2>${fileLine(project)}\n${bodyOf({ project, prefix: `p${i + 1}-`, level: 3 })}\n</section>`,
    ),
  ];
}

/** The check that uses most of its limit. */
function closestWords(results: readonly Result[]): string {
  const closest = results.reduce<Result | undefined>(
    (a, b) => ((shareOfLimit(b) ?? -1) > (a === undefined ? -1 : (shareOfLimit(a) ?? -1)) ? b : a),
    undefined,
  );
  return closest === undefined ? 'none has a figure' : `${closest.id}: ${resultPhrase(closest)}`;
}
