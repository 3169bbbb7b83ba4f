import type { PartsLibrary } from '../parts/library.ts';
import { quantityParser } from '../parts/quantity-parser.ts';
import { InputError } from '../source/diagnostic.ts';
import type { Diagnostic, Outcome } from '../source/diagnostic.ts';
import { inFileOrder } from '../source/file-order.ts';
import { notSaid } from '../source/not-said.ts';
import { readQuantities } from '../source/quantities.ts';
import { structureProblems } from '../source/structure.ts';
import { parseYaml } from '../source/yaml-source.ts';
import { assembleDesign, limitsOf } from './assemble-design.ts';
import type { DesignParts } from './assemble-design.ts';
import type { Design } from './design.ts';
import { projectContradictions, unknownLimits } from './project-contradictions.ts';
import { chokeOf, partAt } from './project-parts.ts';
import { projectReading } from './project-reading.ts';
import type { ProjectReading } from './project-reading.ts';
import { projectLists, projectSchema } from './project-schema.ts';
import { project as validate } from '../parts/validate.generated.js';

/** Gives the part files of the folders that a project names, and of those that come along. */
export type LibraryOpener = (folders: readonly string[]) => PartsLibrary;

/** What is known of checks: their ids, and what is wrong with levels that a project sets for them. */
export interface CheckLimits {
  readonly ids: readonly string[];
  readonly problemsOf: (project: Pick<Design, 'limits' | 'locate'>) => readonly Diagnostic[];
}

function foldersOf({ node }: ProjectReading): readonly string[] {
  const folders = node('partsFolders');
  if (folders?.kind !== 'list') return [];
  return folders.items.flatMap((item) => (item.kind === 'scalar' && typeof item.value === 'string' ? [item.value] : []));
}

/** A folder that cannot be read is a problem of the file that names it. */
function openedLibrary({ reading, openLibrary }: { reading: ProjectReading; openLibrary: LibraryOpener }): Outcome<PartsLibrary> {
  try {
    return { ok: true, value: openLibrary(foldersOf(reading)) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const at = reading.locate('partsFolders');
    return { ok: false, problems: error.problems.map((problem) => ({ at, ...problem })) };
  }
}

function partsOf({ reading, library }: { reading: ProjectReading; library: PartsLibrary }): {
  problems: readonly Diagnostic[];
  parts: DesignParts | undefined;
} {
  const choke = chokeOf({ reading, library });
  const capacitor = partAt({ path: 'tank.bank.part', kind: 'capacitors', reading, library });
  const mosfet = partAt({ path: 'switches.part', kind: 'mosfets', reading, library });
  const clamp = partAt({ path: 'gates.clamp', kind: 'zeners', reading, library });
  const crossDiode = partAt({ path: 'gates.crossDiode', kind: 'diodes', reading, library });
  const problems = [choke, capacitor, mosfet, clamp, crossDiode].flatMap((outcome) => (outcome?.ok === false ? outcome.problems : []));
  if (!choke?.ok || !capacitor?.ok || !mosfet?.ok || !crossDiode?.ok || clamp?.ok === false) return { problems, parts: undefined };
  const found = { choke: choke.value, capacitor: capacitor.value, mosfet: mosfet.value, crossDiode: crossDiode.value };
  return { problems, parts: clamp === undefined ? found : { ...found, clamp: clamp.value } };
}

/**
 * The design that a project file describes.
 *
 * @param text         the file, decoded
 * @param path         of the file, for positions
 * @param openLibrary  gives part files; an InputError of it becomes a problem of `partsFolders`
 * @param checks       to hold `limits` against; undefined: not compared
 * @returns the design, every number finite; or everything that is wrong with the file and the part files it names, one diagnostic a
 *   cause, in file order
 */
export function readProject({
  text,
  path,
  openLibrary,
  checks,
}: {
  text: string;
  path: string;
  openLibrary: LibraryOpener;
  checks?: CheckLimits;
}): Outcome<Design> {
  const parsed = parseYaml({ text, path, lists: projectLists });
  if (!parsed.ok) return parsed;
  const source = parsed.value;
  const asked = { root: source.root, place: projectSchema, parse: quantityParser };
  const structure = structureProblems({ ...asked, validate, what: 'a project file' });
  const { values: quantities, problems: unread } = readQuantities(asked);
  const reading = projectReading({ source, quantities });
  const library = openedLibrary({ reading, openLibrary });
  const { problems: partProblems, parts } = library.ok
    ? partsOf({ reading, library: library.value })
    : { problems: library.problems, parts: undefined };
  // a misspelt id is told as such, not by what its value is not
  const misnamed = new Set(unknownLimits(reading, checks?.ids).map(({ value }) => value.at.offset));
  const misplaced = structure.problems.filter(({ at }) => at === undefined || !misnamed.has(at.offset));
  const levels = checks?.problemsOf({ limits: limitsOf(reading), locate: reading.locate }) ?? [];
  const problems = [
    ...misplaced,
    ...unread,
    ...projectContradictions({ reading, checkIds: checks?.ids }),
    ...notSaid({ problems: levels, said: misplaced }),
    ...partProblems,
  ];
  if (problems.length > 0) return { ok: false, problems: inFileOrder(problems) };
  if (!structure.valid || parts === undefined)
    return { ok: false, problems: [{ id: 'invalid', message: 'the file does not satisfy its schema', at: source.root.at }] };
  return { ok: true, value: assembleDesign({ reading, parts }) };
}
