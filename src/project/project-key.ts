import type { Part } from '../parts/part.ts';
import type { SourceNode } from '../source/source-tree.ts';
import { entryOf } from '../source/source-tree.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import type { Diagnostic, Outcome } from '../source/diagnostic.ts';
import { schemaUnder, typesOf } from '../source/json-schema.ts';
import type { JsonSchema, SchemaPlace } from '../source/json-schema.ts';
import { quoted } from '../source/quoted.ts';
import type { Dimension } from '../units/dimension.ts';
import { namedPartProblem } from './inline-part.ts';
import { loadName } from './project-contradictions.ts';
import { projectSchema } from './project-schema.ts';

/** A key of a project file that holds a quantity or a number. */
export interface ProjectKey {
  /** Keys and indexes from 0, from the root of the file. */
  readonly segments: readonly string[];
  /** As it is told: a load by its name. */
  readonly name: string;
  readonly dimension: Dimension;
  /** Whether only whole numbers can stand there. */
  readonly isWhole: boolean;
  /** Written as a bare number, in percent, or with the unit of its dimension. */
  readonly form: 'number' | 'percent' | 'unit';
  /** Whether the file has the key. */
  readonly isWritten: boolean;
}

interface Found {
  readonly place: SchemaPlace;
  readonly node: SourceNode | undefined;
  readonly segments: readonly string[];
  /** Of the part of the path that is found. */
  readonly name: string;
}

type Step = { readonly found: Found; readonly rest: string } | { readonly problem: Diagnostic };

/**
 * The key of a project file that a dotted path names: `supply.voltage`, `loads[1].power` (counted from 0), `loads.NAME.power`,
 * `tank.bank.part.capacitance` of an inline part. The key need not be written in the file.
 *
 * @param root   of the project file
 * @param path   as written
 * @param parts  those that the file names, so that it can be said what to write in place of a name
 * @returns the key; or what is wrong with it: `unknown-key`, `not-a-quantity`, `named-part`
 */
export function projectKey({ root, path, parts = [] }: { root: SourceNode; path: string; parts?: readonly Part[] }): Outcome<ProjectKey> {
  let found: Found = { place: projectSchema, node: root, segments: [], name: '' };
  let rest = path.trim().replaceAll(/\[(\d+)\]/g, '.$1');
  while (rest !== '') {
    const step = stepped(found, { rest, parts });
    if ('problem' in step) return { ok: false, problems: [step.problem] };
    ({ found, rest } = step);
  }
  return keyOf({ found: withinRating(found), path: path.trim(), parts });
}

function stepped({ place, node, segments, name }: Found, { rest, parts }: { rest: string; parts: readonly Part[] }): Step {
  if (place.schema.items !== undefined) return steppedIntoList({ place, node, segments, name }, rest);
  const part =
    partProblem({ found: { place, node, name }, parts, wanted: rest }) ?? besidePart({ found: { place, node, name }, parts, wanted: rest });
  if (part !== undefined) return { problem: part };
  // a key may itself hold dots: the longest one that is written, else the word before the next dot
  const entries = node?.kind === 'map' ? node.entries : [];
  const written = entries
    .filter(({ key }) => rest === key || rest.startsWith(`${key}.`))
    .toSorted((a, b) => b.key.length - a.key.length)[0];
  const [word = ''] = written === undefined ? rest.split('.') : [written.key];
  const child = schemaUnder(place, word);
  if (child === undefined) return { problem: unknownKey({ place, name, word }) };
  const found = { place: child, node: written?.value, segments: [...segments, word], name: name === '' ? word : `${name}.${word}` };
  return { found, rest: rest.slice(word.length + 1) };
}

/** Items of a list of loads go by their index from 0 or by name. */
function steppedIntoList({ place, node, segments, name }: Found, rest: string): Step {
  const items = node?.kind === 'list' ? node.items : [];
  const names = items.map((item, index) => loadName({ node: item, index }));
  const named = names
    .filter((candidate) => rest === candidate || rest.startsWith(`${candidate}.`))
    .toSorted((a, b) => b.length - a.length)[0];
  const [word = ''] = named === undefined ? rest.split('.') : [named];
  const index = named === undefined ? (/^\d+$/.test(word) ? Number(word) : -1) : names.indexOf(named);
  const item = items[index];
  const child = schemaUnder(place, String(index));
  if (item === undefined || child === undefined) {
    const help =
      items.length === 0
        ? `the file has no \`${name}\``
        : (didYouMeanHelp({ word, names }) ?? `there are ${names.map((one, i) => `${name}[${i}] (${one})`).join(', ')}`);
    return { problem: { id: 'unknown-key', message: `there is no \`${name}\` ${quoted(word)}`, help } };
  }
  const found = { place: child, node: item, segments: [...segments, String(index)], name: `${name}.${names[index]!}` };
  return { found, rest: rest.slice(word.length + 1) };
}

