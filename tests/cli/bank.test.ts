import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { emptyFolder, ran, root } from './ran.ts';

const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false });
const validate = ajv.compile(JSON.parse(readFileSync(join(root, 'shared', 'bank.schema.json'), 'utf8')) as object);

async function documentOf(args: readonly string[]): Promise<unknown> {
  const { stdout, stderr } = await ran(['bank', ...args, '--json']);
  expect(stderr).toBe('');
  const document = JSON.parse(stdout) as unknown;
  validate(document);
  expect(validate.errors ?? []).toEqual([]);
  return document;
}

const heater = 'examples/bolt-heater.yaml';
const wide = (text: string): number => Math.max(...text.split('\n').map((line) => line.length));

describe.concurrent('bank', () => {
  test('names what to write into the file, with the present bank beside it, at most 80 columns wide', async () => {
    const { status, stdout } = await ran(['bank', heater, '--closed-form', '--kind', 'pp-']);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^now +6 +1 × 6 +pp-box-330n-630v/m);
    expect(stdout).toContain('bank: {part: pp-foil-100n-1000v, series: 1, parallel: 18}');
    expect(wide(stdout)).toBeLessThanOrEqual(80);
  });

  test('prints documents that satisfy the schema', async () => {
    const all = await documentOf([heater, '--closed-form']);
    expect(all).toMatchObject({ now: { verdict: 'fail', count: 6 } });
    await documentOf([heater, '--closed-form', '--part', 'pp-box-330n-630v', '--parallel', '6..18:6']);
    await documentOf([heater, '--closed-form', '--have', 'pp-box-330n-630v=40,pp-box-100n-630v=90']);
    await documentOf([heater, '--part', 'no-such-part']);
  });

  test('ends with 1 and says what to do where no capacitor fits', async () => {
    const { status, stdout } = await ran(['bank', heater, '--closed-form', '--part', 'polyester-100n-630v']);
    expect(status).toBe(1);
    expect(stdout).toContain('no capacitor fits');
    const more = await ran(['bank', heater, '--closed-form', '--part', 'pp-box-330n-630v', '--series', '1']);
    expect(more.status).toBe(1);
    expect(more.stdout.replaceAll(/\s+/g, ' ')).toMatch(
      /from 1 × \d+ .* more capacitance than wanted, which lowers the frequency .* the coil must change/,
    );
  });

  test('draws the list of --parallel, and nothing over what is there', async () => {
    const file = join(emptyFolder(), 'a.svg');
    const args = ['bank', heater, '--closed-form', '--parallel', '4..20:4', '--plot', file];
    const { stdout } = await ran(args);
    expect(stdout).toMatch(/^ +20 +20 +6\.6 µF/m);
    expect(readFileSync(file, 'utf8')).toMatch(/^<svg .*<\/svg>\n$/s);
    const again = await ran(args);
    expect([again.status, again.stdout]).toEqual([2, '']);
    expect(existsSync(`${file}.part`)).toBe(false);
  });

  test.each([
    [['--have', 'pp-box-100n-630v'], 'is no part with its count'],
    [['--have', 'pp-box-100n-630v=3.5'], 'is no whole number from 1'],
    [['--have', 'pp-box-100n-630v=3,pp-box-100n-630v=4'], 'is named twice'],
    [['--have', 'pp-box-100n-63v=3'], 'did you mean'],
    [['--within', '120 %'], '--within must lie between 0 and 100 %'],
    [['--within', '-5 %'], '--within'],
    [['--within', '5'], 'did you mean "5 %"?'],
    [['--parallel', '40..8'], 'runs backwards'],
    [['--parallel', '0..8'], 'begin at 1'],
    [['--parallel', '1..99999'], 'goes past 5000'],
    [['--kind', 'glass'], 'no capacitor is of the kind'],
    [['--capacitance', '0 F'], 'above zero'],
    [['--capacitance', '2'], 'the unit is missing'],
    [['--series', 'two'], 'is no whole number'],
    [['--plot', 'a.svg'], '--plot draws the list of --parallel'],
    [['--parallel', '8..9', '--have', 'x=1'], '--have goes without --parallel'],
    [['--keep', 'capacitance', '--keep', 'volume'], 'keep'],
  ])('%j is refused with status 2', async (args, words) => {
    const { status, stderr, stdout } = await ran(['bank', heater, ...args]);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(words);
  });
});
