import { spawnSync } from 'node:child_process';
import { closeSync, openSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited, example, measuredPad } from '../checks/reviewed.ts';
import { fileWith, ran, root } from './ran.ts';

const pad = 'examples/charging-pad.yaml';
const heater = 'examples/bolt-heater.yaml';
const warning = (): string => fileWith(edited(example('charging-pad'), ['resistance: 180 ohm', 'resistance: 390 ohm']));
const unassessed = (): string => fileWith(edited(measuredPad, ['  currentLimit: 5 A', '  # none']));

describe.concurrent('exit status, the same with and without --json', () => {
  test.each<[string, () => readonly string[], number]>([
    ['nothing failed', () => [pad], 0],
    ['a check failed', () => [heater], 1],
    ['a check failed, reported only', () => [heater, '--report-only'], 0],
    ['a warning', () => [warning()], 0],
    ['a warning that is to fail', () => [warning(), '--fail-on', 'warn'], 1],
    ['a warning, another verdict is to fail', () => [warning(), '--fail-on', 'not-assessed'], 0],
    ['not assessed', () => [unassessed()], 0],
    ['not assessed that is to fail', () => [unassessed(), '--fail-on', 'not-assessed'], 1],
    ['both verdicts to fail', () => [unassessed(), '--fail-on', 'warn', '--fail-on', 'not-assessed'], 1],
    ['both verdicts to fail, the file last', () => ['--fail-on', 'warn', '--fail-on', 'not-assessed', unassessed()], 1],
    ['a file that is not there', () => ['missing.yaml'], 2],
    ['a file that is not there, reported only', () => ['missing.yaml', '--report-only'], 2],
    ['several: the highest', () => [pad, heater], 1],
    ['several, one not there', () => [heater, 'missing.yaml', pad], 2],
    ['no file', () => [], 2],
    ['an unknown flag', () => [pad, '--strict'], 2],
    ['an unknown verdict', () => [pad, '--fail-on', 'pass'], 2],
  ])('%s', async (_words, args, status) => {
    const list = args();
    // the closed form is quicker, but leaves the start unassessed
    const form = list.includes('not-assessed') ? [] : ['--closed-form'];
    const [text, json] = await Promise.all([ran(['check', ...form, ...list]), ran(['check', ...form, ...list, '--json'])]);
    expect([text.status, json.status]).toEqual([status, status]);
    expect(() => JSON.parse(json.stdout) as unknown).not.toThrow();
  });
});

