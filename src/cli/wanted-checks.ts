import { checkIds } from '../checks/registry.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { InputError } from '../source/diagnostic.ts';

/**
 * The checks that `--only` names, in the order of a report.
 *
 * @param text  ids separated by commas; undefined where all are wanted
 * Errors: InputError with every id that no check has.
 */
export function wantedChecks(text: string | undefined): readonly string[] | undefined {
  if (text === undefined) return undefined;
  const words = text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
  const unknown = words.filter((word) => !checkIds.includes(word));
  const problems = unknown.map((word) => ({
    id: 'unknown-check',
    message: `--only: no check is called "${word}"`,
    help: didYouMeanHelp({ word, names: checkIds }) ?? 'list the checks with `tankproof explain`',
  }));
  if (words.length === 0)
    problems.push({ id: 'usage', message: '--only names no check', help: 'write ids such as --only hot-surface,loaded-q' });
  if (problems.length > 0) throw new InputError(problems);
  return checkIds.filter((id) => words.includes(id));
}
