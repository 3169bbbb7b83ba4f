import { dirname, isAbsolute, join } from 'node:path';
import { existsSync } from 'node:fs';
import type { PartsLibrary } from '../parts/library.ts';
import { partKinds, type PartKind } from '../parts/part.ts';
import { InputError } from '../source/diagnostic.ts';
import { compiledPart } from './compiled.ts';
import { namesIn, readText } from './files.ts';

/** A folder of part files, on the disk or in a revision. */
export interface PartsFolder {
  readonly path: string;
  /** Names of what lies in it, or in the folder of a kind in it; nothing where there is no such folder. */
  readonly names: (kind?: PartKind) => readonly string[];
  readonly text: (file: { kind: PartKind; file: string }) => { path: string; text: string };
}

/** A folder of part files on the disk. */
export function diskFolder(path: string): PartsFolder {
  return {
    path,
    names: (kind) => {
      if (kind === undefined) return namesIn(path);
      return existsSync(join(path, kind)) ? namesIn(join(path, kind)) : [];
    },
    text: ({ kind, file }) => ({ path: join(path, kind, file), text: readText(join(path, kind, file)) }),
  };
}

/** A folder that a project names, on the disk. */
export function folderBeside({ projectPath, folder }: { projectPath: string; folder: string }): PartsFolder {
  return diskFolder(isAbsolute(folder) ? folder : join(dirname(projectPath), folder));
}

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
  return libraryOf({ root, own: folders.map((folder) => folderBeside({ projectPath, folder })) });
}

/**
 * Part files of folders, then those that come with the tool; the first folder that has a name wins.
 *
 * @param root  of the installed tool
 * @param own   folders of the project
 * Errors: InputError where one of them cannot be read or holds no folder of a kind of part.
 */
export function libraryOf({ root, own }: { root: string; own: readonly PartsFolder[] }): PartsLibrary {
  for (const folder of own) {
    const names = folder.names();
    if (partKinds.some((kind) => names.includes(kind))) continue;
    throw new InputError([
      { id: 'no-parts', message: `${folder.path} holds no folder of parts`, help: `name a folder with ${partKinds.join(', ')} in it` },
    ]);
  }
  const shipped = diskFolder(join(root, 'parts-db'));
  const all = [...own, shipped];
  const listed = new Map<PartKind, ReadonlyMap<string, PartsFolder>>();
  const foldersOf = (kind: PartKind): ReadonlyMap<string, PartsFolder> => {
    const known = listed.get(kind) ?? foldersByName({ folders: all, kind });
    listed.set(kind, known);
    return known;
  };
  return {
    names: (kind) => [...foldersOf(kind).keys()],
    text: (kind, name) =>
      foldersOf(kind)
        .get(name)
        ?.text({ kind, file: `${name}.yaml` }),
    ready: (kind, name) => (foldersOf(kind).get(name) === shipped ? compiledPart({ root, kind, name }) : undefined),
  };
}

function foldersByName({ folders, kind }: { folders: readonly PartsFolder[]; kind: PartKind }): ReadonlyMap<string, PartsFolder> {
  const found = new Map<string, PartsFolder>();
  for (const folder of folders) {
    for (const file of folder.names(kind)) {
      const name = file.endsWith('.yaml') ? file.slice(0, -'.yaml'.length) : undefined;
      if (name !== undefined && !found.has(name)) found.set(name, folder);
    }
  }
  return found;
}
