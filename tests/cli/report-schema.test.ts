import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { ran, root } from './ran.ts';

const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false });
const schema = JSON.parse(readFileSync(join(root, 'shared', 'report.schema.json'), 'utf8')) as object;
const validate = ajv.compile(schema);
const examples = readdirSync(join(root, 'examples'))
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => `examples/${name}`);

function expectValid(document: unknown): void {
  validate(document);
  expect(validate.errors ?? []).toEqual([]);
}

/** The quantities of the format, in its order. */
const quantityIds =
  'tank.resonance tank.frequency tank.inductance tank.capacitance tank.resistance tank.impedance tank.quality tank.currentPeak tank.currentRms tank.voltagePeak drain.peak drain.peakAtSwitchOn drain.peakAtLoadRemoval supply.current supply.power bank.currentPerCapacitor bank.lossPerCapacitor bank.rise coil.resistance coil.loss coil.temperature switch.resistance switch.loss switch.temperature choke.ripple choke.peak gate.high gate.riseTime holdOff.running holdOff.atSwitchOn'.split(
    ' ',
  );

describe.concurrent('one JSON document on standard output', () => {
  test.each(examples)('%s satisfies the schema and has every quantity for every load', async (path) => {
    const { stdout, stderr } = await ran(['check', path, '--json']);
    const document = JSON.parse(stdout) as {
      quantities: { id: string; case: string; value: number | null }[];
      results: { margin: number | null; use: number | null }[];
    };
    expectValid(document);
    expect(stderr).toBe('');
    const loads = [...new Set(document.quantities.map((quantity) => quantity.case))];
    for (const load of loads)
      expect(document.quantities.filter((quantity) => quantity.case === load).map(({ id }) => id)).toEqual(quantityIds);
    for (const { margin, use } of document.results) {
      if (use === null || margin === null) expect([use, margin]).toEqual([null, null]);
      else expect(use + margin).toBeCloseTo(1, 9);
    }
  });

  test('several files are reports in the order they were named, refusals among them', async () => {
    const { stdout, status } = await ran([
      'check',
      'examples/charging-pad.yaml',
      'examples/missing.yaml',
      'examples/bolt-heater.yaml',
      '--json',
    ]);
    const document = JSON.parse(stdout) as { reports: { file: string; error?: object }[] };
    expectValid(document);
    expect(status).toBe(2);
    expect(document.reports.map(({ file, error }) => [file, error === undefined])).toEqual([
      ['examples/charging-pad.yaml', true],
      ['examples/missing.yaml', false],
      ['examples/bolt-heater.yaml', true],
    ]);
  });

  test.each([
    [['check', 'examples/missing.yaml', '--json'], 'no-such-file'],
    [['check', '--json'], 'usage'],
    [['check', 'examples/charging-pad.yaml', '--bogus', '--json'], 'usage'],
    [['chek', '--json'], 'unknown-command'],
    [['--json'], 'unknown-command'],
    [['chek', '--help', '--json'], 'usage'],
    [['explain', 'loaded-queue', '--json'], 'unknown-check'],
  ])('a refusal is one too: %j', async (args, id) => {
    const { stdout, status, stderr } = await ran(args);
    const document = JSON.parse(stdout) as { error: { id: string } };
    expectValid(document);
    expect({ id: document.error.id, status, stderr }).toEqual({ id, status: 2, stderr: '' });
  });
});

test('every property of the schema is described', () => {
  const missing: string[] = [];
  const walk = (node: unknown, path: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties } = node as { properties?: Record<string, { description?: string; $ref?: string }> };
    for (const [key, value] of Object.entries(properties ?? {}))
      if (value.description === undefined && value.$ref === undefined) missing.push(`${path}.${key}`);
    for (const [key, value] of Object.entries(node)) walk(value, `${path}.${key}`);
  };
  walk(schema, '');
  expect(missing).toEqual([]);
});
