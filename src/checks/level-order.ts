import type { Diagnostic } from '../source/diagnostic.ts';
import type { Location } from '../source/location.ts';
import type { Level } from './policy.ts';

/** A warn level beyond its fail level would never warn: said where both are stated in the same way. */
export function verdictOrderProblem({
  warn,
  fail,
  sense,
  id,
  at,
}: {
  warn: Level;
  fail: Level;
  sense: 'at-most' | 'at-least';
  id: string;
  at: Location;
}): Diagnostic | undefined {
  const [a, b] = [comparable(warn), comparable(fail)];
  if (a?.how !== b?.how || a === undefined || b === undefined) return undefined;
  const inOrder = sense === 'at-most' ? a.value <= b.value : a.value >= b.value;
  if (inOrder) return undefined;
  return {
    id: 'limit-order',
    message: `${id} would fail before it warns`,
    help: 'put the warn level on the near side of the fail level; the one that is not written is the default of `tankproof explain`',
    at,
  };
}

function comparable(level: Level): { how: string; value: number } | undefined {
  if (level.share !== undefined) return { how: 'share', value: level.share };
  if (level.quantity !== undefined) return { how: 'quantity', value: level.quantity };
  return { how: 'less', value: -level.less };
}
