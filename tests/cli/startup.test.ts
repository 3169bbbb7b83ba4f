import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyFolder, ran } from './ran.ts';

describe.concurrent('startup', () => {
  test('lists the events of every load with outcome and peaks, at most 80 columns wide', async () => {
    const { status, stdout } = await ran(['startup', 'examples/live-rail-lamp.yaml']);
    expect(status).toBe(0);
    for (const event of ['switch-on, lamp in place', 'load application', 'load removal', 'supply drop']) expect(stdout).toContain(event);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  test('an axis ends at zero where nothing but noise is below it', async () => {
    const { stdout } = await ran(['startup', 'examples/live-rail-lamp.yaml']);
    const ends = [...stdout.matchAll(/^ {11}(\S+ \S+) /gm)].map(([, end]) => end);
    expect(ends).toHaveLength(4);
    expect(ends.filter((end) => /^-[\d.]+ [nµ]V/.test(end!))).toEqual([]);
  });

  test('ends with 1 where an event latches, and says the same as JSON', async () => {
    const { status, stdout } = await ran(['startup', 'examples/bindery-lamp.yaml', '--json']);
    const { events } = JSON.parse(stdout) as { events: { event: string; outcome: string }[] };
    expect(status).toBe(1);
    expect(events.some(({ event, outcome }) => event === 'switch-on' && outcome === 'latches')).toBe(true);
  });

  test('writes a drawing and a table, and nothing over what is there', async () => {
    const folder = emptyFolder();
    const [svg, csv] = [join(folder, 'a.svg'), join(folder, 'a.csv')];
    const args = ['startup', 'examples/live-rail-lamp.yaml', '--plot', svg, '--csv', csv];
    expect((await ran(args)).status).toBe(0);
    expect(readFileSync(svg, 'utf8')).toMatch(/^<svg .*<\/svg>\n$/s);
    const lines = readFileSync(csv, 'utf8').trim().split('\n');
    expect(lines[0]).toBe(
      'time_s,drainA_min,drainA_max,drainB_min,drainB_max,gateA_min,gateA_max,gateB_min,gateB_max,supply_min,supply_max',
    );
    expect(lines.length).toBeGreaterThan(100);
    expect(lines.every((line) => line.split(',').length === 11)).toBe(true);
    const again = await ran(args);
    expect(again.status).toBe(2);
    expect(again.stderr).toContain('exists already');
    expect(again.stderr.replaceAll(/\s+/g, ' ')).toContain('add --force to write over it');
    // said before the work is done
    expect(again.stdout).toBe('');
    expect((await ran([...args, '--force'])).status).toBe(0);
  });

  test('maps outcome against rise time and voltage', async () => {
    const { status, stdout } = await ran([
      'startup',
      'examples/bindery-lamp.yaml',
      '--rise',
      '0 s..4 ms:2 ms',
      '--voltage',
      '21 V..27 V:6 V',
    ]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/27 V\s+L\s+\.\s+\./);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain('said by latch-up of `tankproof check`');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  test.each([
    [['--rise', '10 ms..1 ms'], 'backwards'],
    [['--rise', '5 V..10 V'], 'time'],
    [['--voltage', '12 V..24 V'], '--voltage is a range for the map of --rise'],
    [['--mismatch', '80 %'], 'between 0 and 50 %'],
    [['--plot', '/nowhere/at/all.svg'], 'folder does not exist'],
  ])('%j is refused with status 2', async (args, words) => {
    const { status, stderr } = await ran(['startup', 'examples/live-rail-lamp.yaml', ...args]);
    expect(status).toBe(2);
    expect(stderr).toContain(words);
  });
});

describe.concurrent('parts, new, faults', () => {
  test('parts show prints every rating with its source; a near name is proposed', async () => {
    const { stdout } = await ran(['parts', 'show', 'IRFP250N']);
    expect(stdout).toMatch(/drainVoltage +200 V +data sheet/);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain('memory: recalled, not read again');
    expect(stdout).not.toContain('sibling:');
    expect((await ran(['parts', 'show', 'IRFP250'])).stderr).toContain('IRFP250N');
    expect((await ran(['parts', 'list', '--kind', 'zeners'])).stdout).toContain('1N4742A');
    const { status, stdout: json } = await ran(['parts', 'show', 'UF4004', '--json']);
    expect(status).toBe(0);
    expect(JSON.parse(json)).toMatchObject({ name: 'UF4004', kind: 'diodes' });
  });

  test('new writes a project that checks without a fail, and never overwrites', async () => {
    const file = join(emptyFolder(), 'mine.yaml');
    expect((await ran(['new', file])).status).toBe(0);
    const { status, stdout } = await ran(['check', file]);
    expect(status).toBe(0);
    expect(stdout).toContain('0 failed');
    // the shape that stands there as a remark is that of the coil
    const shaped = readFileSync(file, 'utf8').replaceAll(/^ {4}# (shape|diameter|turns|pitch|conductor):/gm, '    $1:');
    writeFileSync(file, shaped);
    const both = (await ran(['check', file, '--closed-form'])).stdout;
    expect(both).toMatch(/pass +coil-temperature/);
    expect(both).not.toContain('times that of the geometry');
    const again = await ran(['new', file]);
    expect(again.status).toBe(2);
    expect(again.stderr).toContain('nothing was overwritten');
    const from = join(emptyFolder(), 'heater.yaml');
    expect((await ran(['new', from, '--from', 'examples/bolt-heater'])).status).toBe(0);
    expect(existsSync(from)).toBe(true);
    expect((await ran(['new', '--from', 'bolt-heatr'])).stderr).toContain('bolt-heater');
  });

  test('check --faults names what each fault does', async () => {
    const { stdout } = await ran(['check', 'examples/charging-pad.yaml', '--closed-form', '--faults']);
    expect(stdout).toContain('load shorted: fails');
    expect(stdout).toContain('capacitors open: nothing fails by it');
  });
});
