/** Longest piece of a user's text that a message repeats. */
const longest = 60;

/**
 * A user's text as a message repeats it: on one line, cut to 60 characters, in backticks.
 *
 * @param text  as written in the file
 * @returns the text in backticks
 *
 * @example quoted('18 V') // '`18 V`'
 */
export function quoted(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > longest ? `\`${line.slice(0, longest)}…\`` : `\`${line}\``;
}
