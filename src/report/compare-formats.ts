import type { CompareFailure } from './compare-failures.ts';
import { compareJson } from './compare-json.ts';
import { comparePage } from './compare-page.ts';
import type { ComparedFiles } from './compared-files.ts';
import { pageMarkdown } from './page-markdown.ts';

/** What every format of a comparison is made from. */
interface Compared {
  readonly files: ComparedFiles;
  readonly failed: readonly CompareFailure[];
  /** Of the tool. */
  readonly version: string;
}

/** The formats of a comparison, by the ending of the file. */
export const compareFormats: Readonly<Record<string, (compared: Compared) => string>> = {
  '.md': (compared) => `<!-- written by tankproof -->\n\n${pageMarkdown(comparePage(compared))}`,
  '.json': (compared) => `${JSON.stringify(compareJson(compared), undefined, 2)}\n`,
};
