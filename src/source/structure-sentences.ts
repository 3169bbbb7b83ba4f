import type { QuantityParser } from './bounds.ts';
import type { Diagnostic } from './diagnostic.ts';
import { didYouMeanHelp } from './did-you-mean.ts';
import { flowText } from './flow-text.ts';
import { typesOf } from './json-schema.ts';
import type { JsonSchema } from './json-schema.ts';
import { ownHelp } from './own-help.ts';
import { quoted } from './quoted.ts';
import type { ScalarNode, SourceNode } from './source-tree.ts';

const wordsOf = (schema: JsonSchema): readonly string[] => (schema.enum ?? [schema.const]).map(String);

/** The words that a schema allows: `public or trained`. */
function choiceOf(schema: JsonSchema): string {
  const words = wordsOf(schema);
  return words.length > 1 ? `${words.slice(0, -1).join(', ')} or ${words.at(-1)}` : words.join('');
}

/** How an entry of a list is written, after the example of the schema. */
function entryExample({ examples }: JsonSchema): string {
  const [first] = examples?.[0] instanceof Array ? (examples[0] as readonly unknown[]) : [];
  return first === undefined ? '- …' : `- ${flowText(first).replace(/^\{(.*)\}$/, '$1')}`;
}

/** What to write in place of something that is no list, or of a text where a mapping with a name is due. */
function insteadOf({ schema, node }: { schema: JsonSchema; node: SourceNode }): string | undefined {
  const types = typesOf(schema);
  if (types.includes('array')) return `it is a list: begin each entry with \`- \`, such as \`${entryExample(schema)}\``;
  if (node.kind === 'list' && types.join('') === 'object') return 'leave the dashes out: the keys of a mapping have none';
  if (node.kind === 'scalar' && (schema.const ?? schema.enum) !== undefined) return `write ${choiceOf(schema)}`;
  if (node.kind !== 'scalar' || !types.includes('object')) return undefined;
  if (schema.properties?.['name'] !== undefined) return `write \`name: ${node.text}\``;
  const [only, ...others] = schema.required ?? [];
  const isOne = only !== undefined && others.length === 0 && schema.properties?.[only]?.type !== 'object';
  return isOne && /\d/.test(node.text) ? `write \`{${only}: ${node.text}}\`, and its further keys after that one` : undefined;
}

const typeNames: Readonly<Record<string, string>> = {
  object: 'a mapping',
  array: 'a list',
  boolean: 'true or false',
  integer: 'a whole number',
  number: 'a number',
};

/** What a value looks like, of the schema. */
export function exampleText({ examples }: JsonSchema): string | undefined {
  return examples?.[0] === undefined ? undefined : flowText(examples[0]);
}

function expectedText(schema: JsonSchema): string {
  const example = exampleText(schema);
  const names = typesOf(schema).map((type) => {
    if (type !== 'string') return typeNames[type] ?? type;
    if (schema['x-dimension'] === undefined) return 'text';
    return example === undefined ? 'a quantity' : `a quantity such as ${example}`;
  });
  return names.join(' or ');
}

function writtenKind(node: SourceNode): string {
  if (node.kind === 'map') return 'a mapping';
  if (node.kind === 'list') return 'a list';
  if (node.kind === 'nothing') return 'nothing';
  return typeof node.value === 'string' ? `the text ${quoted(node.text)}` : quoted(node.text);
}

/** A path as a message names it; the file itself has none. */
export const named = (path: string): string => (path === '' ? 'the file' : `\`${path}\``);

interface ValueFault {
  readonly keyword: string;
  readonly path: string;
  readonly schema: JsonSchema;
  readonly node: SourceNode;
  readonly parse: QuantityParser;
}

