import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { edited } from '../checks/reviewed.ts';
import { emptyFolder, fileWith, root } from './ran.ts';

const recipes = join(root, 'examples', 'ci');
const pad = readFileSync(join(root, 'examples', 'charging-pad.yaml'), 'utf8');
const ownPart = edited(pad, ['title:', 'partsFolders: [own-parts]\ntitle:'], ['part: IRFP250N', 'part: OWN']);
const failing = edited(pad, ['parallel: 6', 'parallel: 2']);
/** The command that the recipes run, in closed form: what they make of it is what is tested here. */
const tankproof = fileWith(`#!/bin/sh\nexec '${process.execPath}' '${join(root, 'dist', 'bin.js')}' "$@" --closed-form\n`, 'tankproof');
const env = { PATH: process.env['PATH'] ?? '', TANKPROOF: `sh ${tankproof}` };

interface Told {
  readonly status: number | null;
  readonly text: string;
}

function run(cwd: string, command: string, ...args: string[]): Told {
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, env, encoding: 'utf8', timeout: 90_000 });
  return { status, text: stdout + stderr };
}

/** The same without TANKPROOF, and with a registry client that must not be asked. */
function runUnnamed(cwd: string, command: string, ...args: string[]): Told {
  const npx = fileWith('#!/bin/sh\necho fetched\n', 'npx');
  chmodSync(npx, 0o755);
  const path = `${dirname(npx)}:${process.env['PATH'] ?? ''}`;
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, env: { PATH: path }, encoding: 'utf8', timeout: 90_000 });
  return { status, text: stdout + stderr };
}

/** Puts a command where a package manager would: it says that it was run, and with what. */
function install(folder: string): void {
  const bin = join(folder, 'node_modules', '.bin');
  mkdirSync(bin, { recursive: true });
  writeFileSync(join(bin, 'tankproof'), '#!/bin/sh\necho "installed one: $1 $2 $3"\n', { mode: 0o755 });
  writeFileSync(join(folder, '.gitignore'), 'node_modules\n');
}

function git(cwd: string, ...args: string[]): Told {
  return run(cwd, 'git', '-c', 'user.name=A', '-c', 'user.email=a@example.org', '-c', 'commit.gpgsign=false', ...args);
}

/** A repository with a pad that passes and a part file of its own, committed to main. */
function repository(): string {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'pads', 'own-parts', 'mosfets'), { recursive: true });
  writeFileSync(join(folder, 'pads', 'pad.yaml'), ownPart);
  writeFileSync(join(folder, 'settings.yaml'), 'colour: green\n');
  copyFileSync(join(root, 'parts-db', 'mosfets', 'IRFP250N.yaml'), join(folder, 'pads', 'own-parts', 'mosfets', 'OWN.yaml'));
  git(folder, 'init', '-q', '-b', 'main');
  git(folder, 'add', '-A');
  expect(git(folder, 'commit', '-q', '-m', 'the pad').status).toBe(0);
  return folder;
}

describe('the hook before a commit', () => {
  const hooked = (): string => {
    const folder = repository();
    copyFileSync(join(recipes, 'pre-commit'), join(folder, '.git', 'hooks', 'pre-commit'));
    return folder;
  };
  const commit = (folder: string): Told => git(folder, 'commit', '-q', '-m', 'change');

  test('lets a change pass that passes, and says what it did', () => {
    const folder = hooked();
    writeFileSync(join(folder, 'pads', 'pad.yaml'), edited(ownPart, ['voltage: 18 V', 'voltage: 17 V']));
    git(folder, 'add', '-A');
    const { status, text } = commit(folder);
    expect({ status, text }).toMatchObject({ status: 0 });
    expect(text).toContain('supply.voltage  line 6  18 V → 17 V');
  });

  test('refuses a driver that fails, also where the working copy has been put right since', () => {
    const folder = hooked();
    writeFileSync(join(folder, 'pads', 'new pad.yaml'), failing);
    git(folder, 'add', '-A');
    writeFileSync(join(folder, 'pads', 'new pad.yaml'), pad);
    const { status, text } = commit(folder);
    expect(status).toBe(1);
    expect(text).toContain('pads/new pad.yaml');
    git(folder, 'add', '-A');
    expect(commit(folder).status).toBe(0);
  });

  test('refuses a file that cannot be read, and looks at no others', () => {
    const folder = hooked();
    writeFileSync(join(folder, 'settings.yaml'), 'colour: [\n');
    git(folder, 'add', '-A');
    expect(commit(folder)).toEqual({ status: 0, text: '' });
    writeFileSync(join(folder, 'pads', 'pad.yaml'), edited(ownPart, ['voltage:', 'volts:']));
    git(folder, 'add', '-A');
    const { status, text } = commit(folder);
    expect(status).toBe(1);
    expect(text).toContain('[unknown-key]');
  });

  test('a part file that changes is a change of every project', () => {
    const folder = hooked();
    const part = join(folder, 'pads', 'own-parts', 'mosfets', 'OWN.yaml');
    writeFileSync(part, edited(readFileSync(part, 'utf8'), ['drainVoltage: {value: 200 V', 'drainVoltage: {value: 60 V']));
    git(folder, 'add', '-A');
    const { status, text } = commit(folder);
    expect(status).toBe(1);
    expect(text).toContain('switches.part OWN: drainVoltage 200 V → 60 V');
  });

  test('runs the one that is installed in the repository, from a folder of it too, and fetches none', () => {
    const folder = hooked();
    install(folder);
    writeFileSync(join(folder, 'pads', 'pad.yaml'), `# remark\n${ownPart}`);
    git(folder, 'add', '-A');
    const identity = ['-c', 'user.name=A', '-c', 'user.email=a@example.org', '-c', 'commit.gpgsign=false'];
    const commitUnnamed = (): Told => runUnnamed(join(folder, 'pads'), 'git', ...identity, 'commit', '-q', '-m', 'change');
    expect(commitUnnamed()).toEqual({ status: 0, text: 'installed one: compare git:HEAD:pads/pad.yaml pads/pad.yaml\n' });
    rmSync(join(folder, 'node_modules'), { recursive: true });
    writeFileSync(join(folder, 'pads', 'pad.yaml'), `# another\n${ownPart}`);
    git(folder, 'add', '-A');
    const { status, text } = commitUnnamed();
    expect(status).not.toBe(0);
    expect(text).toMatch(/^pre-commit: tankproof is neither in .*node_modules nor on the path; .*\n$/);
  });

  test('works in a folder of the repository and leaves nothing behind', () => {
    const folder = hooked();
    writeFileSync(join(folder, 'pads', 'pad.yaml'), `# remark\n${ownPart}`);
    git(folder, 'add', '-A');
    expect(commit(join(folder, 'pads')).status).toBe(0);
    expect(git(folder, 'status', '--porcelain').text).toBe('');
  });
});

