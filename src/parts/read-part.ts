import type { Diagnostic, Outcome } from '../source/diagnostic.ts';
import { inFileOrder } from '../source/file-order.ts';
import type { Location } from '../source/location.ts';
import { readQuantities } from '../source/quantities.ts';
import { entryOf } from '../source/source-tree.ts';
import type { SourceNode } from '../source/source-tree.ts';
import { structureProblems } from '../source/structure.ts';
import type { Validator } from '../source/structure.ts';
import { missingKey } from '../source/key-sentences.ts';
import { parseYaml } from '../source/yaml-source.ts';
import { assemblePart } from './assemble-part.ts';
import { kindName } from './kind-name.ts';
import { partKinds } from './part.ts';
import type { PartByKind, PartKind } from './part.ts';
import { partContradictions } from './part-contradictions.ts';
import { partSchema } from './part-schema.ts';
import { quantityParser } from './quantity-parser.ts';
import { textUnder } from './rating-of.ts';
import { capacitors, chokes, diodes, mosfets, zeners } from './validate.generated.js';

const validators: Readonly<Record<PartKind, Validator>> = { mosfets, diodes, zeners, capacitors, chokes };

/** A part file begins with these. */
function headProblems({ root, kind }: { root: SourceNode; kind: PartKind }): readonly Diagnostic[] {
  if (root.kind !== 'map') return [];
  return ['tankproofPart', 'kind']
    .filter((key) => !entryOf(root, key))
    .map((key) => missingKey({ key, parent: '', schema: { const: key === 'kind' ? kind : 1 }, at: root.at }));
}

function wrongKind({ root, kind, name }: { root: SourceNode; kind: PartKind; name: string }): Diagnostic | undefined {
  const text = textUnder(root, 'kind');
  const written = partKinds.find((known) => known === text);
  if (written === undefined || written === kind) return undefined;
  return {
    id: 'wrong-kind',
    message: `\`${name}\` is a ${kindName(written)}, not a ${kindName(kind)}`,
    help: `move the file to the folder ${written}, or correct its kind`,
    at: entryOf(root, 'kind')?.value.at ?? root.at,
  };
}

/**
 * A part from the text of its file.
 *
 * @param text   the file, decoded
 * @param path   of the file, for positions
 * @param kind   of part that is needed
 * @param name   of the file, without `.yaml`
 * @param where  position that names the part; the file's beginning where nothing does
 * @returns the part, or everything that is wrong with the file, in file order; a rating that states no source has source `project`
 */
export function readPart<K extends PartKind>({
  text,
  path,
  kind,
  name,
  where,
}: {
  text: string;
  path: string;
  kind: K;
  name: string;
  where?: Location;
}): Outcome<PartByKind[K]> {
  const parsed = parseYaml({ text, path });
  if (!parsed.ok) return parsed;
  const { root } = parsed.value;
  const other = wrongKind({ root, kind, name });
  if (other) return { ok: false, problems: [other] };
  const place = partSchema(kind);
  const structure = structureProblems({ root, place, validate: validators[kind], what: 'a part file', parse: quantityParser });
  const { values: quantities, problems: unread } = readQuantities({ root, place, parse: quantityParser });
  const part = assemblePart({ node: root, kind, name, where: where ?? root.at, reading: { quantities, source: 'project' } });
  const contradictions = partContradictions({ part, node: root, quantities });
  const problems = [...headProblems({ root, kind }), ...structure.problems, ...unread, ...contradictions];
  if (problems.length > 0) return { ok: false, problems: inFileOrder(problems) };
  return { ok: true, value: part };
}
