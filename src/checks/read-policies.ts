import type { Design } from '../project/design.ts';
import type { Diagnostic, Outcome } from '../source/diagnostic.ts';
import type { Location } from '../source/location.ts';
import { entryOf, type SourceNode } from '../source/source-tree.ts';
import { parseYaml } from '../source/yaml-source.ts';
import type { Dimension } from '../units/dimension.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import { shown, writeSuch } from '../units/quantity-problem.ts';
import type { Level, Policies, Policy } from './policy.ts';
import { checkIds, checks } from './registry.ts';
import { verdictOrderProblem } from './level-order.ts';
import { misspeltLevel } from './misspelt-level.ts';

/**
 * The policy file: for each check where it warns and fails, with reason and source.
 *
 * @param text  of shared/limits.yaml
 * @param path  of that file, for positions
 * @returns levels by check id; or everything that is wrong with the file
 */
export function readPolicies({ text, path }: { text: string; path: string }): Outcome<Policies> {
  const parsed = parseYaml({ text, path });
  if (!parsed.ok) return parsed;
  const problems: Diagnostic[] = [];
  const policies = new Map<string, Policy>();
  for (const check of checks) {
    const entry = entryOf(parsed.value.root, check.id);
    if (entry === undefined) continue;
    const level = (node: SourceNode | undefined): Level | undefined =>
      read({ node, dimension: check.dimension, problems, at: entry.keyAt });
    const field = (key: string): SourceNode | undefined => entryOf(entry.value, key)?.value;
    const [warn, fail, reason, source, other] = [
      level(field('warn')),
      level(field('fail')),
      field('reason'),
      field('source'),
      field('other'),
    ];
    if (warn === undefined || fail === undefined) continue;
    if (reason?.kind !== 'scalar' || source?.kind !== 'scalar') {
      problems.push({ id: 'missing-key', message: `limits of ${check.id} need reason and source`, at: entry.keyAt });
      continue;
    }
    const [otherWarn, otherFail] = [entryOf(other, 'warn')?.value, entryOf(other, 'fail')?.value];
    const otherLevels = otherWarn && otherFail ? { warn: level(otherWarn), fail: level(otherFail) } : undefined;
    policies.set(check.id, {
      warn,
      fail,
      isRated: [warn, fail, otherLevels?.warn, otherLevels?.fail].some((one) => one !== undefined && !('quantity' in one)),
      reason: reason.text,
      source: source.text,
      ...(otherLevels?.warn && otherLevels.fail ? { other: { warn: otherLevels.warn, fail: otherLevels.fail } } : {}),
    });
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: policies };
}

/** Which level of a check. */
export type Side = 'warn' | 'fail' | 'other.warn' | 'other.fail';

/** Levels of one check in place of those of a policy, as they are written. */
export interface Override {
  readonly id: string;
  /** Of the check in its file, for problems and for the report. */
  readonly at: Location;
  /** Key, text and place of a level; undefined where it is not written. */
  readonly side: (side: Side) => { readonly key: string; readonly text: string; readonly at: Location } | undefined;
  readonly reason?: string | undefined;
  readonly source?: string | undefined;
}

/**
 * The policies with a project's own limits in place of the defaults.
 *
 * @returns merged levels, the overridden ones marked with their place; or what is wrong with the project's limits
 */
export function projectPolicies({
  policies,
  design,
}: {
  policies: Policies;
  design: Pick<Design, 'limits' | 'locate'>;
}): Outcome<Policies> {
  const overrides = Object.entries(design.limits).map(([id, override]): Override => {
    return {
      id,
      at: design.locate(`limits.${id}`),
      side: (side) => {
        const [text, key] = [side === 'warn' || side === 'fail' ? override[side] : undefined, `limits.${id}.${side}`];
        return text === undefined ? undefined : { key, text, at: design.locate(key) };
      },
    };
  });
  return overriddenPolicies({ policies, overrides });
}

/**
 * What is wrong with the levels of a project that may have other mistakes; an id that no check has is not among them.
 */
export function limitProblems({
  policies,
  limits,
  locate,
}: { policies: Policies } & Pick<Design, 'limits' | 'locate'>): readonly Diagnostic[] {
  const known = Object.fromEntries(Object.entries(limits).filter(([id]) => checkIds.includes(id)));
  const outcome = projectPolicies({ policies, design: { limits: known, locate } });
  return outcome.ok ? [] : outcome.problems;
}

/**
 * The policies with other levels in their place.
 *
 * @returns merged levels, the overridden ones marked with their place; or what is wrong with them
 */
