import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ran, root } from '../cli/ran.ts';

/** Reports of the examples as they were last looked at; UPDATE_GOLDEN=1 writes them anew, to be read before they are committed. */
const golden = join(import.meta.dirname, 'golden');
const names = readdirSync(join(root, 'examples'))
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => name.slice(0, -'.yaml'.length));

function expectAsBefore(file: string, text: string): void {
  const path = join(golden, file);
  if (process.env['UPDATE_GOLDEN'] === '1') {
    mkdirSync(golden, { recursive: true });
    writeFileSync(path, text);
  }
  expect(text).toBe(readFileSync(path, 'utf8'));
}

describe.concurrent.each(names)('%s', (name) => {
  test('reads on a terminal of 80 columns as it did', async () => {
    const { stdout } = await ran(['check', `examples/${name}.yaml`, '--all']);
    expectAsBefore(`${name}.txt`, stdout);
    const tooLong = stdout.split('\n').filter((line) => line.length > 80 && line.trim().includes(' '));
    expect(tooLong).toEqual([]);
  });

  test('says the same as JSON', async () => {
    const { stdout } = await ran(['check', `examples/${name}.yaml`, '--json']);
    const document = JSON.parse(stdout) as { tankproof: { version: string } };
    document.tankproof.version = 'any';
    // numbers to nine digits: the last bits may differ between processors
    const rounded = JSON.stringify(
      document,
      (_key, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(9)) : value),
      2,
    );
    expectAsBefore(`${name}.json`, `${rounded}\n`);
  });
});

test('there is a report of each example and of nothing else', () => {
  expect(readdirSync(golden).toSorted()).toEqual(names.flatMap((name) => [`${name}.json`, `${name}.txt`]).toSorted());
});
