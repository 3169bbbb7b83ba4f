import type { UsedRating } from '../driver/assumptions.ts';

/** Ratings by part and source: `IRFP250N: onResistanceFactor, transconductance (memory)`. */
export function ratingLines(ratings: readonly UsedRating[]): readonly string[] {
  const groups = new Map<string, string[]>();
  for (const { part, key, rating } of ratings) {
    const group = `${part}\n${rating.source}`;
    const keys = groups.get(group) ?? [];
    if (!keys.includes(key)) groups.set(group, [...keys, key]);
  }
  return [...groups].map(([group, keys]) => {
    const [part, source] = group.split('\n');
    return `${part}: ${keys.join(', ')} (${source})`;
  });
}
