import type { Diagnostic } from '../source/diagnostic.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { quoted } from '../source/quoted.ts';
import { entryOf } from '../source/source-tree.ts';
import type { MapEntry, SourceNode } from '../source/source-tree.ts';
import { coilProblems } from './coil-problems.ts';
import type { ProjectReading } from './project-reading.ts';

const loadForms: readonly string[] = ['power', 'parallelResistance', 'loadedQ'];

/**
 * Name of a load.
 *
 * @param node   the load
 * @param index  its place in the list, from 0
 * @returns the name in the file, else `load 1`, `load 2` …
 */
export function loadName({ node, index }: { node: SourceNode; index: number }): string {
  const name = entryOf(node, 'name')?.value;
  return name?.kind === 'scalar' && typeof name.value === 'string' ? name.value : `load ${index + 1}`;
}

function loadProblems({ node: nodeOf }: ProjectReading): readonly Diagnostic[] {
  const loads = nodeOf('loads');
  if (loads?.kind !== 'list') return [];
  const names = loads.items.map((node, index) => loadName({ node, index }));
  const seen = new Set<string>();
  return loads.items.flatMap((node, index): Diagnostic[] => {
    const problems: Diagnostic[] = [];
    const forms = node.kind === 'map' ? node.entries.filter(({ key }) => loadForms.includes(key)) : [];
    const [first, second] = forms;
    if (first && second)
      problems.push({
        id: 'contradictory-load',
        message: `load ${quoted(names[index] ?? '')} has both \`${first.key}\` and \`${second.key}\``,
        help: 'keep the one that was measured or is wanted',
        at: second.keyAt,
      });
    const name = names[index] ?? '';
    if (seen.has(name))
      problems.push({
        id: 'duplicate-load',
        message: `two loads are called ${quoted(name)}`,
        help: 'give each load its own name, since reports tell them apart by it',
        at: entryOf(node, 'name')?.value.at ?? node.at,
      });
    seen.add(name);
    return problems;
  });
}

/** What is written under `limits` for checks that there are not. */
export function unknownLimits({ node: nodeOf }: ProjectReading, checkIds: readonly string[] | undefined): readonly MapEntry[] {
  const limits = nodeOf('limits');
  if (limits?.kind !== 'map' || checkIds === undefined) return [];
  return limits.entries.filter(({ key }) => !checkIds.includes(key));
}

function limitProblems(reading: ProjectReading, checkIds: readonly string[] | undefined): readonly Diagnostic[] {
  return unknownLimits(reading, checkIds).map(({ key, keyAt }) => ({
    id: 'unknown-check',
    message: `no check is called ${quoted(key)}`,
    label: 'unknown check',
    help: didYouMeanHelp({ word: key, names: checkIds ?? [] }) ?? 'list the checks with `tankproof explain`',
    at: keyAt,
  }));
}

/** The load that readings were taken with is one of the project. */
function readingProblems({ node: nodeOf, text, locate }: ProjectReading): readonly Diagnostic[] {
  const wanted = text('readings.load');
  const loads = nodeOf('loads');
  if (wanted === undefined) return [];
  const names = loads?.kind === 'list' ? loads.items.map((node, index) => loadName({ node, index })) : ['no load'];
  if (names.includes(wanted)) return [];
  return [
    {
      id: 'unknown-load',
      message: `no load is called ${quoted(wanted)}`,
      label: 'unknown load',
      help: didYouMeanHelp({ word: wanted, names }) ?? `the project has ${names.map(quoted).join(', ')}`,
      at: locate('readings.load'),
    },
  ];
}

/**
 * What cannot be true of a project file although each key for itself can.
 *
 * @param reading   the project file
 * @param checkIds  ids of all checks; undefined: not compared
 * @returns `contradictory-load`, `duplicate-load`, `unknown-check`, `unknown-load`
 */
export function projectContradictions({
  reading,
  checkIds,
}: {
  reading: ProjectReading;
  checkIds: readonly string[] | undefined;
}): readonly Diagnostic[] {
  return [...loadProblems(reading), ...coilProblems(reading), ...limitProblems(reading, checkIds), ...readingProblems(reading)];
}
