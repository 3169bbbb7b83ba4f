import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited, measuredPad } from '../checks/reviewed.ts';
import { fileWith, ran, root } from './ran.ts';
import { validator } from './schemas.ts';

const expectValid = validator('readings.schema.json');
const withReadings = (readings: string): string => fileWith(edited(measuredPad, ['environment:', `readings: ${readings}\nenvironment:`]));

describe('readings', () => {
  test.each([
    ['charging-pad', 0],
    ['barn-charger', 1],
  ])('%s reads as it did, in 80 columns', async (name, expected) => {
    const { status, stdout } = await ran(['readings', `examples/${name}.yaml`]);
    expect(status).toBe(expected);
    const path = join(root, 'tests', 'report', 'cards', `${name}-readings.txt`);
    if (process.env['UPDATE_GOLDEN'] === '1') writeFileSync(path, stdout);
    expect(stdout).toBe(readFileSync(path, 'utf8'));
    expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
  });

  test('as JSON they satisfy the schema and end with the same status', async () => {
    const { status, stdout } = await ran(['readings', 'examples/barn-charger.yaml', '--json']);
    const document = JSON.parse(stdout) as { agrees: boolean; causes: { id: string }[] };
    expectValid(document);
    expect(status).toBe(1);
    expect(document.agrees).toBe(false);
    expect(document.causes[0]!.id).toBe('lost-capacitor');
  });

  test('a reading that disagrees ends with 1 although every margin as built holds; --report-only makes it 0', async () => {
    const path = withReadings('{frequency: 98.1 kHz, tankCurrentPeak: 20.6 A, supplyCurrentIdle: 405 mA}');
    const { status, stdout } = await ran(['readings', path]);
    expect(status).toBe(1);
    expect(stdout).toContain('0 failed');
    expect((await ran(['readings', path, '--report-only'])).status).toBe(0);
  });

  test.each([
    ['no readings', '{}', 'no-readings', '38:11'],
    ['a frequency in the wrong unit', '{frequency: 850 kHz}', 'reading-far-off', '38:23'],
    ['a drain above what the rail gives', '{drainPeak: 80 V}', 'impossible-reading', '38:23'],
    ['a load that gives power', '{supplyCurrentIdle: 1 A, supplyCurrentLoaded: 700 mA}', 'impossible-reading', '38:57'],
    ['a load that is not there', '{load: lantern on the pat, frequency: 85 kHz}', 'unknown-load', '38:18'],
    ['no number', '{frequency: about 85 kHz}', 'unknown-unit', '38:23'],
  ])('%s is refused with one error and status 2', async (_words, readings, id, at) => {
    const path = withReadings(readings);
    const { status, stdout, stderr } = await ran(['readings', path]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect([...stderr.matchAll(/^error: /gm)]).toHaveLength(1);
    expect(stderr).toContain(`[${id}]`);
    expect(stderr.split('\n')).toContain(`  ${path}:${at}`);
  });

  test('a refusal under --json is a document', async () => {
    const { status, stdout } = await ran(['readings', withReadings('{frequency: 850 kHz}'), '--json']);
    expect(status).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject({ error: { id: 'reading-far-off' } });
  });
});
