import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited } from '../checks/reviewed.ts';
import { emptyFolder, fileWith, ran, root } from './ran.ts';
import { validator } from './schemas.ts';

const expectValid = validator('spread.schema.json');
const quick = ['--builds', '60', '--closed-form'];

interface SpreadDocument {
  seed: number;
  variables: { id: string; as: string }[];
  checks: { id: string; worst: { verdict: string; value: number | null; case: string }; builds: Record<string, number> }[];
}

describe.concurrent('spread', () => {
  test('prints worst corner, share, interval and drivers within 80 columns; a wide terminal has room for warnings too', async () => {
    const { status, stdout, stderr } = await ran(['spread', 'examples/live-rail-lamp.yaml', ...quick]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/switch-surge-voltage +fail −\d+ % +100 % +\S+ to 100 %/);
    expect(stdout).toMatch(/what moves switch-surge-voltage.*\n +supply +−(1.00|0.99) +-{29,30}\n/);
    for (const words of ['uniform', 'seed 1', 'Wilson 1927', 'rise-time is not among']) expect(stdout).toContain(words);
    const painted = await ran(['spread', 'examples/live-rail-lamp.yaml', ...quick, '--color', 'always']);
    expect(painted.stdout).toMatch(/\u001B\[31mfail/);
    expect(painted.stdout.replaceAll(/\u001B\[\d+m/g, '')).toBe(stdout);
  });

  test('equal seeds give equal bytes, in every format', async () => {
    const folder = emptyFolder();
    const run = async (name: string, seed: string): Promise<readonly string[]> => {
      const [svg, csv] = [join(folder, `${name}.svg`), join(folder, `${name}.csv`)];
      const args = ['spread', 'examples/charging-pad.yaml', ...quick, '--seed', seed];
      const { stdout } = await ran([...args, '--json']);
      expect((await ran([...args, '--plot', svg, '--csv', csv])).status).toBe(0);
      return [stdout, readFileSync(svg, 'utf8'), readFileSync(csv, 'utf8')];
    };
    const [first, again, other] = [await run('a', '5'), await run('b', '5'), await run('c', '6')];
    expect(again).toEqual(first);
    expect(other[2]).not.toBe(first[2]);
    expect(first[1]).toMatch(/^<svg .*<\/svg>\n$/s);
    const rows = first[2]!.trim().split('\n');
    expect(rows).toHaveLength(61);
    expect(rows[0]).toMatch(/^build,supply factor,coil factor,bank factor,/);
    expect(new Set(rows.map((row) => row.split(',').length)).size).toBe(1);
  });

  test('is one JSON document with the worst corners of check', async () => {
    const { status, stdout, stderr } = await ran([
      'spread',
      'examples/spark-igniter.yaml',
      '--builds',
      '40',
      '--json',
      '--as',
      'normal',
      '--as',
      'supply=limit',
    ]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const document = JSON.parse(stdout) as SpreadDocument;
    expectValid(document);
    expect(document.variables.map(({ id, as }) => [id, as])).toContainEqual(['supply', 'limit']);
    expect(document.variables.filter(({ id }) => id !== 'supply').every(({ as }) => as === 'normal')).toBe(true);
    const report = JSON.parse((await ran(['check', 'examples/spark-igniter.yaml', '--json'])).stdout) as {
      results: { id: string; verdict: string; value: number | null; case: string }[];
    };
    for (const { id, worst, builds } of document.checks) {
      const { verdict, value, case: where } = report.results.find((result) => result.id === id)!;
      expect({ id, verdict: worst.verdict, value: worst.value, where: worst.case }).toEqual({ id, verdict, value, where });
      expect(Object.values(builds).reduce((a, b) => a + b, 0)).toBe(40);
    }
  });

  test.each([
    [['--builds', '0'], 'from 1 to 100000'],
    [['--builds', '1e3'], 'whole number'],
    [['--builds', '100001'], 'from 1 to 100000'],
    [['--seed', '-1'], '--seed'],
    [['--seed', 'x'], 'whole number'],
    [['--as', 'unifrom'], 'did you mean `uniform`?'],
    [['--as', 'suply=normal'], 'did you mean `supply`?'],
    [['--as', 'supply='], 'no distribution'],
    [['--plot', '/nowhere/at/all.svg', '--builds', '20'], 'folder does not exist'],
  ])('%j is refused with status 2', async (args, words) => {
    const { status, stderr } = await ran(['spread', 'examples/live-rail-lamp.yaml', '--closed-form', ...args]);
    expect(status).toBe(2);
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(words);
  });

  test('what is there is not written over, and refused before the work is done', async () => {
    const csv = join(emptyFolder(), 'builds.csv');
    const args = ['spread', 'examples/live-rail-lamp.yaml', ...quick, '--csv', csv];
    expect((await ran(args)).status).toBe(0);
    const written = readFileSync(csv, 'utf8');
    const refused = await ran([...args, '--as', 'unifrom']);
    expect(refused).toMatchObject({ status: 2, stdout: '' });
    expect(refused.stderr.replaceAll(/\s+/g, ' ')).toMatch(/--csv: .*exists already.*--force to write over it/);
    expect(readFileSync(csv, 'utf8')).toBe(written);
    expect((await ran([...args, '--force'])).status).toBe(0);
  });

  test('a tolerance of 100 % or more is refused at its place', async () => {
    const text = readFileSync(join(root, 'examples', 'live-rail-lamp.yaml'), 'utf8');
    const path = fileWith(edited(text, ['tolerance: 5 %', 'tolerance: 120 %']));
    const { status, stderr } = await ran(['spread', path, ...quick]);
    expect(status).toBe(2);
    expect(stderr).toContain('over-hundred-percent');
    expect(stderr).toMatch(/project\.yaml:\d+:\d+/);
  });
});
