import { spawnSync } from 'node:child_process';
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

test('a start takes the compiled code that lies beside the script', () => {
  // asked of a process of its own: the flags of this one are others, and V8 then refuses the code
  const script = `
    const { readFileSync } = require('node:fs');
    const script = new (require('node:vm').Script)(readFileSync('dist/tool.cjs', 'latin1'), { cachedData: readFileSync('dist/tool.cache') });
    process.stdout.write(String(script.cachedDataRejected));`;
  expect(spawnSync(process.execPath, ['--eval', script], { cwd: root, env: {}, encoding: 'utf8' }).stdout).toBe('false');
});
