import { readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { LibraryOpener } from '../project/read-project.ts';
import { InputError } from '../source/diagnostic.ts';
import { namesIn, readText } from './files.ts';
import { gitSource, isGitName } from './git-source.ts';
import { partsInFolders } from './parts-folders.ts';
import { isPassedOver, isProjectName, isProjectFile } from './project-names.ts';

/** A project file, wherever it is read from. */
export interface ProjectSource {
  /** As it is told, and as positions in it have it. */
  readonly path: string;
  /** Errors: InputError where it cannot be read. */
  readonly text: () => string;
  readonly openLibrary: LibraryOpener;
  /** Part folders that lie outside of what it is read from, told where they were used. */
  readonly foreign: () => readonly string[];
}

/** What one argument names: a project file, or the project files of a folder by their path in it. */
export type NamedProjects =
  | { readonly kind: 'file'; readonly source: ProjectSource }
  | { readonly kind: 'folder'; readonly sources: ReadonlyMap<string, ProjectSource> };

/**
 * The project file or files that an argument names: a file, a folder, or one of the two in a revision as `git:REV:path`.
 *
 * @param name  as written
 * @param root  of the installed tool
 * Errors: InputError where there is no such thing, or a folder holds no project file.
 */
export function namedProjects({ name, root }: { name: string; root: string }): NamedProjects {
  const named = isGitName(name) ? gitSource({ name, root }) : onDisk({ path: name, root });
  if (named.kind === 'file' || named.sources.size > 0) return named;
  const help = 'a project file ends in .yaml or .yml and has the key `tankproof` at its left edge';
  throw new InputError([{ id: 'no-project', message: `${name} holds no project file`, help }]);
}

function onDisk({ path, root }: { path: string; root: string }): NamedProjects {
  const source = (file: string): ProjectSource => ({
    path: file,
    text: () => readText(file),
    openLibrary: (folders) => partsInFolders({ root, projectPath: file, folders }),
    foreign: () => [],
  });
  if (!statSync(path, { throwIfNoEntry: false })?.isDirectory()) return { kind: 'file', source: source(path) };
  // the folder itself is read first, so that one that cannot be is said to be the one
  namesIn(path);
  const files = filesUnder(path).filter((file) => isProjectName(file));
  const projects = files.filter((file) => isProjectFile(() => readText(file)));
  return { kind: 'folder', sources: new Map(projects.map((file) => [relative(path, file), source(file)])) };
}

/** Files of a folder and of those in it, sorted; hidden folders and packages are passed over. */
function filesUnder(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true })
    .toSorted((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return isPassedOver(entry.name) ? [] : filesUnder(path);
      return entry.isFile() ? [path] : [];
    });
}
