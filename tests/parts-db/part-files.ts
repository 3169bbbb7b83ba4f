import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { PartByKind, PartKind } from '../../src/parts/part.ts';
import { readPart } from '../../src/parts/read-part.ts';

const folder = join(import.meta.dirname, '..', '..', 'parts-db');

/** Names of the part files of a kind, in order. */
export function partNames(kind: PartKind): readonly string[] {
  return readdirSync(join(folder, kind))
    .map((file) => (file.endsWith('.yaml') ? file.slice(0, -'.yaml'.length) : `not a part file: ${file}`))
    .toSorted();
}

/** The text of a part file. */
export function partText(kind: PartKind, name: string): string {
  return readFileSync(join(folder, kind, `${name}.yaml`), 'utf8');
}

/** A part as the tool reads it. Errors: everything that is wrong with its file. */
export function partOf<K extends PartKind>(kind: K, name: string): PartByKind[K] {
  const outcome = readPart({ text: partText(kind, name), path: `${kind}/${name}.yaml`, kind, name });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems, undefined, 2));
  return outcome.value;
}
