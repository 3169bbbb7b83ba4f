import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { example } from '../checks/reviewed.ts';
import { emptyFolder, ran } from './ran.ts';
import { validator } from './schemas.ts';

const expectValid = validator('report.schema.json');
const [pad, heater] = [example('charging-pad'), example('bolt-heater')];

/** A folder with files of these contents. */
function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = emptyFolder();
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(folder, name, '..'), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}
const checked = (args: readonly string[], cwd: string): ReturnType<typeof ran> => ran(['check', '--closed-form', ...args], { cwd });

describe.concurrent('many files', () => {
  test('over all cores and on one give the same, in the order in which they were named; a bad file hides nothing', async () => {
    const names = Array.from({ length: 40 }, (_, i) => `p${String(i).padStart(2, '0')}.yaml`);
    const text = (i: number): string => (i === 7 ? 'tankproof: 1\nsuply: {}\n' : i === 11 ? '' : pad.replace('30 degC', `${20 + i} degC`));
    const folder = folderWith(Object.fromEntries(names.map((name, i) => [name, text(i)])));
    const given = names.toReversed();
    const [many, ...few] = await Promise.all([
      checked([...given, '--json'], folder),
      checked([...given.slice(0, 20), '--json'], folder),
      checked([...given.slice(20), '--json'], folder),
    ]);
    const reports = (stdout: string): unknown[] => (JSON.parse(stdout) as { reports: unknown[] }).reports;
    expectValid(JSON.parse(many.stdout));
    expect([many.status, many.stderr]).toEqual([2, '']);
    // forty are worth threads, twenty are not
    expect(reports(many.stdout)).toEqual(few.flatMap(({ stdout }) => reports(stdout)));
    expect(reports(many.stdout).map((one) => (one as { file: string }).file)).toEqual(given);
  });

  test('are told in one table; passes of a file in one line; a refusal with its line from another thread too', async () => {
    const files = Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`p${10 + i}.yaml`, pad]));
    const folder = folderWith({
      ...files,
      'bad.yaml': pad.replace('voltage: 18 V', 'voltage: 18'),
      'heater.yaml': heater,
      'limits.yml': 'a: 1\n',
    });
    const { stdout, stderr, status } = await checked(['.'], folder);
    expect(status).toBe(2);
    expect(stderr).toMatch(/\[bare-number\]\n {2}bad\.yaml:\d+:\d+\n +\d+ \| +voltage: 18\n/);
    expect(stdout).toMatch(/^ {2}26 passed: switch-peak-voltage, /m);
    expect(stdout).toMatch(
      /^ {2}could not run +bad\.yaml\n {2}fail +6 +3 +1 +26 {2}heater\.yaml\n {2}not assessed +0 +1 +0 +35 {2}p10\.yaml$/m,
    );
    expect(stdout).toMatch(/^note: skipped a file without a key tankproof: limits\.yml$/m);
    expect(stdout).toMatch(/^32 files: 1 could not run, 1 fail, 30 not assessed: fail, 1 could not run\n$/m);
  });

  test('--quiet prints what does not pass and the last line', async () => {
    const folder = folderWith({ 'a.yaml': pad, 'b.yaml': heater });
    const only = ['--only', 'loaded-q,coil-temperature'];
    const { stdout } = await checked([...only, '-q', 'a.yaml', 'b.yaml'], folder);
    expect(stdout).toMatch(/^b\.yaml {2}Hinge[^]+coil-temperature[^]+1 failed, 0 not assessed, 0 warned, 1 passed: fail\n/);
    expect(stdout).not.toMatch(/cautions|assumed|a\.yaml|^ {4}pass /m);
    expect(stdout).toMatch(/note: checked nothing but coil-temperature, loaded-q\n2 files: 1 fail, 1 pass: fail\n$/);
    const one = await checked([...only, '-q', 'a.yaml'], folder);
    expect(one.stdout).toBe(
      'a.yaml: 0 failed, 0 not assessed, 0 warned, 2 passed: pass\nnote: checked nothing but coil-temperature, loaded-q\n',
    );
  });

  test('--quiet keeps the single faults that were asked for, of one file and of several that pass', async () => {
    const folder = folderWith({ 'a.yaml': pad, 'b.yaml': pad });
    const args = ['--only', 'loaded-q', '--faults', '-q'];
    const [one, both] = await Promise.all([checked([...args, 'a.yaml'], folder), checked([...args, 'a.yaml', 'b.yaml'], folder)]);
    expect(one.stdout).toMatch(/^a\.yaml {2}Path[^]+\n {2}single faults, in closed form\n {4}- /);
    expect(one.stdout).not.toMatch(/cautions|assumed/);
    expect(both.stdout.match(/single faults, in closed form/g)).toHaveLength(2);
  });

  test('a folder is a set of files also when it holds one', async () => {
    const folder = folderWith({ 'pads/a.yaml': pad });
    const { stdout } = await checked(['pads', '--json'], folder);
    expect((JSON.parse(stdout) as { reports: { file: string }[] }).reports.map(({ file }) => file)).toEqual(['pads/a.yaml']);
  });
});

