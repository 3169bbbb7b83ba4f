import type { Diagnostic } from '../source/diagnostic.ts';
import type { Quantities } from '../source/quantities.ts';
import type { SourceNode } from '../source/source-tree.ts';
import { capacitanceProblems, lossTangentProblems } from './curve-contradictions.ts';
import type { Part, Rating } from './part.ts';

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

/**
 * Ratings of a part that cannot both be true.
 *
 * @param part        as far as it could be read
 * @param node        the mapping that it was read from
 * @param quantities  numbers of its file
 * @returns `contradiction`, and `repeated-frequency`, `repeated-voltage` or `missing-key` of a curve
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
  const order = orderProblems(part.ratings);
  if (part.kind === 'mosfets') return [...order, ...capacitanceProblems({ mosfet: part, node, quantities })];
  return part.kind === 'capacitors' ? [...order, ...lossTangentProblems(node, quantities)] : order;
}
