import { boundsProblem } from './bounds.ts';
import type { QuantityParser } from './bounds.ts';
import type { Diagnostic } from './diagnostic.ts';
import { didYouMeanHelp } from './did-you-mean.ts';
import { resolvedSchema, schemaUnder, typesOf } from './json-schema.ts';
import type { JsonSchema, SchemaPlace } from './json-schema.ts';
import type { Location } from './location.ts';
import { ownHelp } from './own-help.ts';
import { quoted } from './quoted.ts';
import type { MapEntry, ScalarNode, SourceNode } from './source-tree.ts';

const rangeHelp = 'write a value in that range; check the number and the prefix of its unit';

/** SI numbers by the node that they are written in, or by the entry whose key they are. */
export type Quantities = ReadonlyMap<SourceNode | MapEntry, number>;

interface Reading {
  readonly parse: QuantityParser;
  readonly values: Map<SourceNode | MapEntry, number>;
  readonly problems: Diagnostic[];
}

interface Written {
  readonly text: string;
  readonly path: string;
  readonly at: Location;
  readonly schema: JsonSchema;
}

function dimensionsOf(schema: JsonSchema): readonly string[] {
  const dimension = schema['x-dimension'];
  return dimension === undefined ? [] : typeof dimension === 'string' ? [dimension] : dimension;
}

const noneFits = (text: string): { id: string; message: string; help: string } => ({
  id: 'wrong-unit',
  message: `${quoted(text)} is of no kind that can stand here`,
  help: 'write a ratio, such as 0.8, or a quantity, such as 110 degC',
});

/** Reads a text in the first dimension that fits; a problem goes to the list. */
function readValue({ text, path, at, schema }: Written, { parse, problems }: Reading): number | undefined {
  const tries = dimensionsOf(schema).map((dimension) => ({ dimension, parsed: parse({ text, dimension }) }));
  const fitting = tries.find(({ parsed }) => parsed.ok);
  if (fitting?.parsed.ok) {
    const { value } = fitting.parsed;
    const unbounded = { id: 'not-finite', message: 'must be a finite number' };
    const problem = Number.isFinite(value) ? boundsProblem({ text, value, dimension: fitting.dimension, schema, parse }) : unbounded;
    if (problem === undefined) return value;
    problems.push({ help: rangeHelp, ...problem, message: `\`${path}\` ${problem.message}, not ${quoted(text)}`, at });
    return undefined;
  }
  const word = schema['x-word'];
  if (word !== undefined && /^[a-z]/i.test(text)) {
    const [example] = schema.examples ?? [];
    const help = didYouMeanHelp({ word: text, names: [word] }) ?? `write ${word}, or a quantity such as "${String(example)}"`;
    const message = `\`${path}\` must be ${word} or a quantity, not ${quoted(text)}`;
    problems.push({ id: 'unknown-word', message, help, at });
    return undefined;
  }
  const failed = tries.flatMap(({ parsed }) => (parsed.ok ? [] : [parsed.problem]));
  const problem = failed.find(({ id }) => id !== 'wrong-unit') ?? (failed.length > 1 ? noneFits(text) : failed[0]);
  if (problem) {
    const help = ownHelp({ text, problem, schema, parse });
    problems.push({ ...problem, ...(help === undefined ? {} : { help }), message: `\`${path}\`: ${problem.message}`, at });
  }
  return undefined;
}

function readScalar({ node, path, schema }: { node: ScalarNode; path: string; schema: JsonSchema }, reading: Reading): void {
  const types = typesOf(schema);
  if (dimensionsOf(schema).length === 0 || node.text === schema['x-word']) return;
  if (typeof node.value === 'number' ? !types.includes('number') : !(typeof node.value === 'string' && types.includes('string'))) return;
  const value = readValue({ text: node.text, path, at: node.at, schema }, reading);
  if (value !== undefined) reading.values.set(node, value);
}

function readNode({ node, path, place }: { node: SourceNode; path: string; place: SchemaPlace }, reading: Reading): void {
  const { schema } = place;
  const under = (key: string): string => (path === '' ? key : `${path}.${key}`);
  if (node.kind === 'scalar') readScalar({ node, path, schema }, reading);
  if (node.kind === 'list')
    node.items.forEach((item, index) => {
      const child = schemaUnder(place, String(index));
      if (child) readNode({ node: item, path: under(String(index)), place: child }, reading);
    });
  if (node.kind !== 'map') return;
  const keySchema = schema.propertyNames && resolvedSchema({ ...place, schema: schema.propertyNames }).schema;
  for (const entry of node.entries) {
    const child = schemaUnder(place, entry.key);
    if (!child) continue;
    if (keySchema && !Object.hasOwn(schema.properties ?? {}, entry.key)) {
      const key = readValue({ text: entry.key, path, at: entry.keyAt, schema: keySchema }, reading);
      if (key !== undefined) reading.values.set(entry, key);
    }
    readNode({ node: entry.value, path: under(entry.key), place: child }, reading);
  }
}

/**
 * All quantities of a tree, read as its schema says: dimension, bounds, keys that are quantities themselves.
 *
 * @param root   the tree
 * @param place  its schema
 * @param path   dotted path of the root inside its file, for messages
 * @param parse  reads one quantity
 * @returns SI numbers by node, all finite, and a problem for each text that is none or lies out of bounds
 */
export function readQuantities({
  root,
  place,
  path = '',
  parse,
}: {
  root: SourceNode;
  place: SchemaPlace;
  path?: string;
  parse: QuantityParser;
}): { values: Quantities; problems: readonly Diagnostic[] } {
  const reading: Reading = { parse, values: new Map(), problems: [] };
  readNode({ node: root, path, place: resolvedSchema(place) }, reading);
  return { values: reading.values, problems: reading.problems };
}
