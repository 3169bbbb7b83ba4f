import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { checkIds } from '../../src/checks/registry.ts';
import { emptyFolder, ran, root } from './ran.ts';

/** Commands with their flags as the tool itself lists them. */
const manifest = JSON.parse(readFileSync(join(root, 'oclif.manifest.json'), 'utf8')) as {
  commands: Record<string, { flags: Record<string, { name: string; options?: string[] }> }>;
};
const commands = Object.keys(manifest.commands);
const scripts = new Map<string, string>();

beforeAll(async () => {
  for (const shell of ['bash', 'zsh', 'fish']) {
    const { status, stdout, stderr } = await ran(['completion', shell]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    scripts.set(shell, stdout);
  }
});

/** What bash offers for the last of these words: it calls the function that the script has registered as bash itself does. */
function offered(words: readonly string[]): readonly string[] {
  const asked = `
eval "$SCRIPT"
registered=$(complete -p tankproof) || exit 3
case $registered in *"-F _tankproof tankproof") ;; *) exit 4 ;; esac
COMP_WORDS=("$@")
COMP_CWORD=$(($# - 1))
_tankproof tankproof "\${COMP_WORDS[COMP_CWORD]}" "\${COMP_WORDS[COMP_CWORD-1]}"
printf '%s\\n' "\${COMPREPLY[@]}"`;
  const printed = execFileSync('bash', ['--norc', '-c', asked, 'bash', ...words], {
    encoding: 'utf8',
    env: { PATH: process.env['PATH'] ?? '', SCRIPT: scripts.get('bash') ?? '' },
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return printed.split('\n').filter((line) => line !== '');
}

describe('bash offers', () => {
  test('every command, and those that begin with what is typed', () => {
    expect(offered(['tankproof', ''])).toEqual([...commands.toSorted(), '--help', '--version']);
    expect(offered(['tankproof', 'co'])).toEqual(['compare', 'completion']);
    expect(offered(['tankproof', 'x'])).toEqual([]);
  });

  test.each(commands)('every flag of %s', (command) => {
    const names = Object.values(manifest.commands[command]!.flags).map(({ name }) => `--${name}`);
    expect(offered(['tankproof', command, '--']).toSorted()).toEqual([...names, '--help'].toSorted());
  });

  test('the words of a flag, whether behind a space or an equals sign', () => {
    expect(offered(['tankproof', 'check', '--color', ''])).toEqual(['auto', 'always', 'never']);
    expect(offered(['tankproof', 'check', '--color', '=', 'a'])).toEqual(['auto', 'always']);
    expect(offered(['tankproof', 'check', '--color', '='])).toEqual(['auto', 'always', 'never']);
    expect(offered(['tankproof', 'check', 'pad.yaml', '--fail-on', 'n'])).toEqual(['not-assessed']);
    expect(offered(['tankproof', 'compare', 'a', 'b', '--fail-on', 'w'])).toEqual(['warn', 'worse', 'worse:5%']);
    expect(offered(['tankproof', 'check', '--only', 'latch'])).toEqual(['latch-up']);
    expect(offered(['tankproof', 'bank', '--part', 'mica'])).toEqual(['mica-10n-500v']);
  });

  test('checks, parts and examples by name', () => {
    expect(offered(['tankproof', 'explain', ''])).toEqual([...checkIds].toSorted());
    expect(offered(['tankproof', 'parts', ''])).toEqual(['list', 'show']);
    expect(offered(['tankproof', 'parts', '--kind', 'mosfets', 'show', 'IRFP25'])).toEqual(['IRFP250N']);
    expect(offered(['tankproof', 'new', '--from', 'examples/bo'])).toEqual(['examples/bolt-heater']);
    expect(offered(['tankproof', 'completion', ''])).toEqual(['bash', 'zsh', 'fish']);
  });

  test('nothing of its own where a file is due, so that bash names files', () => {
    expect(offered(['tankproof', 'check', ''])).toEqual([]);
    expect(offered(['tankproof', 'check', '-o', ''])).toEqual([]);
    expect(scripts.get('bash')).toMatch(/^complete -o default -F _tankproof tankproof$/m);
  });
});

/** What the command is given once a shell has completed a typed line; the shell runs at a terminal of its own. */
function typed(start: (folder: string) => string, files: Readonly<Record<string, string>>): string {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'bin'));
  writeFileSync(join(folder, 'bin', 'tankproof'), '#!/bin/sh\nprintf "<%s>" "$@" > "$OUT"\n', { mode: 0o755 });
  writeFileSync(join(folder, 'lantern.yaml'), '');
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const out = join(folder, 'out');
  spawnSync('script', ['-qec', start(folder), '/dev/null'], {
    cwd: folder,
    input: 'tankproof compa\tlant\t--fail-on not\t\nexit\n',
    env: { PATH: `${join(folder, 'bin')}:${process.env['PATH'] ?? ''}`, OUT: out, TERM: 'dumb', HOME: folder, ZDOTDIR: folder },
    timeout: 20_000,
  });
  return readFileSync(out, 'utf8');
}

test('bash completes a line at a prompt when Tab is pressed', () => {
  const line = typed((folder) => `bash --rcfile ${join(folder, 'rc')} -i`, { rc: scripts.get('bash')! });
  expect(line).toBe('<compare><lantern.yaml><--fail-on><not-assessed>');
});

const has = (shell: string): boolean => spawnSync(shell, ['-c', 'true']).status === 0;

describe('the script of', () => {
  test.skipIf(!has('zsh'))('zsh is read without a complaint and registers itself', () => {
    const asked = 'autoload -U compinit && compinit -u -D; eval "$SCRIPT"; print -r -- $_comps[tankproof]';
    const { stdout, stderr } = spawnSync('zsh', ['-f', '-c', asked], {
      encoding: 'utf8',
      env: { ...process.env, SCRIPT: scripts.get('zsh') },
    });
    expect({ stdout, stderr }).toEqual({ stdout: '_tankproof\n', stderr: '' });
  });

  test.skipIf(!has('zsh'))('zsh completes a line at a prompt', () => {
    const line = typed(() => 'zsh -i', { '.zshrc': `autoload -U compinit && compinit -u -D\n${scripts.get('zsh')!}` });
    expect(line).toBe('<compare><lantern.yaml><--fail-on><not-assessed>');
  });

  test.skipIf(!has('fish'))('fish offers commands, flags and words', () => {
    const ask = (line: string): string =>
      spawnSync('fish', ['--no-config', '-c', `${scripts.get('fish')!}\ncomplete -C '${line}'`], { encoding: 'utf8' }).stdout;
    expect(ask('tankproof comp')).toMatch(/^compare\t.*\ncompletion\t.*\n$/);
    expect(ask('tankproof check --fail-on ')).toMatch(/^not-assessed.*\nwarn.*\n$/);
    expect(ask('tankproof explain loaded')).toMatch(/^loaded-q/);
  });

  test.each(['zsh', 'fish'])('%s holds every command and every flag', (shell) => {
    for (const [command, { flags }] of Object.entries(manifest.commands)) {
      expect(scripts.get(shell)).toContain(command);
      for (const { name } of Object.values(flags))
        expect(scripts.get(shell)).toMatch(new RegExp(shell === 'zsh' ? `--${name}\\b` : `-l ${name}\\b`));
    }
  });
});

test('another shell is refused', async () => {
  const { status, stderr } = await ran(['completion', 'tcsh']);
  expect(status).toBe(2);
  expect(stderr).toContain('[usage]');
});
