import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { edited } from '../checks/reviewed.ts';
import { emptyFolder, fileWith, ran, root, type Ran } from './ran.ts';
import { undescribed, validator } from './schemas.ts';

const expectValid = validator('compare.schema.json');
const pad = readFileSync(join(root, 'examples', 'charging-pad.yaml'), 'utf8');

interface Standing {
  verdict: string;
  value: number | null;
  limit: number | null;
  margin: number | null;
  case: string;
}
interface FileDocument {
  name: string;
  kind: string;
  change: string;
  inputs: { key: string; before: { text: string; line: number } | null; after: { text: string; line: number } | null }[];
  ratings: { key: string; rating: string; before: { value: number } | null; after: { value: number } | null }[];
  results: { id: string; fate: string; lost: number | null; before: Standing | null; after: Standing | null }[];
  quantities: { id: string; case: string; before: number | null; after: number | null }[];
}
interface CompareDocument {
  change: string;
  method: string;
  failed: { file: string; id: string; why: string }[];
  files: FileDocument[];
  partsOfToday: string[];
}
interface CheckDocument {
  quantities: { id: string; case: string; value: number | null }[];
  results: (Standing & { id: string })[];
}

async function compared(args: readonly string[], { cwd = root, status = 0 } = {}): Promise<CompareDocument> {
  const result = await ran(['compare', ...args, '--json'], { cwd });
  expect({ status: result.status, stderr: result.stderr }).toEqual({ status, stderr: '' });
  const document = JSON.parse(result.stdout) as CompareDocument;
  expectValid(document);
  return document;
}

function git(cwd: string, ...args: string[]): void {
  const identity = ['-c', 'user.name=A', '-c', 'user.email=a@example.org', '-c', 'commit.gpgsign=false'];
  execFileSync('git', [...identity, ...args], { cwd, stdio: 'ignore' });
}

/** A repository with a pad whose switch lies in a folder of parts beside it, committed as it is given. */
function repository(): string {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'pads', 'own-parts', 'mosfets'), { recursive: true });
  writeFileSync(
    join(folder, 'pads', 'pad.yaml'),
    edited(pad, ['title:', 'partsFolders: [own-parts]\ntitle:'], ['part: IRFP250N', 'part: OWN']),
  );
  copyFileSync(join(root, 'parts-db', 'mosfets', 'IRFP250N.yaml'), join(folder, 'pads', 'own-parts', 'mosfets', 'OWN.yaml'));
  git(folder, 'init', '-q', '-b', 'main');
  git(folder, 'add', '-A');
  git(folder, 'commit', '-q', '-m', 'the pad');
  return folder;
}

function change(path: string, ...changes: readonly (readonly [string, string])[]): void {
  writeFileSync(path, edited(readFileSync(path, 'utf8'), ...changes));
}