/** What is looked for in a place, and the parts that may stand there. */
interface Wanted {
  readonly found: Pick<Found, 'place' | 'node' | 'name'>;
  readonly parts: readonly Part[];
  /** The path that is left. */
  readonly wanted: string;
}

/** A part that is named has its ratings in its own file. */
function partProblem({ found: { node, name, place }, parts, wanted }: Wanted): Diagnostic | undefined {
  if (node?.kind !== 'scalar') return undefined;
  if (place.schema['x-dimension'] !== undefined) {
    return { id: 'not-a-quantity', message: `\`${name}\` is written as one quantity and has no keys in it`, help: `vary ${name} itself` };
  }
  if (place.schema.properties === undefined) return undefined;
  return namedPartProblem({ path: name, name: node.text, part: parts.find((part) => part.name === node.text), wanted });
}

/** A rating beside the name of a part would contradict it. */
function besidePart({ found: { node, name, place }, parts, wanted }: Wanted): Diagnostic | undefined {
  const named = node?.kind === 'map' ? entryOf(node, 'part')?.value : undefined;
  const part = schemaUnder(place, 'part');
  if (part === undefined || schemaUnder(place, wanted) === undefined || schemaUnder(part, wanted) === undefined) return undefined;
  return partProblem({ found: { place: part, node: named, name: `${name}.part` }, parts, wanted });
}

function unknownKey({ place, name, word }: { place: SchemaPlace; name: string; word: string }): Diagnostic {
  const names = Object.keys(place.schema.properties ?? {});
  const where = name === '' ? 'a project file' : `\`${name}\``;
  const help = didYouMeanHelp({ word, names }) ?? (names.length === 0 ? `vary \`${name}\` itself` : `it has ${names.join(', ')}`);
  return { id: 'unknown-key', message: `${quoted(word)} is not a key of ${where}`, help };
}

/** A rating with its source beside it has its number under `value`. */
function withinRating(found: Found): Found {
  const { place, node, segments } = found;
  if (node?.kind !== 'map' || place.schema['x-dimension'] === undefined) return found;
  const value = entryOf(node, 'value')?.value;
  const child = schemaUnder(place, 'value');
  return value === undefined || child === undefined ? found : { ...found, place: child, node: value, segments: [...segments, 'value'] };
}

function keyOf({
  found: { place, node, segments, name },
  path,
  parts,
}: {
  found: Found;
  path: string;
  parts: readonly Part[];
}): Outcome<ProjectKey> {
  const { schema } = place;
  const refuse = (message: string, help: string): Outcome<never> => ({ ok: false, problems: [{ id: 'not-a-quantity', message, help }] });
  const types = typesOf(schema);
  const dimension = schema['x-dimension'];
  const part = dimension === undefined ? partProblem({ found: { place, node, name }, parts, wanted: '' }) : undefined;
  if (part !== undefined) return { ok: false, problems: [part] };
  if (schema.items !== undefined) {
    const items = node?.kind === 'list' ? node.items : [];
    const help = `name a key of one of its items${items.some(({ kind }) => kind === 'map') ? `, such as ${name}[0].power` : ''}`;
    return refuse(`\`${path}\` is a list, not a quantity`, help);
  }
  if (node?.kind === 'map' || (dimension === undefined && schema.properties !== undefined)) {
    const keys = dimension === undefined ? Object.keys(schema.properties ?? {}) : ['value'];
    return refuse(`${path === '' ? 'the path' : `\`${path}\``} is a group of keys, not a quantity`, `name one of ${keys.join(', ')}`);
  }
  const isNumber = types.includes('integer') && schema.const === undefined;
  if (!isNumber && typeof dimension !== 'string') {
    const what = types.includes('boolean') ? 'true or false' : types.includes('integer') ? 'a fixed number' : 'text';
    return refuse(`\`${path}\` is ${what}, not a quantity`, 'name a key whose value is a quantity or a number, such as supply.voltage');
  }
  return {
    ok: true,
    value: {
      segments,
      name,
      dimension: typeof dimension === 'string' ? (dimension as Dimension) : 'count',
      isWhole: dimension === undefined,
      form: formOf(schema),
      isWritten: node !== undefined && node.kind !== 'nothing',
    },
  };
}

function formOf(schema: JsonSchema): ProjectKey['form'] {
  if (schema['x-dimension'] === undefined || typesOf(schema).includes('number')) return 'number';
  return schema['x-dimension'] === 'ratio' ? 'percent' : 'unit';
}
