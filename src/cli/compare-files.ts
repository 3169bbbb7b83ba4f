import type { Policies } from '../checks/policy.ts';
import { waivedResults } from '../checks/waiver.ts';
import type { Design } from '../project/design.ts';
import { statedValues } from '../project/stated-values.ts';
import type { ComparedFile, ComparedFiles, ComparedVersion } from '../report/compared-files.ts';
import { InputError, type Diagnostic } from '../source/diagnostic.ts';
import { comparison, type ReviewedProject } from '../studies/compare/comparison.ts';
import type { Ratio } from '../units/si.ts';
import { namedProjects, type NamedProjects, type ProjectSource } from './project-source.ts';
import { accepted, designInText, reportOf } from './review-file.ts';
import { waiverMatches, type ReviewSettings } from './review-settings.ts';

/** A project that was read, and what is still to be computed of it. */
interface Read extends Pick<ReviewedProject, 'path' | 'design' | 'stated'> {
  readonly foreign: readonly string[];
  /** See ProjectSource. */
  readonly place: string;
}

/** How both sides are reviewed. */
type CompareSettings = Pick<ReviewSettings, 'policies' | 'closedForm' | 'waivers' | 'limitsPath' | 'today'>;

/** A project file of either side, or of both, by its name in the folder. */
interface Pair {
  readonly name: string;
  readonly before?: Read;
  readonly after?: Read;
}

/**
 * What became of every project file between two versions of a file or a folder.
 *
 * @param before    a file, a folder, or `git:REV:path`
 * @param after     the same kind of thing
 * @param settings  of the reviews of both sides
 * @param progress  called with the share that is done
 * Errors: InputError with everything that keeps any of the files from being reviewed; then nothing is compared.
 */
export function comparedFiles({
  before,
  after,
  root,
  settings,
  progress,
}: {
  before: string;
  after: string;
  root: string;
  settings: CompareSettings;
  progress: (share: Ratio) => void;
}): ComparedFiles {
  const problems: Diagnostic[] = [];
  const tried = <T>(action: () => T): T | undefined => {
    try {
      return action();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
      return undefined;
    }
  };
  const [old, now] = [before, after].map((name) => tried(() => namedProjects({ name, root })));
  if (old === undefined || now === undefined) throw new InputError(problems);
  const sources = sourcePairs({ names: [before, after], old, now });
  const pairs = sources.map((pair): Pair => {
    // of a file that is gone only its name is told; it is read all the same, so that none that is refused is passed over
    const [was, is] = [pair.before, pair.after].map((source) => source && tried(() => read({ source, policies: settings.policies })));
    return { name: pair.name, ...(was === undefined ? {} : { before: was }), ...(is === undefined ? {} : { after: is }) };
  });
  if (problems.length > 0) throw new InputError(problems);
  const reviews = pairs.reduce((sum, pair) => sum + reviewsOf(pair), 0);
  let done = 0;
  const reviewed = (project: Read): ReviewedProject => {
    const review = reviewedProject({ project, settings });
    done += 1;
    progress(done / reviews);
    return review;
  };
  const files = pairs.flatMap((pair) => tried(() => comparedFile({ pair, reviewed })) ?? []);
  progress(1);
  if (problems.length > 0) throw new InputError(problems);
  const isFolder = now.kind === 'folder';
  return {
    before,
    after,
    isFolder,
    timed: !settings.closedForm,
    files,
    foreign: [...new Set(pairs.flatMap((pair) => pair.before?.foreign ?? []))],
  };
}

function sourcePairs({
  names: [before, after],
  old,
  now,
}: {
  names: readonly [string, string];
  old: NamedProjects;
  now: NamedProjects;
}): readonly { name: string; before: ProjectSource | undefined; after: ProjectSource | undefined }[] {
  if (old.kind === 'file' && now.kind === 'file') return [{ name: now.source.path, before: old.source, after: now.source }];
  if (old.kind === 'file' || now.kind === 'file') {
    const [folder, file] = old.kind === 'folder' ? [before, after] : [after, before];
    const help = 'name two files or two folders';
    throw new InputError([{ id: 'usage', message: `${folder} is a folder and ${file} is a file`, help }]);
  }
  const names = [...new Set([...now.sources.keys(), ...old.sources.keys()])].toSorted();
  return names.map((name) => ({ name, before: old.sources.get(name), after: now.sources.get(name) }));
}

function read({ source, policies }: { source: ProjectSource; policies: Policies }): Read {
  const text = source.text();
  const { path, openLibrary } = source;
  const design = designInText({ text, path, openLibrary, policies });
  return { path, design, stated: accepted(statedValues({ text, path })), foreign: source.foreign(), place: source.place };
}

function reviewedProject({
  project: { path, design, stated, place },
  settings: { policies, waivers, limitsPath, today, closedForm },
}: {
  project: Read;
  settings: CompareSettings;
}): ReviewedProject {
  const { quantities, results, assumptions } = reportOf({ design, path, policies, closedForm });
  const own = waivers.filter((waiver) => waiverMatches({ waiver, file: place, limitsPath }));
  return { path, design, stated, quantities, results: waivedResults({ results, waivers: own, today }), assumptions };
}

/** How many reviews a pair takes: none of a file that is gone, one of equal designs. */
function reviewsOf({ before, after }: Pair): number {
  if (after === undefined) return 0;
  return before === undefined || isAlike(before.design, after.design) ? 1 : 2;
}

function comparedFile({ pair, reviewed }: { pair: Pair; reviewed: (project: Read) => ReviewedProject }): ComparedFile {
  const { name, before, after } = pair;
  if (after === undefined) return { kind: 'removed', name };
  const is = reviewed(after);
  if (before === undefined) return { kind: 'added', name, after: told(is) };
  // equal designs are computed alike: the second review would be the first
  const was = isAlike(before.design, after.design)
    ? { ...is, path: before.path, design: before.design, stated: before.stated }
    : reviewed(before);
  return { kind: 'both', name, before: told(was), after: told(is), comparison: comparison({ before: was, after: is }) };
}

function told({ path, design, results }: ReviewedProject): ComparedVersion {
  return { path, title: design.title ?? 'untitled', results };
}

/** Whether two designs differ in nothing but the places where they are written. */
function isAlike(a: Design, b: Design): boolean {
  const placeless = (design: Design): string => JSON.stringify(design, (key, value: unknown) => (key === 'where' ? undefined : value));
  return placeless(a) === placeless(b);
}
