import { spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const root = join(import.meta.dirname, '..', '..');
const bin = join(root, 'dist', 'bin.js');

export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the built tool as a process of its own, with a clean environment; killed after 90 s. */
export function ran(args: readonly string[], { env = {}, cwd = root }: { env?: Record<string, string>; cwd?: string } = {}): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, ...args], { cwd, env: { PATH: process.env['PATH'] ?? '', ...env }, timeout: 90_000 });
    const output = { stdout: '', stderr: '' };
    // decoded as a stream: a sign of several bytes may lie across two pieces
    child.stdout.setEncoding('utf8').on('data', (piece: string) => (output.stdout += piece));
    child.stderr.setEncoding('utf8').on('data', (piece: string) => (output.stderr += piece));
    child.on('error', reject);
    child.on('close', (status) => {
      resolve({ status, ...output });
    });
  });
}

/** A folder that is empty. */
export function emptyFolder(): string {
  return mkdtempSync(join(tmpdir(), 'tankproof-'));
}

/** A file with this content, in a folder of its own. */
export function fileWith(content: string | Uint8Array, name = 'project.yaml'): string {
  const path = join(emptyFolder(), name);
  writeFileSync(path, content);
  return path;
}
