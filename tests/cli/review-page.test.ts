import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { emptyFolder, ran, root } from './ran.ts';

const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };

test('check writes a page beside what it prints, and replaces it the next time', async () => {
  const path = join(emptyFolder(), 'review.html');
  const args = ['check', 'examples/live-rail-lamp.yaml', '--closed-form'];
  const plain = await ran(args);
  const first = await ran([...args, '-o', path]);
  expect(first.stdout).toBe(plain.stdout);
  expect([first.status, first.stderr]).toEqual([1, `wrote ${path}\n`]);
  const page = readFileSync(path, 'utf8');
  expect(page).toContain(`Reviewed with tankproof ${version}.`);
  expect(page).toContain('Market-stall lamp, fed from a battery by a plug');
  expect(page.endsWith('</html>\n')).toBe(true);

  const again = await ran([...args, '-o', path]);
  expect(again.status).toBe(1);
  expect(readFileSync(path, 'utf8')).toBe(page);
});

test('a page that is not its own is kept', async () => {
  const path = join(emptyFolder(), 'review.html');
  writeFileSync(path, '<!DOCTYPE html><title>mine</title>');
  const { status, stderr } = await ran(['check', 'examples/live-rail-lamp.yaml', '--closed-form', '-o', path]);
  expect(status).toBe(2);
  expect(stderr).toContain('exists already');
  expect(readFileSync(path, 'utf8')).toBe('<!DOCTYPE html><title>mine</title>');
});

test('a file that is refused has its place in the page of several', async () => {
  const path = join(emptyFolder(), 'review.html');
  const { status } = await ran(['check', 'examples/live-rail-lamp.yaml', 'no-such.yaml', '--closed-form', '-o', path]);
  expect(status).toBe(2);
  const page = readFileSync(path, 'utf8');
  expect(page).toContain('Review of 2 projects');
  expect(page).toContain('no-such.yaml does not exist');
});
