/** The part of JSON Schema 2020-12 that the project's schemas use, with the annotations that readers of quantities need. */
export interface JsonSchema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, JsonSchema>>;
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: boolean | JsonSchema;
  /** Applies to the keys that `properties` does not list. */
  readonly propertyNames?: JsonSchema;
  readonly items?: JsonSchema;
  readonly required?: readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly default?: unknown;
  readonly examples?: readonly unknown[];
  readonly minimum?: number;
  readonly maximum?: number;
  /** Dimension of the text (or of its `value`); of a list, the first that fits. */
  readonly 'x-dimension'?: string | readonly string[];
  /** Bounds, as quantities: exclusive lower, inclusive lower, exclusive upper, inclusive upper. */
  readonly 'x-above'?: string;
  readonly 'x-atLeast'?: string;
  readonly 'x-below'?: string;
  readonly 'x-atMost'?: string;
  /** Why the bounds lie where they do, for the help with a value beyond them. */
  readonly 'x-because'?: string;
  /** What to write in place of a key that one may expect here. */
  readonly 'x-instead'?: Readonly<Record<string, string>>;
  /** Lowest and highest value seen in practice; only used to guess what a value out of range was meant to be. */
  readonly 'x-typical'?: readonly string[];
  /** The ratio is written in percent. */
  readonly 'x-percent'?: boolean;
  /** A word that is allowed instead of a quantity. */
  readonly 'x-word'?: string;
}

/** A schema, and the documents that its references point into, by file name; `base` is the document that it stands in. */
export interface SchemaPlace {
  readonly documents: Readonly<Record<string, JsonSchema>>;
  readonly base: string;
  readonly schema: JsonSchema;
}

function pointed(document: JsonSchema | undefined, pointer: string): JsonSchema | undefined {
  let found: unknown = document;
  for (const segment of pointer.split('/').slice(1)) {
    if (typeof found !== 'object' || found === null) return undefined;
    found = (found as Readonly<Record<string, unknown>>)[segment];
  }
  return found as JsonSchema | undefined;
}

/**
 * The schema with its references followed; keys beside a `$ref` win over those it refers to.
 *
 * @param place  schema and documents
 * @returns a place whose schema has no `$ref`
 * Errors: RangeError where a reference points nowhere, a mistake in the schema.
 */
export function resolvedSchema(place: SchemaPlace): SchemaPlace {
  let { base, schema } = place;
  while (schema.$ref !== undefined) {
    const { $ref, ...beside } = schema;
    const [file = '', pointer = ''] = $ref.split('#');
    base = file === '' ? base : file;
    const target = pointed(place.documents[base], pointer);
    if (!target) throw new RangeError(`the schema refers to ${$ref}, which does not exist`);
    schema = { ...target, ...beside };
  }
  return { ...place, base, schema };
}

/** Dimension, bounds and example of a rating hold for its `value` too, where that states none of its own. */
function valueSchema(parent: JsonSchema, own: JsonSchema): JsonSchema {
  if (parent['x-dimension'] === undefined || own['x-dimension'] !== undefined) return own;
  const handedDown = Object.entries(parent).filter(([name]) => name.startsWith('x-'));
  const examples = parent.examples?.filter((example) => typeof example === 'string');
  return { ...own, ...Object.fromEntries(handedDown), ...(examples ? { examples } : {}) };
}

/**
 * The schema of a key of a mapping or of an item of a list.
 *
 * @param place    schema of the mapping or list
 * @param segment  key or index
 * @returns the resolved schema, or undefined for a key that is not allowed
 */
export function schemaUnder(place: SchemaPlace, segment: string): SchemaPlace | undefined {
  const { schema, ...rest } = resolvedSchema(place);
  const { properties, additionalProperties, items } = schema;
  const own = properties && Object.hasOwn(properties, segment) ? properties[segment] : undefined;
  const found = own ?? (typeof additionalProperties === 'object' ? additionalProperties : items);
  if (!found) return undefined;
  const child = resolvedSchema({ ...rest, schema: found });
  return segment === 'value' ? { ...child, schema: valueSchema(schema, child.schema) } : child;
}

/**
 * The types that a schema allows.
 *
 * @param schema  resolved
 * @returns JSON Schema type names
 *
 * @example typesOf({ type: 'string' }) // ['string']
 */
export function typesOf({ type }: JsonSchema): readonly string[] {
  return type === undefined ? [] : typeof type === 'string' ? [type] : type;
}
