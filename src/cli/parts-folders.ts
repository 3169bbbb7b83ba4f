import { dirname, isAbsolute, join } from 'node:path';
import { existsSync } from 'node:fs';
import type { PartsLibrary } from '../parts/library.ts';
import { partKinds, type PartKind } from '../parts/part.ts';
import { InputError } from '../source/diagnostic.ts';
import { compiledPart } from './compiled.ts';
import { namesIn, readText } from './files.ts';

/**
 * Part files of the project's own folders, then those that come with the tool; the first folder that has a name wins.
 *
 * @param root         of the installed tool
 * @param projectPath  of the project file, which its folders are relative to
 * @param folders      as the project names them
 * Errors: InputError where a folder cannot be read or holds no folder of a kind of part.
 */
export function partsInFolders({
  root,
  projectPath,
  folders,
}: {
  root: string;
  projectPath: string;
  folders: readonly string[];
}): PartsLibrary {
  const own = folders.map((folder) => (isAbsolute(folder) ? folder : join(dirname(projectPath), folder)));
  for (const folder of own) {
    const names = namesIn(folder);
    if (partKinds.some((kind) => names.includes(kind))) continue;
    throw new InputError([
      { id: 'no-parts', message: `${folder} holds no folder of parts`, help: `name a folder with ${partKinds.join(', ')} in it` },
    ]);
  }
  const all = [...own, join(root, 'parts-db')];
  const listed = new Map<PartKind, ReadonlyMap<string, string>>();
  const pathsOf = (kind: PartKind): ReadonlyMap<string, string> => {
    const known = listed.get(kind) ?? partPaths({ folders: all, kind });
    listed.set(kind, known);
    return known;
  };
  return {
    names: (kind) => [...pathsOf(kind).keys()],
    text: (kind, name) => {
      const path = pathsOf(kind).get(name);
      return path === undefined ? undefined : { path, text: readText(path) };
    },
    ready: (kind, name) =>
      pathsOf(kind).get(name) === join(root, 'parts-db', kind, `${name}.yaml`) ? compiledPart({ root, kind, name }) : undefined,
  };
}

function partPaths({ folders, kind }: { folders: readonly string[]; kind: PartKind }): ReadonlyMap<string, string> {
  const paths = new Map<string, string>();
  for (const folder of folders.map((parent) => join(parent, kind)).filter((candidate) => existsSync(candidate))) {
    for (const file of namesIn(folder)) {
      const name = file.endsWith('.yaml') ? file.slice(0, -'.yaml'.length) : undefined;
      if (name !== undefined && !paths.has(name)) paths.set(name, join(folder, file));
    }
  }
  return paths;
}