describe.concurrent('--only and --limits', () => {
  test('what is asked for is as in the full review; nothing else is told', async () => {
    const folder = folderWith({ 'a.yaml': heater });
    const results = async (...args: string[]): Promise<{ id: string }[]> =>
      (JSON.parse((await checked(['a.yaml', '--json', ...args], folder)).stdout) as { results: { id: string }[] }).results;
    const [all, some] = await Promise.all([results(), results('--only', 'coil-temperature, latch-up')]);
    expect(some).toEqual(all.filter(({ id }) => ['coil-temperature', 'latch-up'].includes(id)));
    expect(some).toHaveLength(2);
  });

  test('a check that the design has no part for is no pass', async () => {
    const folder = folderWith({ 'a.yaml': pad.replace(/^ +clamp: .*\n/m, '') });
    const { stdout, status } = await checked(['a.yaml', '--only', 'clamp-power', '--fail-on', 'not-assessed'], folder);
    expect(status).toBe(1);
    expect(stdout).toMatch(/^0 failed, 0 not assessed, 0 warned, 0 passed: not assessed$/m);
  });

  test.each([
    ['loaded-w', 'did you mean `loaded-q`?'],
    [',', '--only names no check'],
  ])('--only %s is refused', async (ids, words) => {
    const { status, stdout, stderr } = await ran(['check', 'examples/charging-pad.yaml', '--only', ids]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain(words);
  });

  const failing = [
    'capacitor-ac-voltage',
    'capacitor-current',
    'capacitor-self-heating',
    'capacitor-temperature',
    'coil-temperature',
    'hot-surface',
  ];
  const waivers = (expires: string): string =>
    `tankproofLimits: 1\nwaivers:\n${failing.map((id) => `  - {id: ${id}, file: "pads/**", reason: trial run, expires: ${expires}}\n`).join('')}`;

  test('waived fails do not fail the run, expired ones do, and both are told, in JSON too', async () => {
    const folder = folderWith({
      'pads/b.yaml': heater,
      'rules/ok.yaml': waivers('2999-12-31').replaceAll('pads/', '../pads/'),
      'old.yaml': waivers('2001-01-01'),
    });
    const args = ['pads/b.yaml', '--limits'];
    const [none, ok, old, json] = await Promise.all([
      checked(['pads/b.yaml'], folder),
      checked([...args, 'rules/ok.yaml'], folder),
      checked([...args, 'old.yaml'], folder),
      checked([...args, 'rules/ok.yaml', '--json'], folder),
    ]);
    expect([none.status, ok.status, old.status, json.status]).toEqual([1, 0, 1, 0]);
    expect([...ok.stdout.matchAll(/waived until 2999-12-31: trial run/g)]).toHaveLength(6);
    expect(ok.stdout).toMatch(/^6 failed, .*: fail \(6 waived\)$/m);
    expect([...old.stdout.matchAll(/its waiver expired on 2001-01-01/g)]).toHaveLength(6);
    const document = JSON.parse(json.stdout) as { results: { waiver?: { at: { line: number } } }[] };
    expectValid(document);
    expect(document.results.flatMap(({ waiver }) => waiver?.at.line ?? []).toSorted()).toEqual([3, 4, 5, 6, 7, 8]);
  });

  test('a waiver for a warning does not hide a fail: status, words, JSON, SARIF and page', async () => {
    const line = '  - {id: hot-surface, file: b.yaml, verdict: warn, reason: guarded, expires: 2999-12-31}\n';
    const folder = folderWith({
      'b.yaml': heater,
      'warn.yaml': `tankproofLimits: 1\nwaivers:\n${line}`,
      'far.yaml': `tankproofLimits: 1\nwaivers:\n${line.replace('verdict: warn', 'upTo: 900 degC')}`,
    });
    const args = ['b.yaml', '--only', 'hot-surface', '--json', '-o', 'r.sarif', '-o', 'r.html', '--limits'];
    const far = await checked([...args, 'far.yaml'], folder);
    const written = (name: string): string => readFileSync(join(folder, name), 'utf8');
    expect([far.status, written('r.sarif').includes('suppressions')]).toEqual([0, true]);
    const { stdout, status } = await checked([...args, 'warn.yaml'], folder);
    expect(status).toBe(1);
    const document = JSON.parse(stdout) as { results: { waiver: object }[] };
    for (const text of [stdout, far.stdout]) expectValid(JSON.parse(text));
    expect(document.results[0]!.waiver).toMatchObject({ expired: false, covers: false, verdict: 'warn' });
    expect((JSON.parse(far.stdout) as typeof document).results[0]!.waiver).toMatchObject({ covers: true, upTo: 1173.15 });
    expect(written('r.sarif')).not.toContain('suppressions');
    for (const name of ['r.sarif', 'r.html']) expect(written(name)).toContain('its waiver covers a warning, not a fail: guarded');
    expect(written('r.html')).not.toContain('waived)');
  });

  test('a waiver that waives nothing is told', async () => {
    const folder = folderWith({
      'a.yaml': pad,
      'team.yaml':
        'tankproofLimits: 1\nloaded-q: {warn: 6}\nwaivers:\n' +
        ['  - {id: hot-surface, file: a.yaml', '  - {id: hot-surface, file: b.yaml']
          .map((line) => `${line}, reason: r, expires: 2999-01-01}\n`)
          .join(''),
    });
    const { stdout, status } = await checked(['a.yaml', '--limits', 'team.yaml'], folder);
    expect(status).toBe(0);
    expect(stdout).toContain('the waiver of hot-surface at team.yaml:4:5 is not needed');
    expect(stdout).toContain('the waiver of hot-surface at team.yaml:5:5 matches none of these files:\n      b.yaml\n');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/limits that are not those of the default policy\n {4}- team\.yaml:2: loaded-q$/m);
  });
});

