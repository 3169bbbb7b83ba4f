import projectDocument from '../../shared/project.schema.json' with { type: 'json' };
import { partDocuments } from '../parts/part-schema.ts';
import type { SchemaPlace } from '../source/json-schema.ts';

/** The schema of a project file; inline parts refer to the schema of part files. */
export const projectSchema: SchemaPlace = {
  documents: { ...partDocuments, 'project.schema.json': projectDocument },
  base: 'project.schema.json',
  schema: projectDocument,
};
