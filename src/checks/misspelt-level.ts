import type { Diagnostic } from '../source/diagnostic.ts';
import type { Dimension } from '../units/dimension.ts';
import { shown, writeSuch } from '../units/quantity-problem.ts';

const number = String.raw`\d+(?:\.\d+)?`;
/** `0.7 of ratin`, `70% rating`, `0.7 * rated`; and the other way round. */
const shares = [
  new RegExp(String.raw`^(${number} ?%?)\s*(?:of|\*|·)?\s*(?:the\s+)?rat[a-z]*$`, 'i'),
  new RegExp(String.raw`^(${number} ?%?)\s+of\s+(?:the\s+)?[a-z]+$`, 'i'),
  new RegExp(String.raw`^rat[a-z]*\s*[*·]\s*(${number} ?%?)$`, 'i'),
];
/** `ratng - 25 K`, `rating minus 25 K`. */
const distance = /^rat[a-z]*\s*(?:[-−–]|minus|less)\s*(\S.*)$/i;

/**
 * What is wrong with a level that speaks of a rating in other words than those that are read.
 *
 * @param text       as written; no level that is read
 * @param dimension  of the check
 * @param isRated    whether the check has a rating to take a share of
 * @returns what may be written, with the level that was probably meant; undefined where the text does not speak of a rating
 *
 * @example misspeltLevel({ text: '0.7 of ratin', dimension: 'voltage', isRated: true })?.message // '"0.7 of ratin" is no level'
 * @example misspeltLevel({ text: '12 V', dimension: 'voltage', isRated: true }) // undefined
 */
export function misspeltLevel({
  text,
  dimension,
  isRated,
}: {
  text: string;
  dimension: Dimension;
  isRated: boolean;
}): Omit<Diagnostic, 'at'> | undefined {
  if (text.length > 60 || !/(?:^|[^a-z])(?:of|rat[a-z]*)(?:[^a-z]|$)/i.test(text)) return undefined;
  const share = shares.map((form) => form.exec(text)?.[1]?.trim()).find((found) => found !== undefined);
  const less = distance.exec(text)?.[1];
  const meant = share !== undefined ? `${share} of rating` : less === undefined ? undefined : `rating - ${shown(less)}`;
  const away = dimension === 'temperature' ? ', "rating - 25 K"' : '';
  const such = `write "0.7 of rating"${away} or ${writeSuch(dimension).replace('write ', '')}`;
  const help = !isRated ? writeSuch(dimension) : meant === undefined ? such : `did you mean "${meant}"? Otherwise ${such}`;
  return { id: 'not-a-level', message: `"${shown(text)}" is no level`, help };
}