describe.concurrent('compare', () => {
  test('a one-line change is named with its line, and everything else is what check says of either file', async () => {
    const changed = fileWith(edited(pad, ['voltage: 18 V', 'voltage: 26 V']));
    const document = await compared(['examples/charging-pad.yaml', changed]);
    expect(document).toMatchObject({ change: 'worse', method: 'time domain', failed: [] });
    const [file] = document.files as [FileDocument];
    expect(file.inputs).toEqual([
      {
        key: 'supply.voltage',
        before: { text: '18 V', value: 18, line: 5, column: 12 },
        after: { text: '26 V', value: 26, line: 5, column: 12 },
      },
    ]);
    const [old, now] = await Promise.all(
      ['examples/charging-pad.yaml', changed].map(
        async (path) => JSON.parse((await ran(['check', path, '--json'])).stdout) as CheckDocument,
      ),
    );
    const standing = ({ verdict, value, limit, margin, case: where }: Standing): Standing => ({
      verdict,
      value,
      limit,
      margin,
      case: where,
    });
    expect(file.results).toHaveLength(old!.results.length);
    for (const { id, before, after } of file.results) {
      expect(standing(before!), id).toEqual(standing(old!.results.find((result) => result.id === id)!));
      expect(standing(after!), id).toEqual(standing(now!.results.find((result) => result.id === id)!));
    }
    for (const { id, case: load, before, after } of file.quantities) {
      const of = (check: CheckDocument): number | null => check.quantities.find((one) => one.id === id && one.case === load)!.value;
      expect([before, after], id).toEqual([of(old!), of(now!)]);
    }
    expect(file.quantities.map(({ id }) => id)).toContain('drain.peak');
  });

  test('the same file twice: no difference, and the same bytes each time', async () => {
    const args = ['compare', 'examples/bindery-lamp.yaml', 'examples/bindery-lamp.yaml', '--report-only'];
    const [one, other] = await Promise.all([ran(args), ran(args)]);
    expect(one.stdout).toMatch(/^no difference\n/);
    expect(one).toEqual(other);
    const copy = fileWith(`# a remark\n${readFileSync(join(root, 'examples', 'bindery-lamp.yaml'), 'utf8')}`);
    const moved = await ran(['compare', 'examples/bindery-lamp.yaml', copy, '--report-only']);
    expect(moved.stdout).toMatch(/^no difference\n/);
  });

  test('the other way round better is worse', async () => {
    const changed = fileWith(edited(pad, ['voltage: 18 V', 'voltage: 26 V'], ['parallel: 6', 'parallel: 5']));
    const [there, back] = await Promise.all([
      ran(['compare', 'examples/charging-pad.yaml', changed, '--closed-form']),
      ran(['compare', changed, 'examples/charging-pad.yaml', '--closed-form']),
    ]);
    expect(there.stdout).toMatch(/^worse: [a-z, \n\d-]+ warn\snow; /);
    expect(back.stdout).toMatch(/^better: [a-z, \n\d-]+ pass\snow; /);
    expect(there.stdout).toMatch(/tank\.bank\.parallel {2}line 26 {2}6 → 5\n/);
    expect(back.stdout).toMatch(/tank\.bank\.parallel {2}line 26 {2}5 → 6\n/);
  });

  test('a rating that is taken away loses its check: worse than any margin', async () => {
    const before = fileWith(edited(pad, ['part: pp-foil-100n-1000v', 'part: {capacitance: 100 nF, voltageDc: 1 kV, currentRms: 6 A}']));
    const after = fileWith(edited(pad, ['part: pp-foil-100n-1000v', 'part: {capacitance: 100 nF, voltageDc: 1 kV}']));
    const document = await compared([before, after, '--closed-form', '--fail-on', 'worse:100%'], { status: 1 });
    const [first] = document.files[0]!.results;
    expect(first).toMatchObject({ id: 'capacitor-current', fate: 'worse', lost: null, after: { verdict: 'not assessed' } });
    expect(document.failed).toEqual([{ file: after, id: 'capacitor-current', why: 'worse' }]);
  });

  test.each([
    [[], 0],
    [['--fail-on', 'worse:60%'], 1],
    [['--fail-on', 'worse:60%', '--report-only'], 0],
    [['--fail-on', 'worse'], 1],
    [['--fail-on', 'warn'], 1],
    [['--fail-on', 'not-assessed'], 1],
  ])('a change that makes a check warn, with %j, ends with %d', async (flags, status) => {
    const changed = fileWith(edited(pad, ['voltage: 18 V', 'voltage: 26 V']));
    const result = await ran(['compare', 'examples/charging-pad.yaml', changed, '--closed-form', ...flags]);
    expect(result).toMatchObject({ status, stderr: '' });
  });

  test.each([
    ['8 %', 0],
    ['0.05%', 1],
  ])('room lost without another verdict, %s allowed, ends with %d', async (allowed, status) => {
    const changed = fileWith(edited(pad, ['voltage: 18 V', 'voltage: 18.5 V']));
    const result = await ran(['compare', 'examples/charging-pad.yaml', changed, '--closed-form', '--fail-on', `worse:${allowed}`]);
    expect(result).toMatchObject({ status, stderr: '' });
    expect(result.stdout).toMatch(/^(worse|mixed): no verdict changed; /);
  });

  test('a file of limits holds for both sides, and what it waives fails nothing, in a folder of a revision too', async () => {
    const folder = repository();
    const limits = (waivers: string): void =>
      writeFileSync(join(folder, 'limits.yaml'), `tankproofLimits: 1\nswitch-peak-voltage: {warn: 0.1, fail: 0.2}\n${waivers}`);
    change(join(folder, 'pads', 'pad.yaml'), ['parallel: 6', 'parallel: 2']);
    git(folder, 'commit', '-q', '-a', '-m', 'too few');
    const args = ['git:HEAD~1:pads', 'git:HEAD:pads', '--closed-form', '--limits', 'limits.yaml', '--fail-on', 'worse'];
    limits('');
    const { failed, files } = await compared(args, { cwd: folder, status: 1 });
    expect(files[0]!.results.find(({ id }) => id === 'switch-peak-voltage')).toMatchObject({ before: { limit: 40 }, after: { limit: 40 } });
    expect(failed.map(({ why }) => why)).toEqual(expect.arrayContaining(['fail', 'worse']));
    const line = (id: string): string => `  - {id: ${id}, file: pads/pad.yaml, reason: a trial, expires: "2999-01-01"}\n`;
    const notPassed = files[0]!.results.filter(({ after }) => after!.verdict !== 'pass').map(({ id }) => id);
    limits(`waivers:\n${notPassed.map(line).join('')}`);
    const waived = await ran(['compare', ...args.slice(0, -2)], { cwd: folder });
    expect(waived).toMatchObject({ status: 0, stderr: '' });
    expect(waived.stdout).toMatch(/pass → fail, waived +capacitor-/);
    // written for a warning, they cover no fail
    limits(`waivers:\n${notPassed.map((id) => line(id).replace('}', ', verdict: warn}')).join('')}`);
    const graver = await ran(['compare', ...args.slice(0, -2)], { cwd: folder });
    expect(graver).toMatchObject({ status: 1, stderr: '' });
    expect(graver.stdout).toMatch(/pass → fail, past its waiver +capacitor-/);
    expect(graver.stdout).not.toMatch(/fail, waived/);
  });

  test('a fail in NEW ends with 1, whatever OLD was', async () => {
    const lamp = 'examples/live-rail-lamp.yaml';
    expect(await ran(['compare', lamp, lamp, '--closed-form'])).toMatchObject({ status: 1 });
    expect(await ran(['compare', lamp, lamp, '--closed-form', '--report-only'])).toMatchObject({ status: 0 });
    expect(await ran(['compare', lamp, 'examples/charging-pad.yaml', '--closed-form'])).toMatchObject({ status: 0 });
  });

  test('lines keep to the width of 80 columns where nothing longer than a line stands in them', async () => {
    const changed = fileWith(edited(pad, ['voltage: 18 V', 'voltage: 26 V'], ['parallel: 6', 'parallel: 5']), 'pad.yaml');
    const { stdout } = await ran(['compare', 'examples/charging-pad.yaml', changed, '--closed-form', '--all']);
    const long = stdout.split('\n').filter((line) => line.length > 80 && !line.includes(changed));
    expect(long).toEqual([]);
  });

  test('an input of a long name keeps to 80 columns', async () => {
    const name = 'the lantern with the wide coil under its roof';
    const [old, now] = ['at the second stall of the market', 'at the last stall of the market'].map((title) =>
      fileWith(
        edited(
          pad,
          ['lantern on the pad', name],
          ['Path-lantern charging pad, transmitter', title],
          ['power: 25 W', `power: ${title.length} W`],
        ),
        'p.yaml',
      ),
    ) as [string, string];
    const { stdout } = await ran(['compare', old, now, '--closed-form', '--all']);
    expect(stdout).toContain(name.split(' ')[0]);
    expect(stdout.split('\n').filter((line) => line.length > 80 && !line.includes(old) && !line.includes(now))).toEqual([]);
  });

  test('colour repeats the words and nothing else', async () => {
    const args = ['compare', 'examples/charging-pad.yaml', 'examples/bolt-heater.yaml', '--closed-form'];
    const [plain, coloured] = await Promise.all([ran(args), ran([...args, '--color', 'always'])]);
    expect(coloured.stdout).not.toBe(plain.stdout);
    expect(coloured.stdout.replaceAll(/\u001B\[\d+m/g, '')).toBe(plain.stdout);
  });

  test('files: Markdown and JSON, both or none; one of another hand is not written over without --force', async () => {
    const folder = emptyFolder();
    const changed = fileWith(edited(pad, ['voltage: 18 V', 'voltage: 26 V']));
    const [comment, data] = ['comment.md', 'data.json'].map((name) => join(folder, name)) as [string, string];
    const args = ['compare', 'examples/charging-pad.yaml', changed, '--closed-form', '-o', comment, '-o', data];
    expect(await ran(args)).toMatchObject({ status: 0, stderr: `wrote ${comment}\nwrote ${data}\n` });
    const text = readFileSync(comment, 'utf8');
    expect(text).toMatch(/^<!-- written by tankproof -->\n\n# worse: /);
    expect(text).toContain('| supply.voltage | 5 | 18 V → 26 V |');
    expectValid(JSON.parse(readFileSync(data, 'utf8')));
    expect(await ran(args)).toMatchObject({ status: 0 });
    writeFileSync(comment, 'notes');
    writeFileSync(data, 'notes');
    expect(await ran(args)).toMatchObject({ status: 2, stdout: '' });
    expect(readFileSync(data, 'utf8')).toBe('notes');
    expect(await ran([...args, '--force'])).toMatchObject({ status: 0 });
    expect(readdirSync(folder).toSorted()).toEqual(['comment.md', 'data.json']);
  });

  test('every property of its schema is described', () => expect(undescribed('compare.schema.json')).toEqual([]));
});

describe.concurrent('compare with a revision', () => {
  test('the file and the part files that it names are those of the revision', async () => {
    const folder = repository();
    change(join(folder, 'pads', 'pad.yaml'), ['heatsink: 8 K/W', 'heatsink: 9 K/W']);
    change(join(folder, 'pads', 'own-parts', 'mosfets', 'OWN.yaml'), ['drainVoltage: {value: 200 V', 'drainVoltage: {value: 150 V']);
    const { files, partsOfToday } = await compared(['git:main:pads/pad.yaml', 'pads/pad.yaml', '--closed-form'], { cwd: folder });
    expect(files[0]!.inputs.map(({ key }) => key)).toEqual(['switches.heatsink']);
    expect(files[0]!.ratings).toMatchObject([
      { key: 'switches.part', rating: 'drainVoltage', before: { value: 200 }, after: { value: 150 } },
    ]);
    expect(files[0]!.results.find(({ id }) => id === 'switch-peak-voltage')).toMatchObject({
      before: { limit: 200 },
      after: { limit: 150 },
    });
    expect(partsOfToday).toEqual([]);
    const fromPads = await compared(['git:HEAD:./pad.yaml', 'pad.yaml', '--closed-form'], { cwd: join(folder, 'pads') });
    expect(fromPads.files[0]!.results).toEqual(files[0]!.results);
    git(folder, 'commit', '-q', '-a', '-m', 'changed');
    const twoRevisions = await compared(['git:HEAD~1:pads/pad.yaml', 'git:HEAD:pads/pad.yaml', '--closed-form'], { cwd: folder });
    expect(twoRevisions.files[0]!.results).toEqual(files[0]!.results);
  });

  test('a folder: what is new and what is gone is listed; files without the key are passed over', async () => {
    const folder = repository();
    change(join(folder, 'pads', 'pad.yaml'), ['voltage: 18 V', 'voltage: 19 V']);
    writeFileSync(join(folder, 'pads', 'new.yml'), pad);
    writeFileSync(join(folder, 'pads', 'notes.yaml'), 'shopping: list\n');
    writeFileSync(join(folder, 'pads', 'empty.yaml'), '');
    const { files } = await compared(['git:main:pads', 'pads', '--closed-form'], { cwd: folder });
    expect(files.map(({ name, kind }) => [name, kind])).toEqual([
      ['new.yml', 'added'],
      ['pad.yaml', 'both'],
    ]);
    const back = await compared(['pads', 'git:main:pads/', '--closed-form'], { cwd: folder });
    expect(back.files.map(({ name, kind }) => [name, kind])).toEqual([
      ['new.yml', 'removed'],
      ['pad.yaml', 'both'],
    ]);
    const whole = await compared(['git:main:', '.', '--closed-form'], { cwd: folder });
    expect(whole.files.map(({ name }) => name)).toEqual(['pads/new.yml', 'pads/pad.yaml']);
  });

  test('every check of a file that was added is new: one that does not pass counts as worse, unless it is waived', async () => {
    const [old, now] = [emptyFolder(), emptyFolder()];
    for (const folder of [old, now]) writeFileSync(join(folder, 'pad.yaml'), pad);
    const warning = edited(pad, ['voltage: 18 V', 'voltage: 26 V'], ['clamp: 1N4744A', 'clamp: {zenerVoltage: 15 V}']);
    writeFileSync(join(now, 'new.yaml'), warning);
    const standing = await ran(['compare', old, now, '--closed-form']);
    expect(standing).toMatchObject({ status: 0, stderr: '' });
    const { failed } = await compared([old, now, '--closed-form', '--fail-on', 'worse:5%'], { status: 1 });
    expect(new Set(failed.map(({ file, why }) => `${file} ${why}`))).toEqual(new Set(['new.yaml worse']));
    const checked = JSON.parse((await ran(['check', join(now, 'new.yaml'), '--closed-form', '--json'])).stdout) as CheckDocument;
    const notPassed = checked.results.filter(({ verdict }) => verdict !== 'pass');
    expect(new Set(notPassed.map(({ verdict }) => verdict))).toEqual(new Set(['warn', 'not assessed']));
    expect(failed.map(({ id }) => id).toSorted()).toEqual(notPassed.map(({ id }) => id).toSorted());
    const waivers = notPassed.map(({ id }) => `  - {id: ${id}, file: new.yaml, reason: a trial, expires: "2999-01-01"}\n`);
    const limits = join(now, 'limits.yaml');
    writeFileSync(limits, `tankproofLimits: 1\nwaivers:\n${waivers.join('')}`);
    expect(await compared([old, now, '--closed-form', '--fail-on', 'worse', '--limits', limits])).toMatchObject({ failed: [] });
  });

  test('parts outside of the repository are told to be today’s', async () => {
    const folder = repository();
    change(join(folder, 'pads', 'pad.yaml'), ['[own-parts]', `[${join(folder, 'pads', 'own-parts')}]`]);
    git(folder, 'commit', '-q', '-a', '-m', 'absolute');
    const args = ['git:HEAD:pads/pad.yaml', 'pads/pad.yaml', '--closed-form'];
    expect((await compared(args, { cwd: folder })).partsOfToday).toEqual([join(folder, 'pads', 'own-parts')]);
    expect((await ran(['compare', ...args], { cwd: folder })).stdout.replaceAll(/\s+/g, ' ')).toContain('are today’s on both sides');
  });

  test('names that a shell or git would read otherwise', async () => {
    const folder = repository();
    const name = 'pads/$(touch made); *[x]"\u00e9 .yaml';
    copyFileSync(join(folder, 'pads', 'pad.yaml'), join(folder, name));
    git(folder, 'add', '-A');
    git(folder, 'commit', '-q', '-m', 'odd');
    const { files } = await compared([`git:HEAD:${name}`, name, '--closed-form'], { cwd: folder });
    expect(files.map(({ kind, change: word }) => [kind, word])).toEqual([['both', 'none']]);
    expect(existsSync(join(folder, 'made'))).toBe(false);
  });

  const refused = async (
    args: readonly string[],
    id: string,
    { cwd, env = {} }: { cwd: string; env?: Record<string, string> },
  ): Promise<Ran> => {
    const out = join(emptyFolder(), 'out.md');
    const result = await ran(['compare', ...args, '-o', out], { cwd, env });
    expect({ status: result.status, stdout: result.stdout }).toEqual({ status: 2, stdout: '' });
    expect(result.stderr).toContain(`[${id}]`);
    expect(existsSync(out)).toBe(false);
    return result;
  };

  test.each([
    ['git:nowhere:pads/pad.yaml', 'unknown-revision'],
    ['git:main:pads/other.yaml', 'no-such-file'],
    ['git:main:../pad.yaml', 'no-such-file'],
    ['git:--help:pads/pad.yaml', 'usage'],
    ['git:-1:pads/pad.yaml', 'usage'],
    ['git::pads/pad.yaml', 'usage'],
    ['git:main', 'usage'],
    ['git:main:pads', 'usage'],
    ['git:main:pads/link.yaml', 'not-a-file'],
    ['git:main:pads/broken.yaml', 'unknown-key'],
  ])('%s is refused: %s', async (name, id) => {
    const folder = repository();
    writeFileSync(join(folder, 'pads', 'broken.yaml'), edited(pad, ['voltage:', 'volts:']));
    execFileSync('ln', ['-s', 'pad.yaml', join(folder, 'pads', 'link.yaml')]);
    git(folder, 'add', '-A');
    git(folder, 'commit', '-q', '-m', 'more');
    await refused([name, 'pads/pad.yaml'], id, { cwd: folder });
  });

  test('a folder in which one file is refused is refused, every such file told', async () => {
    const folder = repository();
    for (const name of ['a.yaml', 'b.yaml']) writeFileSync(join(folder, 'pads', name), edited(pad, ['parallel:', 'paralel:']));
    const { stderr } = await refused(['git:main:pads', 'pads'], 'unknown-key', { cwd: folder });
    expect(stderr.match(/pads\/[ab]\.yaml:\d+:\d+/g)).toHaveLength(2);
  });

  test('a file that is gone is read before anything is compared: refused where it is refused', async () => {
    const [old, now] = [emptyFolder(), emptyFolder()];
    for (const folder of [old, now]) writeFileSync(join(folder, 'pad.yaml'), pad);
    writeFileSync(join(old, 'gone.yaml'), edited(pad, ['parallel:', 'paralel:']));
    const { stderr } = await refused([old, now], 'unknown-key', { cwd: old });
    expect(stderr).toMatch(/gone\.yaml:\d+:\d+/);
  });

  test('a pattern is told from a file', async () => {
    for (const args of [
      ['examples/*.yaml', 'examples'],
      ['examples', 'examples/*.yaml'],
    ])
      expect((await refused(args, 'usage', { cwd: root })).stderr.replaceAll(/\s+/g, ' ')).toContain(
        'examples/*.yaml is a pattern; two versions are files, folders or git:REV:PATH',
      );
  });

  test('the place of a problem in a revision is told with its line', async () => {
    const folder = repository();
    change(join(folder, 'pads', 'own-parts', 'mosfets', 'OWN.yaml'), ['drainVoltage:', 'drainVolts:']);
    git(folder, 'commit', '-q', '-a', '-m', 'broken part');
    const { stderr } = await refused(['git:HEAD:pads/pad.yaml', 'git:HEAD~1:pads/pad.yaml'], 'unknown-key', { cwd: folder });
    expect(stderr).toMatch(/git:HEAD:pads\/own-parts\/mosfets\/OWN\.yaml:\d+:1\n {2}\d+ \| drainVolts:/);
  });

  test('no repository here, and no git', async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'pad.yaml'), pad);
    await refused(['git:main:pad.yaml', 'pad.yaml'], 'not-a-repository', {
      cwd: folder,
      env: { GIT_CEILING_DIRECTORIES: join(folder, '..') },
    });
    await refused(['git:main:pad.yaml', 'pad.yaml'], 'no-git', { cwd: repository(), env: { PATH: emptyFolder() } });
  });
});

test.each([
  [['examples', 'examples/charging-pad.yaml'], 'usage'],
  [['examples/charging-pad.yaml', 'examples'], 'usage'],
  [['examples/charging-pad.yaml', 'examples/missing.yaml'], 'no-such-file'],
  [['src', 'examples'], 'no-project'],
  [['examples/charging-pad.yaml'], 'usage'],
  [['examples/charging-pad.yaml', 'examples/charging-pad.yaml', '--fail-on', 'worse:x'], 'unknown-word'],
  [['examples/charging-pad.yaml', 'examples/charging-pad.yaml', '--fail-on', 'worse:101%'], 'unknown-word'],
  [['examples/charging-pad.yaml', 'examples/charging-pad.yaml', '--fail-on', 'worse:5'], 'unknown-word'],
  [['examples/charging-pad.yaml', 'examples/charging-pad.yaml', '-o', 'out.pdf'], 'usage'],
])('compare %j is refused: %s', async (args, id) => {
  const { status, stdout, stderr } = await ran(['compare', ...args, '--json']);
  const document = JSON.parse(stdout) as { error: { id: string } };
  expectValid(document);
  expect({ status, stderr, id: document.error.id }).toEqual({ status: 2, stderr: '', id });
});
