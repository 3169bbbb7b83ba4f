import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Policies, Policy } from '../checks/policy.ts';
import { readPolicies } from '../checks/read-policies.ts';
import type { PartsLibrary } from '../parts/library.ts';
import { partKinds, type Part, type PartKind } from '../parts/part.ts';
import { readPart } from '../parts/read-part.ts';
import { InputError, type Outcome } from '../source/diagnostic.ts';

/**
 * What the build has read and checked already: parts-db and the default policy, as plain data. A start then reads a few small JSON
 * files in place of YAML; without them (in tests, say) the YAML is read.
 */
const folder = (root: string): string => join(root, 'dist', 'compiled');

function fileOf({ root, kind, name }: { root: string; kind: PartKind; name: string }): string {
  return join(folder(root), kind, `${name}.json`);
}

function readJson(path: string): unknown {
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : undefined;
}

/** A part of parts-db as the build has read it; undefined where it has not. */
export function compiledPart(of: { root: string; kind: PartKind; name: string }): Part | undefined {
  return readJson(fileOf(of)) as Part | undefined;
}

/** The default policy as the build has read it; undefined where it has not. */
export function compiledPolicies(root: string): Policies | undefined {
  const entries = readJson(join(folder(root), 'limits.json')) as [string, Policy][] | undefined;
  return entries === undefined ? undefined : new Map(entries);
}

/**
 * Reads parts-db and the default policy and writes them as plain data for `compiledPart` and `compiledPolicies`.
 *
 * Errors: InputError with everything that is wrong with one of the files.
 */
export function writeCompiled({
  root,
  library,
  limits,
}: {
  root: string;
  library: PartsLibrary;
  limits: { path: string; text: string };
}): void {
  for (const kind of partKinds) {
    mkdirSync(join(folder(root), kind), { recursive: true });
    for (const name of library.names(kind)) {
      const file = library.text(kind, name);
      if (file !== undefined) writeFileSync(fileOf({ root, kind, name }), JSON.stringify(accepted(readPart({ ...file, kind, name }))));
    }
  }
  writeFileSync(join(folder(root), 'limits.json'), JSON.stringify([...accepted(readPolicies(limits))]));
}

function accepted<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new InputError(outcome.problems);
  return outcome.value;
}
