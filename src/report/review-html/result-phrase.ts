import type { Result } from '../../checks/result.ts';
import { comparedWords } from '../comparison.ts';

/** `231 V of 200 V, −15 %`; empty where there is no value. */
export function resultPhrase(result: Pick<Result, 'verdict' | 'value' | 'limit' | 'dimension' | 'sense' | 'margin'>): string {
  const { value, against, room } = comparedWords(result);
  return [[value, against].filter((words) => words !== '').join(' '), room].filter((words) => words !== '').join(', ');
}
