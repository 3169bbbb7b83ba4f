import type { QuantityParser } from './bounds.ts';
import type { Diagnostic } from './diagnostic.ts';
import { didYouMean } from './did-you-mean.ts';
import { resolvedSchema, schemaUnder, typesOf } from './json-schema.ts';
import type { SchemaPlace } from './json-schema.ts';
import { missingKey, unknownKey } from './key-sentences.ts';
import { locateKey, nodeAt, plainValue } from './source-tree.ts';
import type { SourceNode } from './source-tree.ts';
import { valueProblem } from './structure-sentences.ts';

/** One error of a compiled JSON Schema validator. */
export interface ValidatorError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/** A compiled JSON Schema validator that collects all errors. */
export interface Validator {
  (data: unknown): boolean;
  errors?: readonly ValidatorError[] | null;
}

/** Of several errors about one value, the one that is told: the kind of value before its content. */
const telling = ['type', 'discriminator', 'const', 'enum', 'minItems', 'minLength', 'pattern', 'maxLength', 'minimum', 'maximum'];

/** Conditions across keys; whoever owns the schema explains them in words of its own. */
const isCondition = ({ schemaPath, keyword }: ValidatorError): boolean =>
  ['anyOf', 'not', 'oneOf'].includes(keyword) || /\/(anyOf|not)\//.test(schemaPath);

function segmentsOf({ instancePath }: ValidatorError): readonly string[] {
  return instancePath
    .split('/')
    .slice(1)
    .map((segment) => segment.replaceAll('~1', '/').replaceAll('~0', '~'));
}

function placeUnder(place: SchemaPlace, segments: readonly string[]): SchemaPlace {
  return segments.reduce<SchemaPlace>((found, segment) => schemaUnder(found, segment) ?? { ...found, schema: {} }, resolvedSchema(place));
}

/** Most places that a misplaced key is offered. */
const mostHomes = 3;

/** Paths of the mappings of a file that know a key; parts that a file may describe inline are not looked into. */
function homesOf({ key, place }: { key: string; place: SchemaPlace }): readonly string[] {
  const found: string[] = [];
  const look = (at: SchemaPlace, path: readonly string[]): void => {
    const { properties = {} } = at.schema;
    if (Object.hasOwn(properties, key)) found.push(path.join('.'));
    for (const name of Object.keys(properties)) {
      const child = schemaUnder(at, name);
      if (child?.base === at.base) look(child, [...path, name]);
    }
  };
  look(resolvedSchema(place), []);
  return found.length > mostHomes ? [] : found;
}

interface Checked {
  readonly root: SourceNode;
  readonly place: SchemaPlace;
  /** What the file is called: `a project file`. */
  readonly what: string;
  readonly parse: QuantityParser;
}

function keyProblems(errors: readonly ValidatorError[], { root, place, what }: Checked): readonly Diagnostic[] {
  const unknown = errors.filter(({ keyword }) => keyword === 'additionalProperties');
  const missing = errors.filter(({ keyword }) => keyword === 'required');
  const misspelt = new Set<string>();
  const told = unknown.map((error) => {
    const segments = segmentsOf(error);
    const key = String(error.params['additionalProperty']);
    const { schema } = placeUnder(place, segments);
    const allowed = Object.keys(schema.properties ?? {});
    const isNamed = typesOf(schema).includes('string') && schema['x-dimension'] === undefined;
    const instead = schema['x-instead']?.[key];
    const homes = instead === undefined ? homesOf({ key, place }) : [];
    const [nearest] = didYouMean({ word: key, names: allowed });
    if (homes.length === 0 && nearest !== undefined) misspelt.add(`${error.instancePath}/${nearest}`);
    homes.forEach((home) => misspelt.add(['', ...home.split('.').filter((segment) => segment !== ''), key].join('/')));
    return unknownKey({ key, parent: segments.join('.'), what, allowed, homes, instead, isNamed, node: nodeAt(root, segments) });
  });
  const absent = missing.flatMap((error) => {
    const segments = segmentsOf(error);
    const key = String(error.params['missingProperty']);
    // a misspelt or misplaced key is one mistake, told once
    if (misspelt.has(`${error.instancePath}/${key}`)) return [];
    const schema = placeUnder(place, [...segments, key]).schema;
    return [missingKey({ key, parent: segments.join('.'), schema, at: locateKey({ root, path: segments.join('.') }) })];
  });
  return [...told, ...absent];
}

/**
 * What is wrong with the structure of a tree: unknown and missing keys, values of another kind, words that are not in the list.
 *
 * @param root      the tree
 * @param place     its schema
 * @param validate  the compiled validator of that schema
 * @param what      what the file is called: `a project file`
 * @param parse     reads a quantity, to explain a number without a unit
 * @returns one diagnostic a cause, in no particular order, and whether the validator was content; it can be discontent with nothing
 *   told here where a condition across keys is broken
 */
export function structureProblems({ validate, ...checked }: Checked & { readonly validate: Validator }): {
  valid: boolean;
  problems: readonly Diagnostic[];
} {
  const { root, place, parse } = checked;
  if (validate(plainValue(root))) return { valid: true, problems: [] };
  const errors = (validate.errors ?? []).filter((error) => !isCondition(error));
  const byValue = new Map<string, ValidatorError>();
  for (const error of errors) {
    const rank = telling.indexOf(error.keyword);
    const known = byValue.get(error.instancePath);
    if (rank >= 0 && (known === undefined || rank < telling.indexOf(known.keyword))) byValue.set(error.instancePath, error);
  }
  const values = [...byValue.values()].map((error) => {
    const segments = segmentsOf(error);
    const { schema } = placeUnder(place, segments);
    const path = segments.join('.');
    return valueProblem({ keyword: error.keyword, path, schema, node: nodeAt(root, segments) ?? root, parse });
  });
  return { valid: false, problems: [...keyProblems(errors, checked), ...values] };
}
