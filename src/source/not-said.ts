import type { Diagnostic } from './diagnostic.ts';

/**
 * The problems of places that nothing is said of yet, so that a cause is told once.
 *
 * @param problems  of the values
 * @param said      of the structure
 */
export function notSaid({ problems, said }: { problems: readonly Diagnostic[]; said: readonly Diagnostic[] }): readonly Diagnostic[] {
  const places = new Set(said.flatMap(({ at }) => at?.offset ?? []));
  return problems.filter(({ at }) => at === undefined || !places.has(at.offset));
}
