import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readPolicies, projectPolicies } from '../../src/checks/read-policies.ts';
import type { Result } from '../../src/checks/result.ts';
import { reviewOf } from '../../src/checks/review.ts';
import { checkIds } from '../../src/checks/registry.ts';
import { partsInFolders } from '../../src/cli/parts-folders.ts';
import { analysisOf, type Analysis } from '../../src/driver/analysis.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { quantitiesOf } from '../../src/driver/quantities.ts';
import type { Design } from '../../src/project/design.ts';
import { readProject } from '../../src/project/read-project.ts';
import type { Outcome } from '../../src/source/diagnostic.ts';

export const root = join(import.meta.dirname, '..', '..');

/** The text of an example project. */
export function example(name: string): string {
  return readFileSync(join(root, 'examples', `${name}.yaml`), 'utf8');
}

/** A project text that the tests change piece by piece: all that needs no geometry of the coil passes. */
export const measuredPad = readFileSync(join(import.meta.dirname, 'measured-pad.yaml'), 'utf8');

/** A text with pieces exchanged; each piece must occur. */
export function edited(text: string, ...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((current, [from, to]) => {
    if (!current.includes(from)) throw new Error(`"${from}" does not occur`);
    return current.replace(from, to);
  }, text);
}

function value<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ id, message, help }) => `${id}: ${message} (${help ?? ''})`).join('\n'));
  return outcome.value;
}

/** A project text as a design. */
export function designOf(text: string): Design {
  const path = join(root, 'examples', 'test.yaml');
  // wrong levels are left to who merges them
  const checks = { ids: checkIds, problemsOf: () => [] };
  return value(readProject({ text, path, openLibrary: (folders) => partsInFolders({ root, projectPath: path, folders }), checks }));
}

/** A project text analysed. */
export function analysed(text: string): Analysis {
  return analysisOf(designOf(text));
}

export const defaults = value(
  readPolicies({ text: readFileSync(join(root, 'shared', 'limits.yaml'), 'utf8'), path: 'shared/limits.yaml' }),
);

/** The results of a project text, by check id. */
export function reviewed(text: string): ReadonlyMap<string, Result> {
  const design = designOf(text);
  const policies = value(projectPolicies({ policies: defaults, design }));
  return new Map(reviewOf({ analysis: analysisOf(design), policies }).map((result) => [result.id, result]));
}

/** The results of a project text with its starts in the time domain, by check id. */
export function reviewedInTime(text: string): ReadonlyMap<string, Result> {
  const design = designOf(text);
  const policies = value(projectPolicies({ policies: defaults, design }));
  return new Map(reviewOf({ analysis: timedAnalysis(analysisOf(design)), policies }).map((result) => [result.id, result]));
}

/** A nominal quantity of a project text, of its first load. */
export function quantity(text: string, id: string): number | null {
  return quantitiesOf(analysed(text)).find((candidate) => candidate.id === id)!.value;
}
