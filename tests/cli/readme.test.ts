import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited, example } from '../checks/reviewed.ts';
import { fileWith, ran, root } from './ran.ts';

const readme = readFileSync(join(root, 'README.md'), 'utf8');

test('what explain prints is what README says that it prints', async () => {
  const { stdout } = await ran(['explain', 'hold-off-running']);
  expect(readme).toContain(`$ tankproof explain hold-off-running\n${stdout.trimEnd()}\n\`\`\``);
});

/** Blocks that a command prints, whole or in part: of the examples, and not what takes half a minute. */
const printed: readonly (readonly [string, string])[] = [
  ...[...readme.matchAll(/^\$ tankproof (.+)\n([^`]+)```$/gm)].map(([, command = '', block = '']) => [command, block] as const),
  ['check examples/charging-pad.yaml', /```\n(examples\/charging-pad\.yaml {2}[^`]+)```/.exec(readme)?.[1] ?? ''],
  ['bringup examples/charging-pad.yaml', /```\n([^`]*5\. VOLTAGE STEPS[^`]+)```/.exec(readme)?.[1] ?? ''],
];
const ofExamples = printed.filter(
  ([command]) => !command.replaceAll('charging-pad.yaml', '').includes('pad.yaml') && !command.startsWith('window'),
);

describe('what README shows is what is printed', () => {
  test('there is enough of it', () => expect(ofExamples.length).toBeGreaterThan(8));

  test.each(ofExamples)('%s', async (command, block) => {
    const args = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, word]) => quoted ?? word!);
    const { stdout } = await ran(args);
    const lines = new Set(stdout.split('\n').map((line) => line.trim()));
    const shown = block.split('\n').map((line) => line.trim());
    expect(shown.filter((line) => line !== '' && line !== '…' && !lines.has(line))).toEqual([]);
  });
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