describe.concurrent('words go where they belong', () => {
  test('the report to standard output, a refusal to standard error', async () => {
    const both = await ran(['check', 'missing.yaml', pad]);
    expect(both.stderr).toContain('missing.yaml does not exist');
    expect(both.stdout).toMatch(/^ {2}could not run +missing\.yaml$/m);
    expect(both.stdout).toMatch(/^ {2}pass +0 +0 +0 +36 {2}examples\/charging-pad\.yaml$/m);
    expect(both.stdout).toMatch(/^2 files: 1 could not run, 1 pass: pass, 1 could not run$/m);
  });

  test.each([
    [['chek', pad], 'did you mean `check`?'],
    [['explain', 'loaded-w'], 'did you mean `loaded-q`?'],
    [['check', pad, '--jsn'], '--jsn'],
    [['check'], 'help: see tankproof check --help'],
    [['check', pad, '--jsn'], 'see tankproof check --help'],
    [['sweep', pad, '--vary'], 'see tankproof sweep --help'],
    [['parts', 'list', '--knd', 'zeners'], 'see tankproof parts --help'],
    [['startup', pad, '--plot', 'x.png'], '--plot: x.png does not end with .svg; a drawing is an SVG [usage]\n  help: write x.svg\n'],
    [['sweep', pad, '--vary', 'supply.voltage=1 V..2 V:1 V', '--show', 'drain.peak', '--plot', 'x'], 'help: write x.svg'],
    [['window', pad, '--plot', 'x.csv'], 'help: write x.svg'],
    [['spread', pad, '--plot', 'x.svg.gz'], 'x.svg.gz does not end with .svg'],
    [['bank', pad, '--parallel', '2..3', '--plot', 'x.pdf'], 'help: write x.svg'],
    [['check:one'], 'there is no command "check:one"'],
    [['chek', '--help'], 'command chek not found [usage]'],
    [['--help', 'chek'], 'command chek not found [usage]'],
    [['chek', '-h'], 'help: see tankproof --help'],
  ])('%j is refused with help and status 2', async (args, words) => {
    const { status, stdout, stderr } = await ran(args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain(words);
    expect(stderr).not.toMatch(/\bat .*\.js:\d+|undefined/);
  });

  test.each([[[]], [['--help']], [['-h']], [['check', '--help']], [['check', '-h']], [['explain', '-h']]])(
    '%j shows help, status 0',
    async (args) => {
      const { status, stdout } = await ran(args);
      expect(status).toBe(0);
      expect(stdout).toContain('USAGE');
    },
  );

  test('explain lists every check, and tells each', async () => {
    const list = await ran(['explain']);
    const ids = list.stdout.split('\n').flatMap((line) => /^ {2}([a-z-]+) {2}/.exec(line)?.[1] ?? []);
    expect(ids.length).toBeGreaterThanOrEqual(20);
    const one = await ran(['explain', 'switch-surge-voltage']);
    for (const heading of ['what', 'why', 'formula', 'source', 'levels', 'remedy'])
      expect(one.stdout).toMatch(new RegExp(`^  ${heading} `, 'm'));
    const json = JSON.parse((await ran(['explain', 'switch-surge-voltage', '--json'])).stdout) as Record<string, unknown>;
    expect(Object.keys(json)).toEqual(['id', 'part', 'title', 'since', 'what', 'why', 'formula', 'source', 'remedy', 'levels']);
  });
});

describe.concurrent('colour', () => {
  const escape = '\u001B[';
  test.each<[string, readonly string[], Record<string, string>, boolean]>([
    ['none in a pipe', [], {}, false],
    ['always, when asked', ['--color', 'always'], {}, true],
    ['always wins over NO_COLOR', ['--color', 'always'], { NO_COLOR: '1' }, true],
    ['FORCE_COLOR', [], { FORCE_COLOR: '1' }, true],
    ['NO_COLOR wins over FORCE_COLOR', [], { FORCE_COLOR: '1', NO_COLOR: '1' }, false],
    ['an empty NO_COLOR says nothing', [], { FORCE_COLOR: '1', NO_COLOR: '' }, true],
    ['never', ['--color', 'never'], { FORCE_COLOR: '1' }, false],
  ])('%s', async (_words, args, env, coloured) => {
    const { stdout } = await ran(['check', heater, '--closed-form', ...args], { env });
    expect(stdout.includes(escape)).toBe(coloured);
    // the words are the same either way
    const plain = stdout.replaceAll(/\u001B\[\d+m/g, '');
    expect(plain).toContain('fail          capacitor-self-heating');
    const json = await ran(['check', heater, '--closed-form', '--json', ...args], { env });
    expect(json.stdout).not.toContain(escape);
  });
});

test('the built tool reads the signs that are not ASCII as the sources do', async () => {
  const file = fileWith(
    edited(measuredPad, ['ambient: 35 degC', 'ambient: 35 °C'], ['voltage: 18 V', 'voltage: 3 × 6 V'], ['4.5 uH', '4.5 µH']),
  );
  expect((await ran(['check', '--closed-form', file])).status).toBe(0);
});

test.each([
  ['window', 'examples/spark-igniter.yaml', '--closed-form'],
  ['bank', 'examples/bolt-heater.yaml', '--closed-form', '--part', 'pp-box-100n-630v', '--series', '1'],
])('%s ends with 1, and with 0 under --report-only', async (...args) => {
  expect((await ran([...args])).status).toBe(1);
  expect((await ran([...args, '--report-only'])).status).toBe(0);
});

test.each([[['explain']], [['check', 'examples/charging-pad.yaml', '--closed-form', '--json']], [['--help']]])(
  '%s says that standard output is full, in one line, status 2',
  (args) => {
    const full = openSync('/dev/full', 'w');
    try {
      const { status, stderr } = spawnSync(process.execPath, [join(root, 'dist', 'bin.js'), ...args], {
        cwd: root,
        stdio: ['ignore', full, 'pipe'],
        encoding: 'utf8',
      });
      expect([status, stderr]).toEqual([2, 'error: standard output cannot be written: no space is left [not-written]\n']);
    } finally {
      closeSync(full);
    }
  },
);
