import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from './ran.ts';

/** What the tool prints on a pseudo-terminal of a width, which `script` of util-linux gives it. */
function onTerminal(args: string, { columns, env = {} }: { columns: number; env?: Record<string, string> }): Promise<string> {
  const command = `stty cols ${columns} rows 50; ${process.execPath} ${join(root, 'dist', 'bin.js')} ${args}`;
  return new Promise((resolve, reject) => {
    const child = spawn('script', ['-qec', command, '/dev/null'], {
      cwd: root,
      env: { PATH: process.env['PATH'] ?? '', TERM: 'xterm', ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
      timeout: 20_000,
    });
    let output = '';
    child.stdout.on('data', (chunk: Buffer) => (output += chunk.toString()));
    child.on('error', reject);
    child.on('close', () => {
      resolve(output.replaceAll('\r\n', '\n'));
    });
  });
}

const plain = (text: string): string => text.replaceAll(/\u001B\[\d+m/g, '');

describe.concurrent('on a terminal', () => {
  test.each([80, 120])('of %d columns no line is longer, and the words are coloured', async (columns) => {
    const output = await onTerminal('check examples/bolt-heater.yaml', { columns });
    expect(output).toContain('\u001B[31mfail');
    expect(output).toContain('\u001B[32mpass');
    expect(plain(output)).toContain('6 failed, 2 not assessed, 1 warned, 27 passed: fail');
    expect(
      plain(output)
        .split('\n')
        .filter((line) => line.length > columns),
    ).toEqual([]);
  });

  test('NO_COLOR leaves the words alone', async () => {
    const output = await onTerminal('check examples/bolt-heater.yaml', { columns: 80, env: { NO_COLOR: '1' } });
    expect(output).not.toContain('\u001B[');
    expect(output).toContain('fail          capacitor-self-heating');
  });

  test('a terminal that tells no width gets 80 columns', async () => {
    const output = await onTerminal('check examples/charging-pad.yaml', { columns: 0 });
    expect(plain(output)).toContain('36 passed: pass');
    expect(
      plain(output)
        .split('\n')
        .filter((line) => line.length > 80),
    ).toEqual([]);
  });

  test.each(['--help', 'check --help', 'explain', 'explain latch-up', 'check missing.yaml', 'chek'])('%s is not a bug', async (args) => {
    const output = await onTerminal(args, { columns: 80 });
    expect(output.length).toBeGreaterThan(40);
    expect(output).not.toMatch(/This is a bug|\n\s+at /);
  });
});
