import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect } from 'vitest';
import { root } from './ran.ts';

function schemaIn(name: string): object {
  return JSON.parse(readFileSync(join(root, 'shared', name), 'utf8')) as object;
}

/** Asserts that documents satisfy a schema of `shared`, which may refer to that of reports. */
export function validator(name: string): (document: unknown) => void {
  const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false });
  ajv.addSchema(schemaIn('report.schema.json'));
  const validate = name === 'report.schema.json' ? ajv.getSchema(name)! : ajv.compile(schemaIn(name));
  return (document) => {
    void validate(document);
    expect(validate.errors ?? []).toEqual([]);
  };
}

/** Properties of a schema without a description of their own or of what they refer to. */
export function undescribed(name: string): readonly string[] {
  const missing: string[] = [];
  const walk = (node: unknown, path: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties } = node as { properties?: Record<string, { description?: string; $ref?: string }> };
    for (const [key, value] of Object.entries(properties ?? {}))
      if (value.description === undefined && value.$ref === undefined) missing.push(`${path}.${key}`);
    for (const [key, value] of Object.entries(node)) walk(value, `${path}.${key}`);
  };
  walk(schemaIn(name), '');
  return missing;
}
