import limitsDocument from '../../shared/limits.schema.json' with { type: 'json' };
import { quantityParser } from '../parts/quantity-parser.ts';
import { limits as validate } from '../parts/validate.generated.js';
import type { Diagnostic, Outcome } from '../source/diagnostic.ts';
import { notSaid } from '../source/not-said.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import { inFileOrder } from '../source/file-order.ts';
import type { SchemaPlace } from '../source/json-schema.ts';
import { entryOf, type MapEntry, type SourceNode } from '../source/source-tree.ts';
import { structureProblems } from '../source/structure.ts';
import { parseYaml } from '../source/yaml-source.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import { writeSuch } from '../units/quantity-problem.ts';
import { isDay } from './day.ts';
import type { Policies } from './policy.ts';
import { overriddenPolicies, type Override } from './read-policies.ts';
import { checkIds, explained } from './registry.ts';
import type { Waiver } from './waiver.ts';

/** The schema of a file of limits. */
export const limitsSchema: SchemaPlace = {
  documents: { 'limits.schema.json': limitsDocument },
  base: 'limits.schema.json',
  schema: limitsDocument,
};

/** Keys of the file that are no ids of checks. */
const ownKeys = Object.keys(limitsDocument.properties);

/** Verdicts that `verdict` of a waiver may name. */
const waivable = limitsDocument.properties.waivers.items.properties.verdict.enum as readonly NonNullable<Waiver['verdict']>[];

/** What a team sets for all its projects. */
export interface TeamLimits {
  readonly policies: Policies;
  readonly waivers: readonly Waiver[];
}

/**
 * A file of limits for `check --limits`.
 *
 * @param text      of the file, decoded
 * @param path      of the file, for positions
 * @param policies  that it overrides
 * @returns levels and waivers; or everything that is wrong with the file, in its order
 */
export function readTeamLimits({ text, path, policies }: { text: string; path: string; policies: Policies }): Outcome<TeamLimits> {
  const parsed = parseYaml({ text, path, lists: { waivers: 'id' } });
  if (!parsed.ok) return parsed;
  const { root } = parsed.value;
  const entries = root.kind === 'map' ? root.entries.filter(({ key }) => !ownKeys.includes(key)) : [];
  const unknown = entries.filter(({ key }) => !checkIds.includes(key)).map(unknownCheck);
  // a misspelt key is told as such, not by what its value is not
  const structure = structureProblems({ root, place: limitsSchema, validate, what: 'a file of limits', parse: quantityParser });
  const misplaced = structure.problems.filter(
    ({ at }) => !entries.some((entry) => isUnder({ at, entry }) && !checkIds.includes(entry.key)),
  );
  const waivers = waiversIn(entryOf(root, 'waivers')?.value);
  const merged = overriddenPolicies({ policies, overrides: entries.filter(({ key }) => checkIds.includes(key)).map(overrideOf) });
  const levels = merged.ok ? [] : notSaid({ problems: merged.problems, said: misplaced });
  const problems = [...unknown, ...misplaced, ...waivers.problems, ...levels];
  if (problems.length > 0 || !merged.ok) return { ok: false, problems: inFileOrder(problems) };
  return { ok: true, value: { policies: merged.value, waivers: waivers.waivers } };
}

function isUnder({ at, entry }: { at: Diagnostic['at']; entry: MapEntry }): boolean {
  return at !== undefined && (at.offset === entry.keyAt.offset || at.offset === entry.value.at.offset);
}

function unknownCheck({ key, keyAt }: MapEntry): Diagnostic {
  const help = didYouMeanHelp({ word: key, names: [...ownKeys, ...checkIds] }) ?? 'list the checks with `tankproof explain`';
  return { id: 'unknown-check', message: `no check is called \`${key}\``, label: 'unknown check', help, at: keyAt };
}

function overrideOf({ key: id, keyAt, value }: MapEntry): Override {
  const text = (key: string): string | undefined => textOf(entryOf(value, key)?.value);
  return {
    id,
    at: keyAt,
    side: (side) => {
      const node = side.split('.').reduce<SourceNode | undefined>((found, step) => entryOf(found, step)?.value, value);
      return node?.kind === 'scalar' ? { key: `${id}.${side}`, text: node.text, at: node.at } : undefined;
    },
    reason: text('reason'),
    source: text('source'),
  };
}

function textOf(node: SourceNode | undefined): string | undefined {
  return node?.kind === 'scalar' ? node.text : undefined;
}

/** The waivers that are complete, and what is wrong with an id, a date or a value. */
function waiversIn(list: SourceNode | undefined): { waivers: readonly Waiver[]; problems: readonly Diagnostic[] } {
  const problems: Diagnostic[] = [];
  const waivers = (list?.kind === 'list' ? list.items : []).flatMap((item): readonly Waiver[] => {
    const [id, file, reason, expires] = ['id', 'file', 'reason', 'expires'].map((key) => textOf(entryOf(item, key)?.value));
    const place = (key: string): SourceNode['at'] => entryOf(item, key)?.value.at ?? item.at;
    if (id !== undefined && id !== '' && !checkIds.includes(id)) {
      const help = didYouMeanHelp({ word: id, names: checkIds }) ?? 'list the checks with `tankproof explain`';
      problems.push({ id: 'unknown-check', message: `no check is called \`${id}\``, label: 'unknown check', help, at: place('id') });
    }
    if (expires !== undefined && expires !== '' && !isDay(expires))
      problems.push({
        id: 'not-a-day',
        message: `\`expires\` is no day of the calendar: ${expires}`,
        label: 'expected a day',
        help: 'write year, month and day, such as `expires: 2027-03-31`',
        at: place('expires'),
      });
    if (id === undefined || file === undefined || reason === undefined || expires === undefined) return [];
    const verdict = waivable.find((word) => word === textOf(entryOf(item, 'verdict')?.value));
    const upTo = worstWaived({ id, node: entryOf(item, 'upTo')?.value, problems });
    return [{ id, file, reason, expires, ...(verdict && { verdict }), ...(upTo !== undefined && { upTo }), at: item.at }];
  });
  return { waivers, problems };
}

/** `upTo` of a waiver in SI, in the dimension of its check; undefined where it is not written or wrong. */
function worstWaived({ id, node, problems }: { id: string; node: SourceNode | undefined; problems: Diagnostic[] }): number | undefined {
  const check = explained.find((one) => one.id === id);
  const text = textOf(node);
  if (check === undefined || node === undefined || text === undefined || text === '') return undefined;
  const parsed = parseQuantity({ text, dimension: check.dimension });
  if (parsed.ok) return parsed.value;
  const { message, help = writeSuch(check.dimension), ...problem } = parsed.problem;
  problems.push({ ...problem, message: `\`upTo\` of ${id}: ${message}`, help, at: node.at });
  return undefined;
}
