import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { emptyFolder, ran, root } from './ran.ts';

const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false });
const validate = ajv.compile(JSON.parse(readFileSync(join(root, 'shared', 'window.schema.json'), 'utf8')) as object);
const pad = 'examples/charging-pad.yaml';

describe.concurrent('window', () => {
  test('says from where to where no check fails, what sets the ends and what comes next, at most 80 columns wide', async () => {
    const { status, stdout, stderr } = await ran(['window', pad, '--closed-form']);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/supply voltage: no check fails from [\d.]+ V to 27\.2 V/);
    expect(stdout).toMatch(/upper end +27\.2 V {2}set by hot-surface/);
    expect(stdout).toContain('now 18 V: no check fails');
    expect(stdout).not.toMatch(/\bsafe\b/);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  test('ends with 1 where there is no window, and says what fails everywhere', async () => {
    const { status, stdout } = await ran(['window', 'examples/spark-igniter.yaml', '--closed-form']);
    expect(status).toBe(1);
    expect(stdout).toContain('at every value: cross-diode-recovery');
  });

  test.each([pad, 'examples/spark-igniter.yaml', 'examples/no-such.yaml'])(
    'prints a document of %s that satisfies the schema',
    async (file) => {
      const { stdout } = await ran(['window', file, '--closed-form', '--json']);
      validate(JSON.parse(stdout));
      expect(validate.errors ?? []).toEqual([]);
    },
  );

  test('draws both windows, and nothing over what is there', async () => {
    const file = join(emptyFolder(), 'a.svg');
    const args = ['window', pad, '--closed-form', '--voltage', '12 V..24 V', '--plot', file];
    expect((await ran(args)).status).toBe(0);
    expect(readFileSync(file, 'utf8')).toMatch(/^<svg .*<\/svg>\n$/s);
    const again = await ran(args);
    expect([again.status, again.stdout]).toEqual([2, '']);
  });

  test.each([
    ['24 V..12 V', 'backwards'],
    ['12 V', 'is not a range'],
    ['12 V..24 V:1 V', 'takes no step'],
    ['0 V..24 V', 'must lie between 0.1 V'],
    ['12 A..24 A', 'voltage'],
    ['12 V..99999 V', 'must lie between 0.1 V'],
  ])('--voltage "%s" is refused with status 2', async (range, words) => {
    const { status, stderr, stdout } = await ran(['window', pad, '--voltage', range]);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(words);
  });
});
