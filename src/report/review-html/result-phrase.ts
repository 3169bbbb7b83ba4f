import type { Result } from '../../checks/result.ts';
import { comparedWords } from '../comparison.ts';

/** `231 V of 200 V, −15 %`, numbers kept with their units at the end of a line; empty where there is no value. */
export function resultPhrase(result: Pick<Result, 'verdict' | 'value' | 'limit' | 'dimension' | 'sense' | 'margin'>): string {
  const { value, against, room } = comparedWords(result);
  const [figure, limit, left] = [value, against, room].map((words) => words.replaceAll(' ', '\u00a0'));
  return [[figure, limit].filter((words) => words !== '').join(' '), left].filter((words) => words !== '').join(', ');
}
