import { join, relative } from 'node:path';
import { partKinds, type Part, type PartKind } from '../parts/part.ts';
import { readPart } from '../parts/read-part.ts';
import { InputError } from '../source/diagnostic.ts';
import { partsInFolders } from './parts-folders.ts';

/** A part and the file that it stands in. */
export interface ShelvedPart {
  readonly part: Part;
  readonly path: string;
}

/**
 * Every part of the given folders and of parts-db.
 *
 * @param root     of the installed tool
 * @param folders  of the user's own, relative to the working folder
 * @param kind     one kind only
 * @param beside   file that the folders are relative to in place of the working folder
 * Errors: InputError with what is wrong with the first file that cannot be read.
 */
export function partsOnShelf({
  root,
  folders,
  kind,
  beside = join(process.cwd(), 'any'),
}: {
  root: string;
  folders: readonly string[];
  kind: PartKind | undefined;
  beside?: string;
}): readonly ShelvedPart[] {
  const library = partsInFolders({ root, projectPath: beside, folders });
  return (kind === undefined ? partKinds : [kind]).flatMap((one) =>
    library.names(one).map((name): ShelvedPart => {
      const file = library.text(one, name);
      if (file === undefined) throw new Error(`${name} is listed and cannot be found`);
      const read = readPart({ ...file, kind: one, name });
      if (!read.ok) throw new InputError(read.problems);
      return { part: read.value, path: relative(process.cwd(), file.path) || file.path };
    }),
  );
}
