import { statSync } from 'node:fs';
import { relative } from 'node:path';
import type { LibraryOpener } from '../project/read-project.ts';
import { InputError } from '../source/diagnostic.ts';
import { isPattern } from '../source/path-pattern.ts';
import { readText } from './files.ts';
import { gitSource, isGitName } from './git-source.ts';
import { partsInFolders } from './parts-folders.ts';
import { namedFiles } from './project-files.ts';

/** A project file, wherever it is read from. */
export interface ProjectSource {
  /** As it is told, and as positions in it have it. */
  readonly path: string;
  /** Errors: InputError where it cannot be read. */
  readonly text: () => string;
  readonly openLibrary: LibraryOpener;
  /** Where it lies, or would, from the working folder: waivers go by that. */
  readonly place: string;
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
  const help = 'a project file is a YAML file with a key `tankproof`';
  throw new InputError([{ id: 'no-project', message: `${name} is a folder without a project file in it`, help }]);
}

function onDisk({ path, root }: { path: string; root: string }): NamedProjects {
  const source = (file: string): ProjectSource => ({
    path: file,
    place: file,
    text: () => readText(file),
    openLibrary: (folders) => partsInFolders({ root, projectPath: file, folders }),
    foreign: () => [],
  });
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined && isPattern(path)) throw patternRefused(path);
  if (!found?.isDirectory()) return { kind: 'file', source: source(path) };
  const { files } = namedFiles([path]);
  const problems = files.flatMap((file) => (typeof file === 'string' ? [] : file.problems));
  if (problems.length > 0) throw new InputError(problems);
  const projects = files.flatMap((file) => (typeof file === 'string' ? [file] : []));
  return { kind: 'folder', sources: new Map(projects.map((file) => [relative(path, file), source(file)])) };
}

function patternRefused(path: string): InputError {
  const message = `${path} is a pattern; two versions are files, folders or git:REV:PATH`;
  return new InputError([{ id: 'usage', message, help: 'name the folder: all project files in it and below are compared' }]);
}
