import { dirname, relative, sep } from 'node:path';
import type { Policies } from '../checks/policy.ts';
import { readTeamLimits } from '../checks/read-team-limits.ts';
import { waivedResults, type Waiver } from '../checks/waiver.ts';
import type { Reviewed } from '../report/reviewed.ts';
import { InputError } from '../source/diagnostic.ts';
import { pathMatches } from '../source/path-pattern.ts';
import { readText } from './files.ts';
import { accepted, defaultPolicies, reviewedFile } from './review-file.ts';

/** How the files of a run are reviewed; plain data, so that it can be handed to another thread. */
export interface ReviewSettings {
  /** Of the installed tool. */
  readonly root: string;
  readonly policies: Policies;
  readonly closedForm: boolean;
  readonly faults: boolean;
  /** Ids of the checks that are wanted; all where not given. */
  readonly only?: readonly string[] | undefined;
  readonly waivers: readonly Waiver[];
  /** The file of limits that they are from. */
  readonly limitsPath?: string | undefined;
  /** With what a page draws. */
  readonly sheets: boolean;
  /** As `2027-03-31`. */
  readonly today: string;
}

/**
 * The levels of the default policy, or those of a file of limits with its waivers.
 *
 * Errors: InputError with everything that is wrong with the file.
 */
export function limitsFor({ root, limitsPath }: { root: string; limitsPath: string | undefined }): {
  policies: Policies;
  waivers: readonly Waiver[];
} {
  const policies = defaultPolicies(root);
  if (limitsPath === undefined) return { policies, waivers: [] };
  return accepted(readTeamLimits({ text: readText(limitsPath), path: limitsPath, policies }));
}

/**
 * Reviews one file of several: whatever is wrong with it stands in its place.
 *
 * A bug of ours is told as a problem `internal`, so that it does not hide the other files.
 */
export function reviewedOrRefused({ file, settings }: { file: string; settings: ReviewSettings }): Reviewed {
  try {
    const { root, policies, closedForm, faults, only, today, sheets } = settings;
    const report = reviewedFile({ path: file, root, policies, closedForm, faults, only, sheets });
    const waivers = settings.waivers.filter((waiver) => waiverMatches({ waiver, file, limitsPath: settings.limitsPath }));
    return { file, report: { ...report, results: waivedResults({ results: report.results, waivers, today }) } };
  } catch (error) {
    if (error instanceof InputError) return { file, problems: error.problems };
    return { file, problems: [internalProblem({ file, error })] };
  }
}

/** A bug of ours with one of several files. */
export function internalProblem({ file, error }: { file: string; error: unknown }): { id: 'internal'; message: string; help: string } {
  const words = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  const places = error instanceof Error ? (error.stack ?? '').split('\n').filter((line) => /^ +at /.test(line)) : [];
  const help = ['this is a bug of tankproof; please report it with the file', ...places.slice(0, 4).map((line) => line.trim())].join(' ');
  return { id: 'internal', message: `${file}: ${words}`, help };
}

/** Whether a waiver is meant for a project file. */
export function waiverMatches({ waiver, file, limitsPath }: { waiver: Waiver; file: string; limitsPath: string | undefined }): boolean {
  const path = relative(dirname(limitsPath ?? '.'), file);
  return pathMatches({ path: path.split(sep).join('/'), pattern: waiver.file });
}
