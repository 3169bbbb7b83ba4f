/**
 * Which load of one list is which of another: those of the same name; of the others those in the same place, which were renamed.
 *
 * @param before  names of the loads of one project
 * @param after   of the other
 * @returns the index in `before` by the index in `after`
 *
 * @example loadPairs({ before: ['idle', 'lamp'], after: ['lamp', 'nothing near'] }) // new Map([[0, 1]])
 * @example loadPairs({ before: ['idle', 'lamp'], after: ['nothing near', 'lamp'] }) // new Map([[1, 1], [0, 0]])
 */
export function loadPairs({ before, after }: { before: readonly string[]; after: readonly string[] }): ReadonlyMap<number, number> {
  const pairs = new Map<number, number>();
  after.forEach((name, index) => {
    const same = before.indexOf(name);
    if (same >= 0) pairs.set(index, same);
  });
  const taken = new Set(pairs.values());
  after.forEach((_, index) => {
    if (!pairs.has(index) && index < before.length && !taken.has(index)) pairs.set(index, index);
  });
  return pairs;
}
