import type { Diagnostic } from '../source/diagnostic.ts';
import type { Quantities } from '../source/quantities.ts';
import { entryOf } from '../source/source-tree.ts';
import type { SourceNode } from '../source/source-tree.ts';
import type { Part, Rating } from './part.ts';
import { frequencyEntries } from './rating-of.ts';

interface Pair {
  readonly smaller: string;
  readonly larger: string;
  readonly message: string;
}

const ordered: readonly Pair[] = [
  { smaller: 'thresholdMin', larger: 'thresholdMax', message: '`thresholdMin` is above `thresholdMax`' },
  { smaller: 'thresholdMin', larger: 'thresholdTypical', message: '`thresholdTypical` is below `thresholdMin`' },
  { smaller: 'thresholdTypical', larger: 'thresholdMax', message: '`thresholdTypical` is above `thresholdMax`' },
  { smaller: 'voltageAc', larger: 'voltageDc', message: '`voltageAc` is above `voltageDc`' },
];

function orderProblems(ratings: Readonly<Record<string, Rating | undefined>>): readonly Diagnostic[] {
  return ordered.flatMap(({ smaller, larger, message }) => {
    const [low, high] = [ratings[smaller], ratings[larger]];
    if (!low || !high || low.value <= high.value) return [];
    return [{ id: 'contradiction', message, help: 'one of the two is wrong; swap them if they were mixed up', at: low.where }];
  });
}

function curveProblems(node: SourceNode | undefined, quantities: Quantities): readonly Diagnostic[] {
  if (node?.kind !== 'map') return [];
  const entries = frequencyEntries(node);
  const single = entryOf(node, 'value');
  const form = { help: 'write either one `value`, or a mapping of frequency to value', at: single?.keyAt ?? node.at };
  if (single && entries.length > 0) return [{ id: 'contradiction', message: '`lossTangent` has both a `value` and frequencies', ...form }];
  if (!single && entries.length === 0) return [{ id: 'missing-key', message: '`lossTangent` has no value', ...form }];
  return entries.flatMap((entry, index) => {
    const frequency = quantities.get(entry);
    const before = frequency === undefined ? undefined : entries.slice(0, index).find((other) => quantities.get(other) === frequency);
    if (!before) return [];
    const message = `\`${entry.key}\` and \`${before.key}\` are the same frequency`;
    return [{ id: 'repeated-frequency', message, help: 'keep one of them', at: entry.keyAt }];
  });
}

/**
 * Ratings of a part that cannot both be true.
 *
 * @param part        as far as it could be read
 * @param node        the mapping that it was read from
 * @param quantities  numbers of its file
 * @returns `contradiction`, `repeated-frequency`, or `missing-key` for a curve without a point
 */
export function partContradictions({
  part,
  node,
  quantities,
}: {
  part: Part;
  node: SourceNode;
  quantities: Quantities;
}): readonly Diagnostic[] {
  const curve = part.kind === 'capacitors' ? curveProblems(entryOf(node, 'lossTangent')?.value, quantities) : [];
  return [...orderProblems(part.ratings), ...curve];
}
