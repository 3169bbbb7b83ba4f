import { junitXml } from './junit.ts';
import { reviewHtml } from './review-html/page.ts';
import { reviewJsonText } from './review-json.ts';
import { reviewMarkdown } from './review-markdown.ts';
import type { ReviewFormat } from './reviewed.ts';
import { sarif } from './sarif.ts';

/** The formats of a review, by the ending of the file; `.sarif.json` before `.json`. An ending that is not here is refused. */
export const reviewFormats: Readonly<Record<string, ReviewFormat>> = {
  '.sarif.json': sarif,
  '.sarif': sarif,
  '.json': reviewJsonText,
  '.xml': junitXml,
  '.md': reviewMarkdown,
  '.html': reviewHtml,
};
