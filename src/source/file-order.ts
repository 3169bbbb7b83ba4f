import type { Diagnostic } from './diagnostic.ts';

/** One mistake seen from two sides is told once. */
const identityOf = ({ id, at, message }: Diagnostic): string => `${at?.path} ${at?.offset} ${id} ${message}`;

/**
 * Diagnostics by position, those of the first file before those of files that it led to; each told once.
 *
 * @param problems  in any order
 * @returns a new list
 */
export function inFileOrder(problems: readonly Diagnostic[]): readonly Diagnostic[] {
  const once = [...new Map(problems.map((problem) => [identityOf(problem), problem])).values()];
  const files = [...new Set(once.map(({ at }) => at?.path))];
  return once.sort((a, b) => files.indexOf(a.at?.path) - files.indexOf(b.at?.path) || (a.at?.offset ?? 0) - (b.at?.offset ?? 0));
}
