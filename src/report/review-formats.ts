import { reviewHtml } from './review-html/page.ts';
import { reviewJsonText } from './review-json.ts';
import { reviewMarkdown } from './review-markdown.ts';
import type { ReviewFormat } from './reviewed.ts';

/** The formats of a review, by the ending of the file; `.sarif.json` and the like before `.json`. An ending that is not here is refused. */
export const reviewFormats: Readonly<Record<string, ReviewFormat>> = {
  '.json': reviewJsonText,
  '.md': reviewMarkdown,
  '.html': reviewHtml,
};
