/** Names that are told before the rest is counted. */
const mostTold = 6;

/**
 * Names in a row, the rest of a long list as its number.
 *
 * @example shortList(['a', 'b']) // 'a, b'
 */
export function shortList(names: readonly string[]): string {
  const more = names.length - mostTold;
  return more <= 1 ? names.join(', ') : `${names.slice(0, mostTold).join(', ')} and ${more} more`;
}
