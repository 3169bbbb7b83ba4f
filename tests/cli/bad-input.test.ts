import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited, measuredPad } from '../checks/reviewed.ts';
import { emptyFolder, fileWith, ran } from './ran.ts';

const pad = measuredPad;
const bomb = `a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\n${pad}`;

/** What is wrong, the piece that is exchanged (or the whole file), and where the error must point. */
const edits: readonly (readonly [string, string, string, string, string])[] = [
  ['an unknown key', 'parallel: 8', 'paralel: 8', 'unknown-key', '20:5'],
  ['a wrong unit', 'voltage: 18 V', 'voltage: 18 A', 'wrong-unit', '5:12'],
  ['a bare number', 'voltage: 18 V', 'voltage: 18', 'bare-number', '5:12'],
  ['a negative resistance', 'resistance: 30 mohm', 'resistance: -30 mohm', 'out-of-range', '16:17'],
  ['a coil without resistance', 'resistance: 30 mohm', 'resistance: 0 ohm', 'out-of-range', '16:17'],
  ['a supply of nothing', 'voltage: 18 V', 'voltage: 0 V', 'out-of-range', '5:12'],
  ['an overflow', 'voltage: 18 V', 'voltage: 1e400 V', 'not-finite', '5:12'],
  ['not a number', 'voltage: 18 V', 'voltage: NaN V', 'not-finite', '5:12'],
  ['a division by zero', 'voltage: 18 V', 'voltage: 18 V / 0', 'not-finite', '5:12'],
  ['an unknown part', 'part: IRFP250N', 'part: IRFP25ON', 'unknown-part', '27:9'],
  ['a part of another kind', 'part: IRFP250N', 'part: UF4004', 'wrong-kind', '27:9'],
  ['two forms of load', 'power: 25 W', 'power: 25 W\n    loadedQ: 8', 'contradictory-load', '25:5'],
  ['a series of none', 'parallel: 8', 'parallel: 8\n    series: 0', 'out-of-range', '21:13'],
  ['a tolerance over 100 %', 'tolerance: 5 %', 'tolerance: 120 %', 'over-hundred-percent', '6:14'],
  ['a function call', 'voltage: 18 V', 'voltage: sqrt(324) V', 'not-arithmetic', '5:12'],
  ['a loop', 'voltage: 18 V', 'voltage: ones(20000, 20000)', 'not-arithmetic', '5:12'],
  ['a loaded Q above what the coil allows', 'power: 25 W', 'loadedQ: 500', 'impossible-load', '24:14'],
  ['a folder of parts that is not there', 'title: Path', 'partsFolders: [nowhere]\ntitle: Path', 'no-such-file', '3:15'],
  [
    'limits that fail before they warn',
    'environment:',
    'limits: {switch-peak-voltage: {warn: 0.9, fail: 0.5}}\nenvironment:',
    'limit-order',
    '38:31',
  ],
  ['limits that the circuit sets', 'environment:', 'limits: {hold-off-running: {warn: 1 V}}\nenvironment:', 'fixed-limit', '38:28'],
  ['limits in a wrong unit', 'environment:', 'limits: {switch-peak-voltage: {warn: 3 A}}\nenvironment:', 'wrong-unit', '38:38'],
  ['a limit below zero', 'environment:', 'limits: {switch-peak-voltage: {warn: -0.5}}\nenvironment:', 'out-of-range', '38:38'],
  ['limits of no check', 'environment:', 'limits: {loaded-w: {warn: 4}}\nenvironment:', 'unknown-check', '38:10'],
  ['a duplicate key', 'parallel: 8', 'parallel: 8\n    parallel: 9', 'duplicate-key', '21:5'],
  ['a tab', '  voltage: 18 V', '\tvoltage: 18 V', 'tab-indent', '5:1'],
  ['a decimal comma', 'voltage: 18 V', 'voltage: 1,8 V', 'decimal-comma', '5:12'],
  ['a letter for the point', 'resistance: 220 ohm', 'resistance: 4k7', 'letter-for-point', '32:17'],
  ['a key without value', 'voltage: 18 V', 'voltage:', 'no-value', '5:3'],
  ['a missing key', '  voltage: 18 V\n', '', 'missing-key', '4:1'],
  ['half a capacitor', 'parallel: 8', 'parallel: 2.5', 'wrong-type', '20:15'],
  ['below absolute zero', 'ambient: 35 degC', 'ambient: -300 degC', 'below-absolute-zero', '39:12'],
  ['a folder without parts', 'title: Path', 'partsFolders: [.]\ntitle: Path', 'no-parts', '3:15'],
];

