import { reviewJsonText } from './review-json.ts';
import { reviewMarkdown } from './review-markdown.ts';
import type { ReviewFormat } from './reviewed.ts';

/** The formats of a review, by the ending of the file; `.sarif.json` and the like before `.json`. An ending that is not here is refused. */
export const reviewFormats: Readonly<Record<string, ReviewFormat>> = {
  '.json': reviewJsonText,
  '.md': reviewMarkdown,
  // '.html' goes here: a ReviewFormat of src/report/review-html, whose text begins as src/cli/output-files.ts expects of a file of ours
};
