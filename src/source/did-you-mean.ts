/** Names longer than this are nobody's typing mistake, and the distance costs the product of both lengths. */
const longestWord = 80;

/** Letters that a name must share with the longer one before "a prefix is missing" explains the difference. */
const shortestStem = 3;
/** The same for a name that is only begun. */
const shortestStart = 6;

/** Number of insertions, deletions, replacements and swaps of neighbours between two words. */
function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = rows[i - 1]![j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? rows[i - 2]![j - 2]! + 1 : Infinity;
      row.push(Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, replaced, swapped));
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}

function nameDistance(a: string, b: string): number {
  const [x, y] = [a.toLowerCase(), b.toLowerCase()];
  const [short, long] = x.length < y.length ? [x, y] : [y, x];
  if (short === long) return 0;
  if (short.length >= shortestStem && long.endsWith(short)) return 1;
  if (short.length >= shortestStart && long.startsWith(short)) return 1;
  return long.length - short.length > 2 ? Infinity : editDistance(x, y);
}

/**
 * Names that somebody who wrote `word` may have meant: at most three, nearest first. One mistake is allowed in a name under three
 * letters, two in a longer one; letter case costs nothing, a missing or extra prefix counts as one mistake, and so does a missing end.
 *
 * @param word   what was written
 * @param names  what exists
 * @returns suggestions, in order of distance, then of `names`
 *
 * @example didYouMean({ word: 'centertap', names: ['two', 'centre-tap'] }) // ['centre-tap']
 * @example didYouMean({ word: 'middle', names: ['two', 'centre-tap'] }) // []
 */
export function didYouMean({ word, names }: { word: string; names: readonly string[] }): readonly string[] {
  if (word.length > longestWord) return [];
  const allowed = word.length < 3 ? 1 : 2;
  return names
    .filter((name) => name.length <= longestWord)
    .map((name) => ({ name, distance: nameDistance(word, name) }))
    .filter(({ distance }) => distance <= allowed)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 3)
    .map(({ name }) => name);
}

/**
 * The suggestions as the help line of a diagnostic.
 *
 * @param word   what was written
 * @param names  what exists
 * @returns `did you mean …?`, or undefined where nothing is near
 *
 * @example didYouMeanHelp({ word: 'voltege', names: ['voltage', 'tolerance'] }) // 'did you mean `voltage`?'
 */
export function didYouMeanHelp({ word, names }: { word: string; names: readonly string[] }): string | undefined {
  const near = didYouMean({ word, names }).map((name) => `\`${name}\``);
  if (near.length === 0) return undefined;
  const last = near.at(-1)!;
  return `did you mean ${near.length === 1 ? last : `${near.slice(0, -1).join(', ')} or ${last}`}?`;
}
