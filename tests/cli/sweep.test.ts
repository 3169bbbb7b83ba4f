import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited } from '../checks/reviewed.ts';
import { emptyFolder, fileWith, ran, root } from './ran.ts';
import { validator } from './schemas.ts';

const expectValid = validator('sweep.schema.json');
const text = (name: string): string => readFileSync(join(root, 'examples', name), 'utf8');

interface CellDocument {
  value: number | null;
  verdict?: string;
  limit?: number;
  margin?: number;
  case?: string;
  reason?: string;
}
interface SweepDocument {
  method: string;
  show: { kind: string; id: string; case?: string }[];
  points: { at: number[]; shown?: (CellDocument | null)[]; refused?: { id: string } }[];
}
interface CheckDocument {
  quantities: { id: string; case: string; value: number | null }[];
  results: (CellDocument & { id: string })[];
}

async function swept(args: readonly string[]): Promise<SweepDocument> {
  const { status, stdout, stderr } = await ran(['sweep', ...args, '--json']);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  const document = JSON.parse(stdout) as SweepDocument;
  expectValid(document);
  return document;
}

/** What `check` says of an edited file, beside what the sweep says of the point. */
async function expectAsChecked({
  sweep,
  point,
  changes,
  file,
  closedForm,
}: {
  sweep: SweepDocument;
  point: readonly number[];
  changes: readonly (readonly [string, string])[];
  file: string;
  closedForm: boolean;
}): Promise<void> {
  const project = fileWith(edited(text(file), ...changes));
  const checked = JSON.parse((await ran(['check', project, '--json', ...(closedForm ? ['--closed-form'] : [])])).stdout) as CheckDocument;
  const { shown = [] } = sweep.points.find(({ at }) => at.every((value, i) => Math.abs(value - point[i]!) < 1e-9))!;
  sweep.show.forEach((one, i) => {
    const cell = shown[i]!;
    if (one.kind === 'quantity') {
      const value = checked.quantities.find(({ id, case: load }) => id === one.id && load === one.case)!.value;
      expect(cell.value).toBe(value);
    } else {
      const { verdict, value, limit, margin, case: where, reason } = checked.results.find(({ id }) => id === one.id)!;
      expect(cell).toEqual({ verdict, value, limit, margin, case: where, ...(reason === undefined ? {} : { reason }) });
    }
  });
}

describe.concurrent('whatever check says of the edited file, the sweep says of the point', () => {
  test('supply voltage, starts in the time domain', async () => {
    const show = 'drain.peak,drain.peakAtSwitchOn,drain.peakAtLoadRemoval,switch-surge-voltage,latch-up,touch-voltage';
    const file = 'bindery-lamp.yaml';
    const sweep = await swept([`examples/${file}`, '--vary', 'supply.voltage=18 V..30 V:6 V', '--show', show]);
    expect(sweep.method).toBe('time domain');
    const written = /voltage: \S+ V/.exec(text(file))![0];
    for (const volts of [18, 24, 30])
      await expectAsChecked({ sweep, point: [volts], changes: [[written, `voltage: ${volts} V`]], file, closedForm: false });
    const verdicts = sweep.points.map(({ shown }) => shown!.at(-2)!.verdict);
    expect(new Set(verdicts).size).toBeGreaterThan(1);
  });

  test('a whole number and a load by its index, in closed form', async () => {
    const show = 'tank.frequency,capacitor-current,supply-current,clamp-power';
    const file = 'charging-pad.yaml';
    const vary = ['--vary', 'tank.bank.parallel=4..8:2', '--vary', 'loads[1].power=20 W..40 W:20 W'];
    const sweep = await swept([`examples/${file}`, ...vary, '--show', show]);
    expect(sweep.method).toBe('closed form');
    expect(sweep.points.map(({ at }) => at)).toEqual([4, 6, 8].flatMap((n) => [20, 40].map((watts) => [n, watts])));
    for (const [n, watts] of [
      [4, 20],
      [6, 40],
      [8, 20],
    ] as const)
      await expectAsChecked({
        sweep,
        point: [n, watts],
        changes: [
          ['parallel: 6', `parallel: ${n}`],
          ['power: 25 W', `power: ${watts} W`],
        ],
        file,
        closedForm: true,
      });
  });

  test('a key that the file lacks, and a temperature by degrees', async () => {
    const file = 'charging-pad.yaml';
    const vary = ['--vary', 'tank.bank.series=1..2', '--vary', 'environment.ambient=30 degC..50 degC:20 K'];
    const sweep = await swept([`examples/${file}`, ...vary, '--show', 'tank.capacitance,switch-temperature']);
    for (const [series, celsius] of [
      [1, 30],
      [2, 50],
    ] as const)
      await expectAsChecked({
        sweep,
        point: [series, celsius + 273.15],
        changes: [
          ['parallel: 6', `parallel: 6\n    series: ${series}`],
          ['ambient: 25 degC', `ambient: ${celsius} degC`],
        ],
        file,
        closedForm: true,
      });
  });

  test('a rating of an inline part', async () => {
    const inline = edited(text('charging-pad.yaml'), [
      'part: pp-foil-100n-1000v',
      'part: {capacitance: {value: 100 nF, source: data sheet}, voltageDc: 1000 V, tolerance: 5 %}',
    ]);
    const sweep = await swept([
      fileWith(inline),
      '--vary',
      'tank.bank.part.capacitance=100 nF..200 nF:100 nF',
      '--show',
      'tank.capacitance',
    ]);
    expect(sweep.points.map(({ shown }) => shown![0]!.value)).toEqual([6e-7, 1.2e-6].map((value) => expect.closeTo(value, 12) as number));
  });
});

