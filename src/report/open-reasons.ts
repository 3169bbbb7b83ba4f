import type { Result } from '../checks/result.ts';

/** Why checks are not assessed: each reason once, with all that it leaves open. */
export function openReasons(
  results: readonly Pick<Result, 'id' | 'verdict' | 'reason'>[],
): readonly { ids: readonly string[]; reason: string }[] {
  const idsOf = new Map<string, string[]>();
  for (const { id, verdict, reason = 'not known' } of results) {
    if (verdict === 'not assessed') idsOf.set(reason, [...(idsOf.get(reason) ?? []), id]);
  }
  return [...idsOf].map(([reason, ids]) => ({ reason, ids }));
}
