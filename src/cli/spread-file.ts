import type { Policies } from '../checks/policy.ts';
import { reviewOf } from '../checks/review.ts';
import { InputError } from '../source/diagnostic.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { spread, type Spread } from '../studies/spread.ts';
import { spreadings, variableIds, type VariableId } from '../studies/variables.ts';
import type { Ratio } from '../units/si.ts';
import { analysisFor, designInFile, ownPolicies, studied } from './review-file.ts';

type Spreading = (typeof spreadings)[number];

/** Most builds of a spread. */
const mostBuilds = 100_000;

/**
 * Worst corner and random builds of a project file.
 *
 * @param as          `uniform`, `normal` or `limit` for all variables, or `supply=limit` for one; later ones win
 * @param closedForm  leave out the time domain at the worst corners
 * Errors: InputError where the file is refused, and where a number of builds, a seed or a distribution is wrong.
 */
export function spreadOfFile({
  path,
  root,
  policies,
  builds,
  seed,
  as,
  closedForm,
  progress,
}: {
  path: string;
  root: string;
  policies: Policies;
  builds: string;
  seed: string;
  as: readonly string[];
  closedForm: boolean;
  progress: (share: Ratio) => void;
}): { title: string; spread: Spread } {
  const count = wholeNumber({ option: '--builds', text: builds, from: 1, to: mostBuilds });
  const start = wholeNumber({ option: '--seed', text: seed, from: 0, to: Number.MAX_SAFE_INTEGER });
  const spreadingOf = chosen(as);
  const design = designInFile({ path, root, policies });
  return studied({
    design,
    study: () => {
      const merged = ownPolicies({ policies, design });
      const worst = reviewOf({ analysis: analysisFor({ design, closedForm }), policies: merged });
      const study = { design, worst, timed: !closedForm, policies: merged, builds: count, seed: start, as: spreadingOf, progress };
      return { title: design.title ?? 'untitled', spread: spread(study) };
    },
  });
}

function wholeNumber({ option, text, from, to }: { option: string; text: string; from: number; to: number }): number {
  const value = /^\d{1,16}$/.test(text.trim()) ? Number(text) : NaN;
  if (value >= from && value <= to) return value;
  const message = `${option} must be a whole number from ${from} to ${to}, not "${text}"`;
  throw new InputError([{ id: 'out-of-range', message, help: `write a number such as ${option} ${Math.max(from, 1000)}` }]);
}

function chosen(as: readonly string[]): (id: VariableId) => Spreading {
  const own = new Map<string, Spreading>();
  let all: Spreading = 'uniform';
  for (const text of as) {
    const [first = '', second] = text.split('=');
    const word = second ?? first;
    const spreading = spreadings.find((one) => one === word);
    if (spreading === undefined) {
      const help = didYouMeanHelp({ word, names: spreadings }) ?? `write ${spreadings.join(', ')}`;
      throw new InputError([{ id: 'unknown-word', message: `--as: no distribution is called "${word}"`, help }]);
    }
    if (second === undefined) all = spreading;
    else if (variableIds.some((id) => id === first)) own.set(first, spreading);
    else {
      const help = didYouMeanHelp({ word: first, names: variableIds }) ?? `there are ${variableIds.join(', ')}`;
      throw new InputError([{ id: 'unknown-word', message: `--as: nothing called "${first}" varies`, help }]);
    }
  }
  return (id) => own.get(id) ?? all;
}
