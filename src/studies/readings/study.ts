import type { Policies } from '../../checks/policy.ts';
import type { Result } from '../../checks/result.ts';
import type { Design } from '../../project/design.ts';
import { InputError } from '../../source/diagnostic.ts';
import { comparisons, type Comparison } from './agreement.ts';
import { reviewAsBuilt, type Build } from './as-built.ts';
import { causesOf, explained, type Cause } from './causes.ts';
import { estimatesOf, type Estimate } from './estimates.ts';
import { readingFit, type ReadingFit } from './fit.ts';
import { parameterNames, readingModel, type ReadingModel } from './model.ts';
import { observationsOf, type Observation } from './observed.ts';
import { readingProblems } from './refusals.ts';

/** What readings say of a driver. */
export interface ReadingsStudy {
  readonly comparisons: readonly Comparison[];
  readonly estimates: readonly Estimate[];
  /** What the estimates rest on: the tolerances, a cause, or values that the tolerances do not hold. */
  readonly restsOn: 'tolerances' | 'cause' | 'readings alone';
  readonly causes: readonly Cause[];
  /** How the margins as built were found: one statement a build. */
  readonly builds: readonly string[];
  readonly asBuilt: readonly Result[];
  /** Load and voltage of the readings. */
  readonly load: string;
  readonly voltage: number;
}

/** Tolerances are taken so many times as wide where nothing within them explains the readings. */
const loosened = 6;
/** Causes whose sum of squares differs by less are not told apart. */
const notToldApart = 4;
const mostBuilds = 3;

/**
 * The readings of a design against its predictions: agreement, estimates, likely causes, margins as built.
 *
 * Errors: InputError where there are no readings or they cannot be of a driver that runs.
 */
export function readingsStudy({ design, policies }: { design: Design; policies: Policies }): ReadingsStudy {
  const observations = observationsOf(design);
  const model = readingModel(design);
  const problems = readingProblems({ design, model, observations });
  if (problems.length > 0) throw new InputError(problems);
  const compared = comparisons({ design, model, observations });
  const base = readingFit({ model, observations });
  if (base === undefined)
    throw new InputError([
      {
        id: 'no-prediction',
        message: 'the project as written does not oscillate: there is nothing to compare',
        at: design.locate('readings'),
      },
    ]);
  const found = interpretation({ design, model, observations, base, isOff: compared.some(({ verdict }) => verdict === 'disagrees') });
  return {
    comparisons: compared,
    estimates: estimatesOf({ original: model, model: found.model, fit: found.fit, keys: observations.map(({ key }) => key) }),
    restsOn: found.restsOn,
    causes: found.causes,
    builds: found.builds.map(({ words }) => words),
    asBuilt: reviewAsBuilt({ design, builds: found.builds.map(({ build }) => build), policies }),
    load: model.at.name,
    voltage: model.design.supply.voltage,
  };
}

interface Interpretation {
  readonly restsOn: ReadingsStudy['restsOn'];
  readonly model: ReadingModel;
  readonly fit: ReadingFit;
  readonly causes: readonly Cause[];
  readonly builds: readonly { readonly words: string; readonly build: Build }[];
}

/** What the estimates and the margins rest on. */
export function interpretation({
  design,
  model,
  observations,
  base,
  isOff,
}: {
  design: Design;
  model: ReadingModel;
  observations: readonly Observation[];
  base: ReadingFit;
  isOff: boolean;
}): Interpretation {
  const withinTolerances = {
    restsOn: 'tolerances' as const,
    model,
    fit: base,
    builds: [{ words: 'values within their tolerances', build: { fit: base } }],
  };
  if (!isOff) return { ...withinTolerances, causes: [] };
  const causes = causesOf({ original: design, model, observations, base });
  const whole = causes.filter(({ explainsAll }) => explainsAll);
  const [best] = whole;
  if (best !== undefined) {
    const builds = whole
      .filter(({ gain }) => gain > best.gain - notToldApart)
      .slice(0, mostBuilds)
      .map(({ words, fit, fault }) => ({ words, build: { fit, fault } }));
    return { restsOn: 'cause', model: best.model, fit: best.fit, causes, builds };
  }
  if ([...base.residuals.values()].every((residual) => Math.abs(residual) <= explained)) return { ...withinTolerances, causes };
  const priors = Object.fromEntries(
    parameterNames.map((name) => [name, name === 'supply' ? model.priors.supply : loosened * model.priors[name]]),
  ) as unknown as ReadingModel['priors'];
  const free: ReadingModel = { ...model, priors };
  const fit = readingFit({ model: free, observations }) ?? base;
  return {
    restsOn: 'readings alone',
    model: free,
    fit,
    causes,
    builds: [{ words: `values as the readings have them, up to ${loosened} times as far off as the tolerances`, build: { fit } }],
  };
}
