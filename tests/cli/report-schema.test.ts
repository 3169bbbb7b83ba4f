import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ran, root } from './ran.ts';
import { undescribed, validator } from './schemas.ts';

const expectValid = validator('report.schema.json');
const { version: packageVersion } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
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

describe.concurrent('every document of a design says which tool and which version of its format wrote it', () => {
  const heater = 'examples/bolt-heater.yaml';
  test.each<[string, readonly string[]]>([
    ['report', ['check', heater, '--closed-form']],
    ['bank', ['bank', heater, '--closed-form', '--part', 'pp-box-330n-630v']],
    ['bank', ['bank', heater, '--closed-form', '--part', 'pp-box-330n-630v', '--parallel', '6..12:6']],
    ['bank', ['bank', heater, '--closed-form', '--have', 'pp-box-330n-630v=6']],
    ['window', ['window', heater, '--closed-form']],
    ['bringup', ['bringup', 'examples/spark-igniter.yaml']],
    ['readings', ['readings', 'examples/charging-pad.yaml']],
    ['sweep', ['sweep', heater, '--closed-form', '--vary', 'supply.voltage=20 V..24 V:4 V', '--show', 'drain.peak']],
    ['spread', ['spread', heater, '--closed-form', '--builds', '20']],
    ['compare', ['compare', heater, 'examples/charging-pad.yaml', '--closed-form']],
    ['startup', ['startup', 'examples/spark-igniter.yaml']],
  ])('%s', async (name, args) => {
    const { stdout } = await ran([...args, '--json']);
    const { tankproof } = JSON.parse(stdout) as { tankproof: object };
    expect(tankproof).toEqual({ version: packageVersion, [`${name}Version`]: 1 });
    if (name !== 'startup') validator(`${name}.schema.json`)(JSON.parse(stdout));
  });

  test.each(['bank', 'window', 'bringup', 'readings'])('a refusal of %s is of its schema too', async (name) => {
    const { stdout, status } = await ran([name, 'examples/missing.yaml', '--json']);
    expect(status).toBe(2);
    validator(`${name}.schema.json`)(JSON.parse(stdout));
  });
});

test.each(['report', 'sweep', 'spread', 'bringup', 'readings'])('every property of the schema of %s is described', (name) => {
  expect(undescribed(`${name}.schema.json`)).toEqual([]);
});
