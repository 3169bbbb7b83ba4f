import type { Result } from '../checks/result.ts';
import { changeWords, isSame, type ChangeWord, type Comparison } from '../studies/compare/comparison.ts';

/** One version of a project file. */
export interface ComparedVersion {
  readonly path: string;
  readonly title: string;
  readonly results: readonly Result[];
}

/** A project file before and after; `name` is its path in the folders that are compared, or of the file. */
export type ComparedFile = { readonly name: string } & (
  | { readonly kind: 'both'; readonly before: ComparedVersion; readonly after: ComparedVersion; readonly comparison: Comparison }
  | { readonly kind: 'added'; readonly after: ComparedVersion }
  | { readonly kind: 'removed' }
);

/** Every project file of two files or folders; every format is made from it. */
export interface ComparedFiles {
  /** As they were named. */
  readonly before: string;
  readonly after: string;
  readonly isFolder: boolean;
  readonly timed: boolean;
  readonly files: readonly ComparedFile[];
  /** Part folders of a revision that lie outside of it: what they hold is today's. */
  readonly foreign: readonly string[];
}

/** The gravest change of any file; one that was added counts as worse where a check of it does not pass. */
export function overallChange({ files }: Pick<ComparedFiles, 'files'>): ChangeWord {
  const words = new Set(files.map(changeOf));
  if (words.has('mixed')) return words.has('worse') ? 'worse' : 'mixed';
  return changeWords.find((word) => words.has(word)) ?? 'none';
}

function changeOf(file: ComparedFile): ChangeWord {
  if (file.kind === 'both') return file.comparison.change;
  return file.kind === 'added' && file.after.results.some(({ verdict }) => verdict !== 'pass') ? 'worse' : 'none';
}

/** Whether nothing but the writing of a file differs. */
export function isUnchanged(file: ComparedFile): boolean {
  return file.kind === 'both' && isSame(file.comparison);
}

/** What the change of a folder came to, in one line that begins with it. */
export function overallLine(files: ComparedFiles): string {
  const { length } = files.files;
  const told = files.files.filter((file) => !isUnchanged(file)).length;
  if (told === 0) return `no difference in ${length} project ${length === 1 ? 'file' : 'files'}`;
  const change = overallChange(files);
  return `${change === 'none' ? 'no difference in any verdict or margin' : change}: ${told} of ${length} project files differ`;
}
