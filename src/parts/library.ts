import type { Part, PartKind } from './part.ts';

/** Part files by kind and name, wherever they are kept. */
export interface PartsLibrary {
  /** Names of all parts of a kind, without `.yaml`. */
  names(kind: PartKind): readonly string[];
  /** A part file and where it was found; undefined for a name that is not in the list. */
  text(kind: PartKind, name: string): { path: string; text: string } | undefined;
  /** A part that was read and checked when the tool was built; the library may know none. */
  ready?(kind: PartKind, name: string): Part | undefined;
}
