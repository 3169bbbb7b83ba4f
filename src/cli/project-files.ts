import { realpathSync, statSync, type Stats } from 'node:fs';
import { join, resolve, sep } from 'node:path';
import type { RefusedFile } from '../report/reviewed.ts';
import { InputError, type Diagnostic } from '../source/diagnostic.ts';
import { alternatives, isPattern, segmentMatches } from '../source/path-pattern.ts';
import { namesIn, readText } from './files.ts';
import { isPassedOver, isProjectFile, isProjectName } from './project-names.ts';

/** The files that a command line names, in its order; what could not be looked into stands in its place among them. */
export interface NamedFiles {
  readonly files: readonly (string | RefusedFile)[];
  /** Files of folders and patterns that are no project files. */
  readonly skipped: readonly string[];
}

/**
 * The project files that paths, folders and patterns name: a file that is named is taken as it is; of a folder all `*.yaml` and `*.yml` in it
 * and below that have a key `tankproof`; of a pattern all files that match it and have. Each file once, at its first place. Names in a
 * folder are in the order of their code units. Links to folders are followed, each folder once.
 *
 * @param paths  as they were given
 */
export function namedFiles(paths: readonly string[]): NamedFiles {
  const files = new Map<string, string | RefusedFile>();
  const skipped = new Map<string, string>();
  const take = (found: Found): void => {
    if (typeof found !== 'string') files.set(`\0${found.file}`, found);
    else if (!files.has(resolve(found))) files.set(resolve(found), found);
  };
  for (const path of paths) {
    const kind = kindOf(path);
    if (kind?.isDirectory() !== true && (kind !== undefined || !isPattern(path))) {
      take(path);
      continue;
    }
    const found = kind === undefined ? matching(path) : yamlBelow(path);
    const sorted = found.map((one) => (typeof one === 'string' ? projectOrNot(one) : one));
    for (const one of sorted)
      if ('skipped' in one) skipped.set(resolve(one.skipped), one.skipped);
      else take('project' in one ? one.project : one);
    if (sorted.every((one) => 'skipped' in one))
      take({ file: path, problems: [nothingFound({ path, isFolder: kind !== undefined, found })] });
  }
  return { files: [...files.values()], skipped: [...skipped.entries()].flatMap(([key, path]) => (files.has(key) ? [] : [path])) };
}

/** A path, or a folder that could not be read. */
type Found = string | RefusedFile;

function nothingFound({ path, isFolder, found }: { path: string; isFolder: boolean; found: readonly Found[] }): Diagnostic {
  const what = 'a YAML file with a key `tankproof`';
  if (isFolder) return { id: 'no-project', message: `${path} is a folder without a project file in it`, help: `a project file is ${what}` };
  if (found.length === 0)
    return { id: 'no-such-file', message: `${path} matches no file`, help: 'check the pattern, and put it in quotes' };
  return {
    id: 'no-project',
    message: `${path} matches ${found.length} files, and none is a project file`,
    help: `a project file is ${what}`,
  };
}

/** Whether a file that was found, not named, is a project file; one that cannot be read may be. */
function projectOrNot(path: string): { readonly project: string } | { readonly skipped: string } | RefusedFile {
  try {
    return isProjectFile(() => readText(path)) ? { project: path } : { skipped: path };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { file: path, problems: error.problems };
  }
}

/** Names in a folder, or why there are none. */
interface Entries {
  readonly names: readonly string[];
  readonly refused: readonly RefusedFile[];
}

function entries(folder: string): Entries {
  try {
    return { names: namesIn(folder), refused: [] };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { names: [], refused: [{ file: folder, problems: error.problems }] };
  }
}

/** YAML files in a folder and below it; a folder that was seen before, under whatever name, holds none. */
function yamlBelow(folder: string, seen = new Set<string>()): readonly Found[] {
  const { names, refused } = visited({ folder, seen });
  return [
    ...refused,
    ...names.flatMap((name) => {
      const path = join(folder, name);
      if (kindOf(path)?.isDirectory() === true) return yamlBelow(path, seen);
      return isProjectName(name) ? [path] : [];
    }),
  ];
}

/** Names of one's own in a folder; none where it was seen before. */
function visited({ folder, seen }: { folder: string; seen: Set<string> }): Entries {
  const { names, refused } = entries(folder);
  if (refused.length > 0) return { names, refused };
  const real = realpathSync(folder);
  if (seen.has(real)) return { names: [], refused };
  seen.add(real);
  return { names: names.filter((name) => !isPassedOver(name)), refused };
}

/** What a path leads to; undefined where to nothing. */
function kindOf(path: string): Stats | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch {
    // links in a circle, say: reading it says what is wrong
    return undefined;
  }
}

/** What matches a pattern. */
function matching(pattern: string): readonly Found[] {
  const slashed = sep === '/' ? pattern : pattern.replaceAll(sep, '/');
  return alternatives(slashed).flatMap((one) => below({ folder: '', segments: one.split('/') }));
}

/** What matches the segments of a pattern in a folder, whose path ends with a slash or is empty. */
function below({ folder, segments: [first = '', ...rest] }: { folder: string; segments: readonly string[] }): readonly Found[] {
  const isLast = rest.length === 0;
  if (first === '**') return anywhere({ folder, segments: isLast ? ['*'] : rest, seen: new Set() });
  if (!isPattern(first)) {
    // of a path from the root, the first segment is empty
    const path = `${folder}${first}`;
    if (!isLast) return below({ folder: `${path}/`, segments: rest });
    return first !== '' && kindOf(path)?.isFile() === true ? [path] : [];
  }
  const parent = folder === '' ? '.' : folder;
  if (kindOf(parent)?.isDirectory() !== true) return [];
  const { names, refused } = entries(parent);
  const matched = names.filter((name) => segmentMatches({ name, pattern: first })).map((name) => `${folder}${name}`);
  return [
    ...refused,
    ...matched.flatMap((path) => {
      const isFolder = kindOf(path)?.isDirectory() === true;
      if (isLast) return isFolder ? [] : [path];
      return isFolder ? below({ folder: `${path}/`, segments: rest }) : [];
    }),
  ];
}

/** What matches the segments in a folder or in any below it. */
function anywhere({ folder, segments, seen }: { folder: string; segments: readonly string[]; seen: Set<string> }): readonly Found[] {
  const parent = folder === '' ? '.' : folder;
  if (kindOf(parent)?.isDirectory() !== true) return [];
  const before = seen.size;
  const { names, refused } = visited({ folder: parent, seen });
  if (refused.length > 0 || seen.size === before) return refused;
  const folders = names.map((name) => `${folder}${name}`).filter((path) => kindOf(path)?.isDirectory() === true);
  return [...below({ folder, segments }), ...folders.flatMap((path) => anywhere({ folder: `${path}/`, segments, seen }))];
}
