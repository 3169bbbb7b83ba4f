import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { edited, example } from '../checks/reviewed.ts';
import { fileWith, ran, root } from './ran.ts';

const readme = readFileSync(join(root, 'README.md'), 'utf8');

test('what explain prints is what README says that it prints', async () => {
  const { stdout } = await ran(['explain', 'hold-off-running']);
  expect(readme).toContain(`$ tankproof explain hold-off-running\n${stdout.trimEnd()}\n\`\`\``);
});

test('the inline capacitor of README has all that its checks use', async () => {
  const [, inline] = /```yaml\n( {2}bank:\n {4}parallel: 8\n {4}part:\n[^]+?)\n {2}```/.exec(readme) ?? [];
  expect(inline).toBeDefined();
  const bank = '  bank:\n    part: pp-foil-100n-1000v\n    parallel: 6';
  const file = fileWith(edited(example('charging-pad'), [bank, inline!]));
  const { stdout } = await ran(['check', file, '--closed-form', '--json']);
  const { results } = JSON.parse(stdout) as { results: { id: string; verdict: string }[] };
  const own = results.filter(({ id }) => id.startsWith('capacitor-'));
  expect(own).toHaveLength(6);
  expect(own.filter(({ verdict }) => verdict === 'not assessed')).toEqual([]);
});
