import { pageMarkdown } from './page-markdown.ts';
import { reviewPage } from './review-page.ts';
import type { FormatOptions, Reviewed } from './reviewed.ts';

/** A review as Markdown, for a comment or a page of a wiki. */
export function reviewMarkdown(reviewed: readonly Reviewed[], options: FormatOptions): string {
  return `<!-- written by tankproof -->\n\n${pageMarkdown(reviewPage(reviewed, options))}`;
}
