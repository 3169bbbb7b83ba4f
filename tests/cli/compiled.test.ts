import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { compiledPart, compiledPolicies } from '../../src/cli/compiled.ts';
import { partKinds } from '../../src/parts/part.ts';
import { defaults, root } from '../checks/reviewed.ts';
import { partNames, partOf } from '../parts-db/part-files.ts';

test('what the build has compiled is what the files say, part by part', () => {
  for (const kind of partKinds) {
    for (const name of partNames(kind)) {
      const plain = JSON.parse(JSON.stringify(partOf(kind, name), withoutPlaces)) as unknown;
      expect(JSON.parse(JSON.stringify(compiledPart({ root, kind, name }), withoutPlaces)), `${kind}/${name}`).toEqual(plain);
    }
  }
});

function withoutPlaces(key: string, value: unknown): unknown {
  return key === 'where' ? undefined : value;
}

test('and so is the default policy', () => {
  expect([...compiledPolicies(root)!]).toEqual([...defaults]);
});

test('a start finds its compiled code beside the script', () => {
  expect(existsSync(join(root, 'dist', 'tool.cache'))).toBe(true);
});
