import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { partKinds } from '../../src/parts/part.ts';
import { readPart } from '../../src/parts/read-part.ts';

const folder = (kind: string): URL => new URL(`../../parts-db/${kind}/`, import.meta.url);

describe.each(partKinds)('%s that come along', (kind) => {
  const files = readdirSync(folder(kind)).filter((file) => file.endsWith('.yaml'));

  test('are there', () => expect(files.length).toBeGreaterThan(3));

  test.each(files)('%s reads, and every rating states its source', (file) => {
    const outcome = readPart({
      text: readFileSync(new URL(file, folder(kind)), 'utf8'),
      path: file,
      kind,
      name: file.replace(/\.yaml$/, ''),
    });
    expect(outcome.ok ? [] : outcome.problems).toEqual([]);
    if (!outcome.ok) return;
    const ratings = Object.entries(outcome.value.ratings);
    expect(ratings.length).toBeGreaterThan(2);
    expect(ratings.filter(([, rating]) => rating.source === 'project').map(([key]) => key)).toEqual([]);
  });
});