describe.concurrent('sweep', () => {
  test('a refused point is told with its reason and the others stay', async () => {
    const args = ['examples/charging-pad.yaml', '--vary', 'supply.voltage=0 V..24 V:12 V', '--show', 'drain.peak'];
    const { points } = await swept(args);
    expect(points.map(({ refused }) => refused?.id)).toEqual(['out-of-range', undefined, undefined]);
    const { stdout } = await ran(['sweep', ...args]);
    expect(stdout).toMatch(/0 V +refused/);
    expect(stdout).toMatch(/refused: `supply.voltage` must be at least/);
    expect(stdout).toMatch(/12 V +37\.\d+ V/);
  });

  test('says the method, keeps to 80 columns, and colours verdicts only beside their words', async () => {
    const args = ['sweep', 'examples/live-rail-lamp.yaml', '--vary', 'supply.voltage=24 V..36 V:4 V', '--show'];
    const plain = await ran([...args, 'drain.peak,switch-peak-voltage,capacitor-current,loaded-q']);
    expect(plain.stdout).toMatch(/closed\s+form, no start is run/);
    expect(Math.max(...plain.stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    const timed = await ran([...args, 'switch-surge-voltage']);
    expect(timed.stdout).toMatch(/starts\s+and\s+load\s+changes\s+in\s+the\s+time\s+domain/);
    const painted = await ran([...args, 'switch-surge-voltage', '--color', 'always']);
    expect(painted.stdout).toMatch(/\u001B\[31mfail/);
    expect(painted.stdout.replaceAll(/\u001B\[\d+m/g, '')).toBe(timed.stdout);
    const closed = await ran([...args, 'switch-surge-voltage', '--closed-form']);
    expect(closed.stdout).toMatch(/closed\s+form, no start is run/);
    expect(closed.status).toBe(0);
  });

  test('writes a line, a map and a table, and nothing over what is there', async () => {
    const folder = emptyFolder();
    const [line, map, csv] = ['line.svg', 'map.svg', 'out.csv'].map((name) => join(folder, name)) as [string, string, string];
    const one = ['sweep', 'examples/charging-pad.yaml', '--vary', 'supply.voltage=0 V..24 V:6 V', '--show', 'drain.peak,capacitor-current'];
    expect((await ran([...one, '--plot', line, '--csv', csv])).status).toBe(0);
    expect((await ran([...one, '--vary', 'tank.bank.parallel=1..12', '--plot', map])).status).toBe(0);
    for (const path of [line, map]) expect(readFileSync(path, 'utf8')).toMatch(/^<svg .*<\/svg>\n$/s);
    expect(readFileSync(map, 'utf8')).toMatch(/>F( |<)/);
    const rows = readFileSync(csv, 'utf8').trim().split('\n');
    expect(rows[0]).toBe(
      'supply.voltage [V],drain.peak of nothing near [V],drain.peak of lantern on the pad [V],capacitor-current verdict,capacitor-current [A],capacitor-current limit [A],capacitor-current margin,capacitor-current case,refused',
    );
    expect(rows).toHaveLength(6);
    expect(rows[1]).toMatch(/^0,,,,,,,,.*at least/);
    // before the work is done: no other fault of the command is looked for
    const refused = await ran([...one.slice(0, -1), 'no.such.id', '--csv', csv]);
    expect(refused).toMatchObject({ status: 2, stdout: '' });
    expect(refused.stderr.replaceAll(/\s+/g, ' ')).toMatch(/--csv: .*out.csv exists already.*--force to write over it/);
    expect((await ran([...one, '--csv', csv, '--force'])).status).toBe(0);
  });

  const show = ['--show', 'drain.peak'];
  test.each([
    [['--vary', 'supply.voltege=1 V..2 V', ...show], 'did you mean `voltage`?'],
    [['--vary', 'title=1..2', ...show], '`title` is text'],
    [['--vary', 'switches.part=1..2', ...show], 'names a part (IRFP250N)'],
    [
      ['--vary', 'switches.part.onResistance=1 ohm..2 ohm', ...show],
      'in place of `part: IRFP250N` write `part: {onResistance: 75 mΩ, drainVoltage: 200 V, …}`, with every key of its part file (tankproof parts show IRFP250N;',
    ],
    [['--vary', 'gates.clamp.power=1 W..2 W', ...show], 'and vary gates.clamp.power'],
    [['--vary', 'chokes.inductance=50 uH..100 uH', ...show], 'write `part: {inductance: 200.9 µH, resistance: 12.8 mΩ, …}`'],
    [['--vary', 'tank.bank.part=1..2', ...show], 'and vary tank.bank.part.capacitance'],
    [['--vary', 'gates.pullUp.hold=1..2', ...show], 'true or false'],
    [['--vary', 'supply=1..2', ...show], 'group of keys'],
    [['--vary', 'loads=1..2', ...show], 'is a list'],
    [['--vary', 'loads[7].power=1 W..2 W', ...show], 'loads[1] (lantern on the pad)'],
    [['--vary', 'loads.lantern on the pat.power=1 W..2 W', ...show], 'did you mean `lantern on the pad`?'],
    [['--vary', 'supply.voltage.x=1 V..2 V', ...show], 'has no keys in it'],
    [['--vary', 'supply.voltage', ...show], 'has no "="'],
    [['--vary', 'supply.voltage=36 V..12 V', ...show], 'backwards'],
    [['--vary', 'supply.voltage=12 V..36 V:5 V', ...show], 'a step of 5 V does not lead from 12 V to 36 V'],
    [['--vary', 'supply.voltage=12 V..36 V:0 V', ...show], 'above zero'],
    [['--vary', 'supply.voltage=12 V..36 V:-1 V', ...show], 'above zero'],
    [['--vary', 'supply.voltage=12 V..36 A', ...show], 'a voltage is expected'],
    [['--vary', 'supply.voltage=1 V..101 V:1 mV', ...show], '100001 values'],
    [['--vary', 'supply.voltage=1 V..201 V:1 V', '--vary', 'tank.bank.parallel=1..60', ...show], '12060 points'],
    [['--vary', 'supply.voltage=1 V..2 V', '--vary', 'supply.voltage=1 V..2 V', ...show], 'twice'],
    [
      ['--vary', 'supply.voltage=1 V..2 V', '--vary', 'supply.riseTime=1 s..2 s', '--vary', 'tank.bank.parallel=1..2', ...show],
      'one or two',
    ],
    [['--vary', 'tank.bank.parallel=1..2:0.5', ...show], 'only whole numbers'],
    [['--vary', 'tank.bank.parallel=-2..-1', ...show], 'tank.bank.parallel'],
    [['--vary', 'tank.bank.parallel=4..6', '--show', 'drian.peak'], 'did you mean `drain.peak`?'],
    [['--vary', 'tank.bank.parallel=4..6', '--show', 'latchup'], 'did you mean `latch-up`?'],
    [['--vary', 'tank.bank.parallel=4..6', '--show', ','], 'names nothing'],
    [['--vary', 'tank.bank.parallel=4..6'], 'issing required flag show'],
  ])('%j is refused with status 2', async (args, words) => {
    const { status, stdout, stderr } = await ran(['sweep', 'examples/charging-pad.yaml', ...args, '--closed-form']);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(words);
  });

  test('a refusal is one JSON document', async () => {
    const { status, stdout } = await ran(['sweep', 'examples/charging-pad.yaml', '--vary', 'title=1..2', ...show, '--json']);
    expect(status).toBe(2);
    expectValid(JSON.parse(stdout));
    expect(JSON.parse(stdout)).toMatchObject({ error: { id: 'not-a-quantity' } });
  });
});
