import type { Verdict } from '../checks/judge.ts';
import type { FailOn } from '../report/compare-failures.ts';
import { InputError } from '../source/diagnostic.ts';
import type { Ratio } from '../units/si.ts';

/**
 * What `--fail-on` names: `warn`, `not-assessed`, `worse` or `worse:5%`; the smallest loss counts.
 *
 * Errors: InputError for anything else.
 */
export function failOnOf(words: readonly string[]): FailOn {
  const verdicts: Verdict[] = ['fail'];
  const losses: Ratio[] = [];
  for (const word of words) {
    if (word === 'warn') verdicts.push('warn');
    else if (word === 'not-assessed') verdicts.push('not assessed');
    else losses.push(lossOf(word));
  }
  return { verdicts, ...(losses.length === 0 ? {} : { loss: Math.min(...losses) }) };
}

function lossOf(word: string): Ratio {
  const [, number] = /^worse(?::\s*(\d{1,3}(?:\.\d{1,6})?)\s*%)?$/.exec(word) ?? [];
  if (word === 'worse') return 0;
  const percent = Number(number ?? NaN);
  if (percent <= 100) return percent / 100;
  const help = 'write warn, not-assessed, worse, or worse with what may be lost, such as worse:5%';
  throw new InputError([{ id: 'unknown-word', message: `--fail-on: "${word}" is nothing to fail on`, help }]);
}
