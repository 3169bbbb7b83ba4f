import type { Policies } from '../checks/policy.ts';
import { checkIds, explained } from '../checks/registry.ts';
import { reviewOf } from '../checks/review.ts';
import { quantitiesOf } from '../driver/quantities.ts';
import type { PartsLibrary } from '../parts/library.ts';
import type { Part } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import { editedProject, valueText } from '../project/edited-project.ts';
import { projectKey, type ProjectKey } from '../project/project-key.ts';
import type { LibraryOpener } from '../project/read-project.ts';
import { InputError } from '../source/diagnostic.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { parseYaml } from '../source/yaml-source.ts';
import { mostPoints, sweep, type PointReview, type Shown, type Sweep } from '../studies/sweep.ts';
import { timedChecks, timedQuantities } from '../studies/timed-checks.ts';
import type { Ratio } from '../units/si.ts';
import { readText } from './files.ts';
import { partsInFolders } from './parts-folders.ts';
import { exactRange } from './quantity-range.ts';
import { accepted, analysisFor, designInText, ownPolicies, studied } from './review-file.ts';

interface Varied {
  readonly key: ProjectKey;
  readonly values: readonly number[];
}

/**
 * One or two keys of a project file against quantities and checks, each point being the file with other values at the keys.
 *
 * @param vary        `key=from..to:step`, one or two
 * @param show        ids of quantities and checks
 * @param closedForm  leave out the time domain where something shown would need it
 * @param progress    called with the share that is done
 * Errors: InputError where the file is refused as it is, and where a key, a range or an id is wrong.
 */
export function sweptFile({
  path,
  root,
  policies,
  vary,
  show,
  closedForm,
  progress,
}: {
  path: string;
  root: string;
  policies: Policies;
  vary: readonly string[];
  show: readonly string[];
  closedForm: boolean;
  progress: (share: Ratio) => void;
}): { title: string; sweep: Sweep } {
  const text = readText(path);
  const openLibrary = keptLibrary((folders) => partsInFolders({ root, projectPath: path, folders }));
  const only = new Set(show);
  // a shown result as `check` has it, without the words that only a report of the whole needs
  const review = (given: string, inClosedForm: boolean): PointReview => {
    const design = designInText({ text: given, path, openLibrary, policies });
    return studied({
      design,
      study: () => {
        const analysis = analysisFor({ design, closedForm: inClosedForm });
        const results = reviewOf({ analysis, policies: ownPolicies({ policies, design }), only });
        return { quantities: quantitiesOf(analysis), results };
      },
    });
  };
  const design = designInText({ text, path, openLibrary, policies });
  const base = review(text, true);
  const varied = variedKeys({ text, path, vary, parts: partsOf(design) });
  const shown = show.flatMap((id) => shownOf({ id, base }));
  const timed = !closedForm && shown.some(({ id }) => timedChecks.has(id) || timedQuantities.has(id));
  const keys = varied.map(({ key: { name, dimension, isWritten }, values }) => ({ name, dimension, isWritten, values }));
  const reviewAt = (values: readonly number[]): PointReview => review(textAt({ text, path, varied, values }), !timed);
  const swept = sweep({ keys, shown, timed, reviewAt, progress });
  const refused = swept.points.flatMap((point) => ('refused' in point ? [point.refused] : []));
  // nothing is left to show where no point can be computed
  if (refused.length === swept.points.length) throw new InputError(refused.slice(0, 1));
  return { title: design.title ?? 'untitled', sweep: swept };
}

/** The parts that a design has. */
function partsOf({ switches, gates, tank, chokes }: Design): readonly Part[] {
  const { crossDiode, clamp } = gates;
  return [switches.mosfet, crossDiode, ...(clamp === undefined ? [] : [clamp]), tank.bank.capacitor, chokes.choke];
}

function variedKeys({
  text,
  path,
  vary,
  parts,
}: {
  text: string;
  path: string;
  vary: readonly string[];
  parts: readonly Part[];
}): readonly Varied[] {
  const { root } = accepted(parseYaml({ text, path }));
  if (vary.length > 2)
    throw new InputError([{ id: 'usage', message: 'a sweep varies one or two keys', help: 'leave out the other --vary' }]);
  const varied = vary.map((one): Varied => {
    const [, name, range] = /^(.+)=([^=]*)$/.exec(one) ?? [];
    const help = 'write a key and a range such as "supply.voltage=12 V..36 V:1 V"';
    if (name === undefined || range === undefined) throw new InputError([{ id: 'usage', message: `--vary: "${one}" has no "="`, help }]);
    const key = accepted(projectKey({ root, path: name, parts }));
    const option = `--vary ${key.name}`;
    return { key, values: exactRange({ option, text: range, dimension: key.dimension, isWhole: key.isWhole, most: mostPoints }) };
  });
  const [first, second] = varied;
  if (first !== undefined && second !== undefined) {
    if (first.key.segments.join('.') === second.key.segments.join('.'))
      throw new InputError([{ id: 'usage', message: `--vary names \`${first.key.name}\` twice`, help: 'name two different keys' }]);
    const count = first.values.length * second.values.length;
    if (count > mostPoints) {
      const message = `the two ranges make ${count} points, and a sweep has at most ${mostPoints}`;
      throw new InputError([{ id: 'too-many-points', message, help: 'take larger steps' }]);
    }
  }
  return varied;
}

/** A quantity is shown with every load, a check at its worst. */
function shownOf({ id, base }: { id: string; base: PointReview }): readonly Shown[] {
  const check = explained.find((candidate) => candidate.id === id);
  if (check !== undefined) return [{ kind: 'check', id, dimension: check.dimension, sense: check.sense }];
  const quantities = base.quantities.filter((quantity) => quantity.id === id);
  if (quantities.length > 0) return quantities.map(({ dimension, case: load }) => ({ kind: 'quantity', id, load, dimension }));
  const names = [...new Set([...base.quantities.map((quantity) => quantity.id), ...checkIds])];
  const help =
    didYouMeanHelp({ word: id, names }) ??
    `quantities: ${names.filter((name) => name.includes('.')).join(', ')}; checks: tankproof explain`;
  throw new InputError([{ id: 'unknown-id', message: `--show: no quantity or check is called "${id}"`, help }]);
}

/** The file with these values at the keys; the second key is looked for in what the first edit left. */
function textAt({
  text,
  path,
  varied,
  values,
}: {
  text: string;
  path: string;
  varied: readonly Varied[];
  values: readonly number[];
}): string {
  return varied.reduce((current, { key }, i) => {
    const { root } = accepted(parseYaml({ text: current, path }));
    const edited = editedProject({ text: current, root, key, value: valueText({ value: values[i]!, key }) });
    if (edited !== undefined) return edited;
    const help = `write \`${key.name}\` on one line`;
    throw new InputError([{ id: 'not-editable', message: `the value of \`${key.name}\` cannot be replaced where it stands`, help }]);
  }, text);
}

/** Folders are looked through and parts read once, not at every point. */
function keptLibrary(open: LibraryOpener): LibraryOpener {
  const libraries = new Map<string, PartsLibrary>();
  return (folders) => {
    const key = folders.join('\n');
    const library = libraries.get(key) ?? withParts(open(folders));
    libraries.set(key, library);
    return library;
  };
}

function withParts(library: PartsLibrary): PartsLibrary {
  const parts = new Map<string, Part | undefined>();
  return {
    ...library,
    ready: (kind, name) => {
      const key = `${kind}/${name}`;
      if (!parts.has(key)) parts.set(key, library.ready?.(kind, name));
      return parts.get(key);
    },
  };
}