export function overriddenPolicies({ policies, overrides }: { policies: Policies; overrides: readonly Override[] }): Outcome<Policies> {
  const merged = new Map(policies);
  const problems: Diagnostic[] = [];
  for (const { id, at, side, reason, source } of overrides) {
    const check = checks.find((candidate) => candidate.id === id);
    const policy = policies.get(id);
    if (check === undefined || policy === undefined) {
      problems.push({
        id: 'fixed-limit',
        message: `the limits of ${id} come from the circuit and cannot be set`,
        help: 'remove the line',
        at,
      });
      continue;
    }
    const { isRated } = policy;
    const before = problems.length;
    const level = (name: Side, like: Level): Level => {
      const written = side(name);
      return written === undefined ? like : (levelOf({ ...written, dimension: check.dimension, like, isRated, problems }) ?? like);
    };
    const levels = { warn: level('warn', policy.warn), fail: level('fail', policy.fail) };
    // who sets one pair of levels sets it for parts of every kind
    const other = { warn: level('other.warn', levels.warn), fail: level('other.fail', levels.fail) };
    // the default in the place of a refused level says nothing of their order
    const pairs = problems.length === before ? [levels, other] : [];
    const disorder = pairs.flatMap((pair) => verdictOrderProblem({ ...pair, sense: check.sense, id, at }) ?? []);
    problems.push(...disorder.slice(0, 1));
    const words = { reason: reason ?? policy.reason, source: source ?? policy.source };
    merged.set(id, { ...words, ...levels, other, isRated, overriddenAt: `${at.path}:${at.line}` });
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: merged };
}

function read({
  node,
  dimension,
  problems,
  at,
}: {
  node: SourceNode | undefined;
  dimension: Dimension;
  problems: Diagnostic[];
  at: Location;
}): Level | undefined {
  if (node?.kind === 'scalar') return levelOf({ text: node.text, dimension, problems, at: node.at });
  problems.push({ id: 'missing-key', message: 'a level is missing', help: 'write "0.8 of rating" or a quantity', at });
  return undefined;
}

/** Words of a level: `0.8 of rating`, `rating - 25 K`, a quantity; a bare ratio where the default is a share of the rating. */
function levelOf({
  text,
  dimension,
  like,
  isRated = true,
  key,
  problems,
  at,
}: {
  text: string;
  dimension: Dimension;
  /** The default level. */
  like?: Level;
  /** Whether the findings have a rating. */
  isRated?: boolean;
  key?: string;
  problems: Diagnostic[];
  at: Location;
}): Level | undefined {
  const subject = key === undefined ? '' : `\`${key}\`: `;
  const share = /^(.+?)\s+of rating$/.exec(text)?.[1];
  const less = /^rating\s*[-−]\s*(.+)$/.exec(text)?.[1];
  const bareShare = share === undefined && like?.share !== undefined && /^[-+]?[\d.]+\s*%?$/.test(text) ? text : undefined;
  const misspelt = share === undefined && less === undefined ? misspeltLevel({ text, dimension, isRated }) : undefined;
  if (misspelt !== undefined) {
    problems.push({ ...misspelt, message: `${subject}${misspelt.message}`, at });
    return undefined;
  }
  const lessDimension = dimension === 'temperature' ? 'temperatureRise' : dimension;
  const [quantity, kind]: readonly [string, Dimension] =
    (share ?? bareShare) !== undefined ? [(share ?? bareShare)!, 'ratio'] : less !== undefined ? [less, lessDimension] : [text, dimension];
  const parsed = parseQuantity({ text: quantity, dimension: kind });
  if (!parsed.ok) {
    const { problem } = parsed;
    problems.push({
      id: problem.id,
      message: `${subject}${problem.message}`,
      help: problem.help ?? 'write "0.8 of rating" or a quantity',
      at,
    });
    return undefined;
  }
  if (!isRated && (share !== undefined || less !== undefined)) {
    problems.push({ id: 'no-rating', message: `${subject}there is no rating to take a share of`, help: writeSuch(dimension), at });
    return undefined;
  }
  if ((share ?? bareShare) !== undefined) {
    if (dimension === 'temperature' && parsed.value !== 1) {
      problems.push({
        id: 'share-of-temperature',
        message: `${subject}"${shown(text)}" would be a share of the rating in kelvin, from absolute zero on`,
        help: `write so much less than the rating, such as "rating - 25 K", or ${writeSuch(dimension).replace('write ', '')}`,
        at,
      });
      return undefined;
    }
    if (parsed.value > 0) return { share: parsed.value };
    problems.push({
      id: 'out-of-range',
      message: `${subject}a share of a rating is above zero`,
      help: 'write a share such as "0.8 of rating"',
      at,
    });
    return undefined;
  }
  if (parsed.value <= 0) {
    problems.push({ id: 'out-of-range', message: `${subject}a level is above zero`, help: writeSuch(kind), at });
    return undefined;
  }
  return less !== undefined ? { less: parsed.value } : { quantity: parsed.value };
}