/** A number without a unit, where a quantity is due. */
function bareNumber({ path, schema, node, parse }: ValueFault & { node: ScalarNode }): Diagnostic {
  const dimension = [schema['x-dimension'] ?? []].flat()[0] ?? 'ratio';
  const parsed = parse({ text: node.text, dimension });
  const { at } = node;
  if (!parsed.ok) {
    const help = ownHelp({ text: node.text, problem: parsed.problem, schema, parse });
    return { ...parsed.problem, ...(help === undefined ? {} : { help }), message: `\`${path}\`: ${parsed.problem.message}`, at };
  }
  const percent = Number((parsed.value * 100).toPrecision(12));
  const help =
    Math.abs(parsed.value) < 1 ? `write "${percent} %" for a ratio of ${node.text}, or "${node.text} %"` : `write "${node.text} %"`;
  return { id: 'bare-number', message: `\`${path}\`: ${quoted(node.text)} has no unit`, label: 'expected a percentage', help, at };
}

function typeProblem(fault: ValueFault): Diagnostic {
  const { path, schema, node } = fault;
  const example = exampleText(schema);
  const types = typesOf(schema);
  if (node.kind === 'nothing') {
    const help =
      (types.includes('array') ? insteadOf({ schema, node }) : undefined) ??
      (example === undefined ? 'write a value after the key, or remove the key' : `write a value, such as ${example}`);
    return { id: 'no-value', message: `${named(path)} has no value`, help, at: node.at };
  }
  const isText = types.includes('string');
  if (node.kind === 'scalar' && typeof node.value === 'number' && isText && schema['x-dimension'] !== undefined)
    return bareNumber({ ...fault, node });
  const inQuotes = node.kind === 'scalar' && isText && schema['x-dimension'] === undefined;
  const withoutText = node.kind === 'scalar' && types.includes('integer') && typeof node.value === 'string';
  const help =
    inQuotes && schema.enum === undefined
      ? `put it in quotes: "${node.text}"`
      : withoutText
        ? 'write digits only, without quotes or unit'
        : undefined;
  const shown =
    help ??
    insteadOf({ schema, node }) ??
    (path === ''
      ? 'write keys with values, beginning with `tankproof: 1`'
      : `write ${example === undefined ? expectedText(schema) : `it like \`${example}\``}`);
  return {
    id: 'wrong-type',
    message: `${named(path)} must be ${expectedText(schema)}, not ${writtenKind(node)}`,
    label: `expected ${expectedText(schema)}`,
    help: shown,
    at: node.at,
  };
}

function wordProblem({ path, schema, node }: ValueFault): Diagnostic {
  const words = wordsOf(schema);
  const isVersion = path === 'tankproof' || path === 'tankproofPart';
  const near = node.kind === 'scalar' && !isVersion ? didYouMeanHelp({ word: node.text, names: words }) : undefined;
  const list = choiceOf(schema);
  return {
    id: isVersion ? 'unsupported-version' : 'unknown-word',
    message: `${named(path)} must be ${list}, not ${writtenKind(node)}`,
    label: `expected ${list}`,
    help: near ?? `write ${list}`,
    at: node.at,
  };
}

/**
 * The problem of a value that its schema does not allow.
 *
 * @param keyword  keyword of JSON Schema that failed
 * @param path     dotted path
 * @param schema   of the value
 * @param node     the value
 * @param parse    reads a quantity
 * @returns `no-value`, `wrong-type`, `bare-number`, `unknown-word`, `unsupported-version`, `empty-list`, `empty-text`, `wrong-text` or
 *   `out-of-range`, at the value
 */
export function valueProblem(fault: ValueFault): Diagnostic {
  const { keyword, path, schema, node } = fault;
  const { at } = node;
  const { minimum, maximum } = schema;
  switch (keyword) {
    case 'type':
      return typeProblem(fault);
    case 'const':
    case 'enum':
    case 'discriminator':
      return wordProblem(fault);
    case 'minItems':
      return { id: 'empty-list', message: `${named(path)} is an empty list`, help: 'add an entry, or remove the key', at };
    case 'minLength':
      return { id: 'empty-text', message: `${named(path)} is empty`, help: 'write a text, or remove the key', at };
    case 'minimum':
    case 'maximum':
      return {
        id: 'out-of-range',
        message: `${named(path)} must be ${minimum} to ${maximum}, not ${writtenKind(node)}`,
        help: 'write a whole number in that range',
        at,
      };
    default:
      return { id: 'wrong-text', message: `${named(path)} must be one line of at most 200 characters`, help: 'shorten it', at };
  }
}
