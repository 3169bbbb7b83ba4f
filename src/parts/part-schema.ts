import partDocument from '../../shared/part.schema.json' with { type: 'json' };
import type { JsonSchema, SchemaPlace } from '../source/json-schema.ts';
import type { PartKind } from './part.ts';

/** The schema of part files, by the name that other schemas refer to it with. */
export const partDocuments: Readonly<Record<string, JsonSchema>> = { 'part.schema.json': partDocument };

/**
 * The schema of the parts of one kind.
 *
 * @param kind  of part
 * @returns the place of its definition
 */
export function partSchema(kind: PartKind): SchemaPlace {
  return { documents: partDocuments, base: 'part.schema.json', schema: { type: 'object', $ref: `#/$defs/${kind}` } };
}
