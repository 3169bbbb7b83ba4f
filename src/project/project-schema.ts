import projectDocument from '../../shared/project.schema.json' with { type: 'json' };
import { partDocuments } from '../parts/part-schema.ts';
import type { JsonSchema, SchemaPlace } from '../source/json-schema.ts';

/** The schema of a project file; inline parts refer to the schema of part files. */
export const projectSchema: SchemaPlace = {
  documents: { ...partDocuments, 'project.schema.json': projectDocument },
  base: 'project.schema.json',
  schema: projectDocument,
};

/** Keys of a project file that hold a list, with the key that an entry begins with; empty where entries are plain text. */
export const projectLists: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries<JsonSchema>(projectDocument.properties).flatMap(([key, { type, items }]) =>
    type === 'array' ? [[key, Object.keys(items?.properties ?? {})[0] ?? '']] : [],
  ),
);
