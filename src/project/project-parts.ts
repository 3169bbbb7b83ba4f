import { assemblePart } from '../parts/assemble-part.ts';
import { kindName } from '../parts/kind-name.ts';
import type { PartsLibrary } from '../parts/library.ts';
import { partContradictions } from '../parts/part-contradictions.ts';
import { partKinds } from '../parts/part.ts';
import type { PartByKind, PartKind } from '../parts/part.ts';
import { readPart } from '../parts/read-part.ts';
import { textUnder } from '../parts/rating-of.ts';
import type { Diagnostic, Outcome } from '../source/diagnostic.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import type { Location } from '../source/location.ts';
import { schemaUnder } from '../source/json-schema.ts';
import { quoted } from '../source/quoted.ts';
import { entryOf } from '../source/source-tree.ts';
import type { MapNode } from '../source/source-tree.ts';
import type { ProjectReading } from './project-reading.ts';
import { projectSchema } from './project-schema.ts';

/** Names that a help line can list. */
const mostNamesListed = 8;

function unknownPart({
  name,
  kind,
  library,
  path,
  at,
}: {
  name: string;
  kind: PartKind;
  library: PartsLibrary;
  path: string;
  at: Location;
}): Diagnostic {
  const elsewhere = partKinds.find((other) => other !== kind && library.names(other).includes(name));
  if (elsewhere !== undefined)
    return {
      id: 'wrong-kind',
      message: `${quoted(name)} is a ${kindName(elsewhere)}, not a ${kindName(kind)}`,
      label: `expected a ${kindName(kind)}`,
      help: `\`${path}\` needs a ${kindName(kind)}`,
      at,
    };
  const names = library.names(kind);
  const list = names.length > 0 && names.length <= mostNamesListed ? `known: ${names.join(', ')}` : undefined;
  const none = kind === 'zeners' && /^(?:none|no)$/i.test(name) ? `leave the key out where there is none` : undefined;
  return {
    id: 'unknown-part',
    message: `no ${kindName(kind)} is called ${quoted(name)}`,
    label: 'unknown part',
    help:
      none ??
      didYouMeanHelp({ word: name, names }) ??
      list ??
      `list the names with \`tankproof parts list --kind ${kind}\`, or write the ratings inline`,
    at,
  };
}

function namedPart<K extends PartKind>({
  name,
  kind,
  path,
  library,
  at,
}: {
  name: string;
  kind: K;
  path: string;
  library: PartsLibrary;
  at: Location;
}): Outcome<PartByKind[K]> {
  // only a listed name is looked up, so that no name can lead out of the parts folders
  const listed = library.names(kind).includes(name);
  const ready = listed ? library.ready?.(kind, name) : undefined;
  if (ready !== undefined) return { ok: true, value: { ...(ready as PartByKind[K]), where: at } };
  const file = listed ? library.text(kind, name) : undefined;
  if (!file) return { ok: false, problems: [unknownPart({ name, kind, library, path, at })] };
  return readPart({ ...file, kind, name, where: at });
}

function inlinePart<K extends PartKind>({
  node,
  kind,
  reading,
}: {
  node: MapNode;
  kind: K;
  reading: ProjectReading;
}): Outcome<PartByKind[K]> {
  const { quantities } = reading;
  const name = textUnder(node, 'title') ?? `inline ${kindName(kind)}`;
  const part = assemblePart({ node, kind, name, where: node.at, reading: { quantities, source: 'project' } });
  const problems = partContradictions({ part, node, quantities });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: part };
}

/**
 * The part that a key of a project file names or describes.
 *
 * @param path     dotted path of the key
 * @param kind     of part that belongs there
 * @param reading  the project file
 * @param library  part files
 * @returns the part, or what is wrong with the name or the part; undefined where the key holds neither name nor mapping, which is a
 *   matter of the file's structure
 */
export function partAt<K extends PartKind>({
  path,
  kind,
  reading,
  library,
}: {
  path: string;
  kind: K;
  reading: ProjectReading;
  library: PartsLibrary;
}): Outcome<PartByKind[K]> | undefined {
  const node = reading.node(path);
  if (node?.kind === 'map') return inlinePart({ node, kind, reading });
  const name = reading.text(path);
  if (node === undefined || name === undefined || name === '') return undefined;
  return namedPart({ name, kind, path, library, at: node.at });
}

/** Ratings that may stand beside `arrangement`; any other key is a matter of the file's structure. */
const inlineRatings: ReadonlySet<string> = new Set(Object.keys(schemaUnder(projectSchema, 'chokes')?.schema.properties ?? {}));
const isInlineRating = (key: string): boolean => inlineRatings.has(key) && key !== 'arrangement' && key !== 'part';

/**
 * The choke of a project file: a part, or ratings beside `arrangement`.
 *
 * @param reading  the project file
 * @param library  part files
 * @returns the choke, or what is wrong; undefined where the structure of the file is at fault
 */
export function chokeOf({
  reading,
  library,
}: {
  reading: ProjectReading;
  library: PartsLibrary;
}): Outcome<PartByKind['chokes']> | undefined {
  const node = reading.node('chokes');
  if (node?.kind !== 'map') return undefined;
  const inline = node.entries.find(({ key }) => isInlineRating(key));
  const part = entryOf(node, 'part');
  if (part && inline) {
    const message = `\`chokes\` has both a \`part\` and ${quoted(inline.key)}`;
    return { ok: false, problems: [{ id: 'contradiction', message, help: 'keep the part, or the ratings', at: inline.keyAt }] };
  }
  if (part) return partAt({ path: 'chokes.part', kind: 'chokes', reading, library });
  if (!entryOf(node, 'inductance')) {
    const help = 'add `part: choke-100u-10a-sendust` or `inductance: 100 uH`';
    const at = reading.source.locateKey('chokes');
    return { ok: false, problems: [{ id: 'missing-key', message: '`chokes` needs a `part` or an `inductance`', help, at }] };
  }
  return inlinePart({ node, kind: 'chokes', reading });
}
