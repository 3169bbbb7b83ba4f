import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ran, root } from './ran.ts';
import { undescribed, validator } from './schemas.ts';

const expectValid = validator('report.schema.json');
const examples = readdirSync(join(root, 'examples'))
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => `examples/${name}`);

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

test.each(['report.schema.json', 'sweep.schema.json', 'spread.schema.json'])('every property of %s is described', (name) => {
  expect(undescribed(name)).toEqual([]);
});
