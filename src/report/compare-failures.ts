import type { Verdict } from '../checks/judge.ts';
import { isFailing, isWaived } from '../checks/waiver.ts';
import { checkChanges, isWorseBy } from '../studies/compare/checks.ts';
import type { Ratio } from '../units/si.ts';
import type { ComparedFiles } from './compared-files.ts';

/** What makes a comparison end with 1. */
export interface FailOn {
  /** Verdicts that the projects as they are may not come to. */
  readonly verdicts: readonly Verdict[];
  /** Room that a check may lose; undefined where any loss is well. */
  readonly loss?: Ratio;
}

/** A check for which a comparison fails. */
export interface CompareFailure {
  /** Name of the file. */
  readonly file: string;
  readonly id: string;
  /** The verdict that it may not come to, or that it is worse than it may be. */
  readonly why: Verdict | 'worse';
}

/** The checks for which a comparison fails, each once; none where it does not. */
export function compareFailures({
  files: { files },
  failOn: { verdicts, loss },
}: {
  files: ComparedFiles;
  failOn: FailOn;
}): readonly CompareFailure[] {
  return files.flatMap((file): readonly CompareFailure[] => {
    if (file.kind === 'removed') return [];
    const { name } = file;
    const failed = file.after.results.filter((result) => isFailing({ result, failing: verdicts }));
    // of a file that was added, every check is new
    const checks = file.kind === 'added' ? checkChanges({ before: [], after: file.after.results }) : file.comparison.checks;
    const changes = loss === undefined ? [] : checks.filter((change) => isWorseBy(change, loss));
    const worse = changes.filter((change) => !isWaived(change.after ?? {}) && !failed.some((result) => result.id === change.id));
    return [
      ...failed.map(({ id, verdict }) => ({ file: name, id, why: verdict })),
      ...worse.map(({ id }) => ({ file: name, id, why: 'worse' as const })),
    ];
  });
}

/** Why the exit status is 1: ids by file and reason, `failed: switch-peak-voltage`; nothing where it is not. */
export function failureTexts({ files, failed }: { files: ComparedFiles; failed: readonly CompareFailure[] }): readonly string[] {
  const words = { fail: 'failed', 'not assessed': 'not assessed', warn: 'warned', worse: 'worse than allowed' } as const;
  const names = [...new Set(failed.map(({ file }) => file))];
  return names.flatMap((name) =>
    (['fail', 'not assessed', 'warn', 'worse'] as const).flatMap((why) => {
      const ids = failed.filter((one) => one.file === name && one.why === why).map(({ id }) => id);
      return ids.length === 0 ? [] : [`${files.isFolder ? `${name} ` : ''}${words[why]}: ${ids.join(', ')}`];
    }),
  );
}