describe.concurrent('a file with one mistake: one error with place and help, status 2, nothing on standard output', () => {
  test.each(edits)('%s', async (_words, from, to, id, at) => {
    const path = fileWith(edited(pad, [from, to]));
    const { status, stdout, stderr } = await ran(['check', path]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect([...stderr.matchAll(/^error: /gm)]).toHaveLength(1);
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(`[${id}]`);
    expect(stderr.split('\n')).toContain(`  ${path}:${at}`);
    expect(stderr).toMatch(/^ {2}help: \S/m);
    expect(stderr).toMatch(/\| +\^/);
  });

  test('all mistakes of a file are said at once, in file order', async () => {
    const path = fileWith(
      edited(pad, ['voltage: 18 V', 'voltage: 18'], ['parallel: 8', 'paralel: 8'], ['crossDiode: UF4004', 'crossDiode: UF4O04']),
    );
    const { stderr } = await ran(['check', path]);
    expect([...stderr.matchAll(/\[([a-z-]+)\]$/gm)].map(([, id]) => id)).toEqual(['bare-number', 'unknown-key', 'unknown-part']);
  });
});

describe.concurrent('what is no project file', () => {
  test.each<[string, () => string, string]>([
    ['nothing there', () => join(emptyFolder(), 'none.yaml'), 'no-such-file'],
    ['a link to nowhere', () => linkToNowhere(), 'no-such-file'],
    ['no name', () => '', 'no-such-file'],
    ['a folder', () => emptyFolder(), 'no-project'],
    ['a pattern', () => join(emptyFolder(), '*.yaml'), 'no-such-file'],
    ['a pipe that nobody writes to', () => pipe(), 'not-a-file'],
    ['a path through a file', () => join(fileWith(pad), 'project.yaml'), 'no-such-file'],
    ['links in a circle', () => circle(), 'unreadable'],
    ['a name that is too long', () => 'x'.repeat(5000), 'no-such-file'],
    ['a device that never ends', () => '/dev/zero', 'not-a-file'],
    ['empty', () => fileWith(''), 'empty-file'],
    ['only remarks', () => fileWith('# nothing\n\n'), 'empty-file'],
    ['not UTF-8', () => fileWith(Uint8Array.of(0xff, 0xfe, 0x41)), 'not-text'],
    ['binary', () => fileWith(Uint8Array.from({ length: 4096 }, (_, i) => (i * 37) % 256)), 'not-text'],
    ['50 MB', () => fileWith(`${'# '.padEnd(1023, 'x')}\n`.repeat(50 * 1024)), 'file-too-large'],
    ['a bomb of aliases', () => fileWith(bomb), 'anchor'],
    ['a list', () => fileWith('- 1\n- 2\n'), 'wrong-type'],
    ['a word', () => fileWith('hello\n'), 'wrong-type'],
  ])('%s', async (_words, pathOf, id) => {
    const path = pathOf();
    const { status, stdout, stderr } = await ran(['check', path]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(`[${id}]`);
    expect(stderr).toMatch(/help: \S/);
    // which file it is: a name may be broken over lines
    expect(stderr.replaceAll(/\s+/g, '')).toContain(path === '' ? 'afilewithoutaname' : path);
  });

  function linkToNowhere(): string {
    const path = join(emptyFolder(), 'link.yaml');
    symlinkSync('nowhere', path);
    return path;
  }
  function pipe(): string {
    const path = join(emptyFolder(), 'pipe.yaml');
    execFileSync('mkfifo', [path]);
    return path;
  }
  function circle(): string {
    const folder = emptyFolder();
    symlinkSync(join(folder, 'b'), join(folder, 'a'));
    symlinkSync(join(folder, 'a'), join(folder, 'b'));
    return join(folder, 'a');
  }
});

describe.concurrent('parts of one’s own', () => {
  function withOwnPart(text: string): string {
    const folder = emptyFolder();
    mkdirSync(join(folder, 'parts', 'diodes'), { recursive: true });
    writeFileSync(join(folder, 'parts', 'diodes', 'MY-DIODE.yaml'), text);
    writeFileSync(
      join(folder, 'p.yaml'),
      edited(pad, ['title: Path', 'partsFolders: [parts]\ntitle: Path'], ['crossDiode: UF4004', 'crossDiode: MY-DIODE']),
    );
    return join(folder, 'p.yaml');
  }
  const good = 'tankproofPart: 1\nkind: diodes\nreverseVoltage: 400 V\nforwardVoltage: {value: 1 V, at: 1 A}\nrecoveryTime: 35 ns\n';

  test('are found in a folder beside the project', async () => {
    const { status, stdout } = await ran(['check', withOwnPart(good)]);
    expect(status).toBe(0);
    expect(stdout).toContain('MY-DIODE: reverseVoltage');
  });

  test('with a mistake are refused where the mistake stands', async () => {
    const path = withOwnPart(good.replace('35 ns', '35 mm'));
    const { status, stderr } = await ran(['check', path]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/MY-DIODE\.yaml:5:15/);
  });

  test('with nothing in them are refused by name', async () => {
    const { status, stderr } = await ran(['check', withOwnPart('')]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/\[empty-file\]\n.*MY-DIODE\.yaml:1:1/);
  });
});