describe('the review in CI', () => {
  const branched = (): string => {
    const folder = repository();
    git(folder, 'checkout', '-q', '-b', 'change');
    copyFileSync(join(recipes, 'review.sh'), join(folder, 'review.sh'));
    return folder;
  };
  const review = (folder: string): Told => run(folder, 'sh', 'review.sh', 'pads', 'main');

  test('passes a change that loses little, and writes its files', () => {
    const folder = branched();
    writeFileSync(join(folder, 'pads', 'pad.yaml'), edited(ownPart, ['voltage: 18 V', 'voltage: 18.1 V']));
    git(folder, 'commit', '-q', '-a', '-m', 'a little more');
    // what happens on main meanwhile is no doing of the change
    git(folder, 'checkout', '-q', 'main');
    writeFileSync(join(folder, 'pads', 'pad.yaml'), edited(ownPart, ['parallel: 6', 'parallel: 9']));
    git(folder, 'commit', '-q', '-a', '-m', 'meanwhile');
    git(folder, 'checkout', '-q', 'change');
    expect(review(folder)).toMatchObject({ status: 0 });
    for (const name of ['review.sarif.json', 'review.junit.xml', 'comparison.md']) expect(existsSync(join(folder, name))).toBe(true);
    const comment = readFileSync(join(folder, 'comparison.md'), 'utf8');
    expect(comment).toContain('| supply.voltage | 6 | 18 V → 18.1 V |');
    expect(comment).not.toContain('parallel');
  });

  test('ends with 1 where a check fails or loses too much, with 2 where a file is refused', () => {
    const folder = branched();
    const change = (text: string): Told => {
      writeFileSync(join(folder, 'pads', 'pad.yaml'), text);
      git(folder, 'commit', '-q', '-a', '-m', 'change');
      return review(folder);
    };
    const lost = change(edited(ownPart, ['voltage: 18 V', 'voltage: 20 V']));
    expect(lost).toMatchObject({ status: 1 });
    expect(lost.text).toContain('worse than allowed: ');
    expect(change(edited(ownPart, ['parallel: 6', 'parallel: 2']))).toMatchObject({ status: 1 });
    expect(change(edited(ownPart, ['voltage:', 'volts:']))).toMatchObject({ status: 2 });
  });

  test('a folder named from the root, or from a folder of the repository, is compared; a missing one is refused', () => {
    const folder = branched();
    install(folder);
    const compared = /installed one: compare git:[0-9a-f]{40}:pads /;
    for (const [cwd, name] of [
      [folder, join(folder, 'pads')],
      [folder, 'pads/'],
      [join(folder, 'pads'), '.'],
    ] as const) {
      const { status, text } = runUnnamed(cwd, 'sh', join(folder, 'review.sh'), name, 'main');
      expect({ status, text }).toEqual({ status: 0, text: expect.stringMatching(compared) as string });
    }
    for (const name of ['pods', join(folder, 'pods')])
      expect(runUnnamed(folder, 'sh', 'review.sh', name, 'main')).toEqual({ status: 2, text: `review.sh: ${name} is no folder here\n` });
    mkdirSync(join(folder, 'coils'));
    expect(runUnnamed(folder, 'sh', 'review.sh', 'coils', 'main').text).toContain('coils is new, so there is nothing to compare it with');
  });

  test('says what is missing where the branch it starts from is not there', () => {
    const folder = branched();
    const { status, text } = run(folder, 'sh', 'review.sh', 'pads', 'origin/main');
    expect(status).toBe(2);
    expect(text).toContain('origin/main is not here');
  });

  test('the job runs what is there', () => {
    const job = parse(readFileSync(join(recipes, 'workflow.yaml'), 'utf8')) as { run: string[]; keep: string[] };
    expect(job.run).toContain('npm ci');
    expect(job.run.some((line) => line.startsWith('sh node_modules/tankproof/examples/ci/review.sh pads origin/main'))).toBe(true);
    const script = readFileSync(join(recipes, 'review.sh'), 'utf8');
    for (const name of job.keep) expect(script).toContain(`-o ${name}`);
    expect(readdirSync(recipes).toSorted()).toEqual(['pre-commit', 'review.sh', 'workflow.yaml']);
  });
});
