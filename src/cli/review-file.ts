import { relative, join } from 'node:path';
import { cautionsOf } from '../checks/cautions.ts';
import { faultsOf } from '../checks/faults.ts';
import type { Policies } from '../checks/policy.ts';
import { limitProblems, projectPolicies, readPolicies } from '../checks/read-policies.ts';
import { checkIds } from '../checks/registry.ts';
import type { Result } from '../checks/result.ts';
import { reviewOf } from '../checks/review.ts';
import { analysisOf, type Analysis } from '../driver/analysis.ts';
import { timedAnalysis } from '../driver/timed-analysis.ts';
import { assumptionsOf, ratingsUsed } from '../driver/assumptions.ts';
import { DesignError } from '../driver/design-error.ts';
import { quantitiesOf } from '../driver/quantities.ts';
import type { Design } from '../project/design.ts';
import { readProject, type LibraryOpener } from '../project/read-project.ts';
import type { ReviewReport } from '../report/review-report.ts';
import { InputError, type Outcome } from '../source/diagnostic.ts';
import { reviewSheet } from '../studies/review-sheet.ts';
import { timedChecks } from '../studies/timed-checks.ts';
import { compiledPolicies } from './compiled.ts';
import { readText } from './files.ts';
import { partsInFolders } from './parts-folders.ts';

/** The value, or the problems thrown as an InputError. */
export function accepted<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new InputError(outcome.problems);
  return outcome.value;
}

/** The policy that comes with the tool. */
export function defaultPolicies(root: string): Policies {
  const compiled = compiledPolicies(root);
  if (compiled !== undefined) return compiled;
  const path = join(root, 'shared', 'limits.yaml');
  return accepted(readPolicies({ text: readText(path), path: relative(process.cwd(), path) || path }));
}

/**
 * The design of a project file.
 *
 * Errors: InputError with everything that is wrong with the file or the parts it names.
 */
export function designInFile(of: { path: string; root: string; policies?: Policies }): Design {
  return projectInFile(of).design;
}

/**
 * The design of a project file and the folders of parts that it names.
 *
 * @param policies  that its limits take the place of; those of the tool where not given
 * Errors: InputError, as designInFile.
 */
export function projectInFile({ path, root, policies = defaultPolicies(root) }: { path: string; root: string; policies?: Policies }): {
  design: Design;
  partsFolders: readonly string[];
} {
  let partsFolders: readonly string[] = [];
  const design = designInText({
    text: readText(path),
    path,
    policies,
    openLibrary: (folders) => {
      partsFolders = folders;
      return partsInFolders({ root, projectPath: path, folders });
    },
  });
  return { design, partsFolders };
}

/**
 * The levels that a design is judged by: the tool's own with the project's overrides.
 *
 * Errors: InputError with what is wrong with an override.
 */
export function policiesOf({ design, root }: { design: Design; root: string }): Policies {
  return ownPolicies({ policies: defaultPolicies(root), design });
}

/**
 * The design that the text of a project file describes.
 *
 * Errors: InputError with everything that is wrong with the text or the parts it names.
 */
export function designInText({
  text,
  path,
  openLibrary,
  policies,
}: {
  text: string;
  path: string;
  openLibrary: LibraryOpener;
  policies: Policies;
}): Design {
  const checks = { ids: checkIds, problemsOf: (project: Pick<Design, 'limits' | 'locate'>) => limitProblems({ policies, ...project }) };
  return accepted(readProject({ text, path, openLibrary, checks }));
}

/** A study of a design; what the design lacks is said at its place. */
export function studied<T>({ design, study }: { design: Design; study: () => T }): T {
  try {
    return study();
  } catch (error) {
    if (!(error instanceof DesignError)) throw error;
    const { id, message, help } = error;
    throw new InputError([{ id, message, at: design.locate(error.path), ...(help === undefined ? {} : { help }) }]);
  }
}

/**
 * Reads one project file and reviews it, its starts in the time domain unless the closed forms are to do.
 *
 * @param faults  what single faults do, too
 * @param only    ids of the checks that are wanted; all where not given
 * @param sheets  with what a page draws
 * Errors: InputError with everything that is wrong with the file or the parts it names.
 */
export function reviewedFile({
  path,
  root,
  policies,
  closedForm = false,
  faults = false,
  only,
  sheets = false,
}: {
  path: string;
  root: string;
  policies: Policies;
  closedForm?: boolean;
  faults?: boolean;
  only?: readonly string[] | undefined;
  sheets?: boolean;
}): ReviewReport {
  const design = designInFile({ path, root, policies });
  return reportOf({ design, path, policies, closedForm, faults, only, sheets });
}

/**
 * Reviews a design that was read from a project file.
 *
 * Errors: InputError where it cannot be computed, or its own limits are wrong.
 */
export function reportOf({
  design,
  path,
  policies,
  closedForm,
  faults = false,
  only,
  sheets = false,
}: {
  design: Design;
  path: string;
  policies: Policies;
  closedForm: boolean;
  faults?: boolean;
  only?: readonly string[] | undefined;
  sheets?: boolean;
}): ReviewReport {
  return studied({
    design,
    study: () => {
      const { analysis, results, merged } = reviewedDesign({ design, policies, closedForm, only });
      return {
        file: path,
        title: design.title ?? 'untitled',
        quantities: quantitiesOf(analysis),
        results,
        cautions: cautionsOf(analysis),
        assumptions: assumptionsOf(analysis),
        ratings: ratingsUsed(design),
        ...(only === undefined ? {} : { only }),
        ...(faults ? { faults: faultsOf({ design, policies: merged, results }) } : {}),
        ...(sheets ? { sheet: reviewSheet({ design, policies: merged, closedForm }) } : {}),
      };
    },
  });
}

/**
 * A design reviewed, with the analysis that the review rests on.
 *
 * Errors: InputError where the project's limits cannot be used; DesignError where it lacks what everything needs.
 */
export function reviewedDesign({
  design,
  policies,
  closedForm = false,
  only,
}: {
  design: Design;
  policies: Policies;
  closedForm?: boolean;
  only?: readonly string[] | undefined;
}): {
  analysis: Analysis;
  results: readonly Result[];
  merged: Policies;
} {
  const merged = ownPolicies({ policies, design });
  // nothing but these checks looks at what the time domain changes
  const timed = !closedForm && (only === undefined || only.some((id) => timedChecks.has(id)));
  const analysis = analysisFor({ design, closedForm: !timed });
  return { analysis, results: reviewOf({ analysis, policies: merged, only: only && new Set(only) }), merged };
}

/** An analysis in closed form, its starts and load changes in the time domain unless that is to do. */
export function analysisFor({ design, closedForm }: { design: Design; closedForm: boolean }): Analysis {
  const analysis = analysisOf(design);
  return closedForm ? analysis : timedAnalysis(analysis);
}

/**
 * The policy with the project's own limits.
 *
 * Errors: InputError where those are wrong.
 */
export function ownPolicies({ policies, design }: { policies: Policies; design: Design }): Policies {
  return accepted(projectPolicies({ policies, design }));
}