describe.concurrent('-o', () => {
  test('a page says which checks were made, and the notes of the run', async () => {
    const folder = folderWith({ 'pads/a.yaml': pad, 'pads/limits.yml': 'a: 1\n' });
    await checked(['pads', '--only', 'loaded-q', '-o', 'r.html'], folder);
    const page = readFileSync(join(folder, 'r.html'), 'utf8');
    expect(page).toContain('Only these checks were made: loaded-q; nothing is said of the others.');
    expect(page).toContain('note: skipped a file without a key tankproof: pads/limits.yml');
    expect(page).not.toContain('Every check passes');
  });

  test('writes every format in one run, again over its own files, and the exit status is that of the checks', async () => {
    const folder = folderWith({ 'a.yaml': heater, 'b.yaml': 'tankproof: 1\n' });
    const outputs = ['r.sarif.json', 'r.junit.xml', 'r.md', 'r.json'];
    const args = ['a.yaml', 'b.yaml', ...outputs.flatMap((name) => ['-o', name])];
    const first = await checked(args, folder);
    expect(first.status).toBe(2);
    for (const name of outputs) expect(first.stderr).toContain(`wrote ${name}\n`);
    expect(readdirSync(folder)).toEqual(['a.yaml', 'b.yaml', ...outputs].toSorted());
    const document = JSON.parse(readFileSync(join(folder, 'r.json'), 'utf8')) as object;
    expectValid(document);
    const second = await checked([...args, '--json'], folder);
    expect(second.status).toBe(2);
    const { tankproof: _writer, ...rest } = document as { tankproof: object };
    expect(JSON.parse(second.stdout)).toEqual(rest);
  });

  test('is refused before the work, and nothing is written', async () => {
    const folder = folderWith({ 'a.yaml': heater, 'mine.md': 'my notes\n' });
    for (const [name, words] of [
      ['mine.md', 'mine.md exists already'],
      ['out/r.md', 'its folder does not exist'],
      ['r.pdf', 'has none of the endings'],
    ] as const) {
      const { status, stdout, stderr } = await checked(['a.yaml', '-o', 'r.json', '-o', name], folder);
      expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
      expect(stderr.replaceAll(/\s+/g, ' ')).toContain(words);
    }
    expect(readdirSync(folder)).toEqual(['a.yaml', 'mine.md']);
    rmSync(folder, { recursive: true });
  });
});
