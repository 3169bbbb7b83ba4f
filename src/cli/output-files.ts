import { closeSync, existsSync, linkSync, openSync, readSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { InputError } from '../source/diagnostic.ts';

/** A file that a command is to write. */
export interface Output {
  readonly path: string;
  readonly text: string;
}

/**
 * How files begin that tankproof wrote and that nobody has reason to edit: reports. They are replaced by the next run. Cards and tables
 * that people fill in and go on with carry no such mark.
 */
const ownBeginnings: readonly RegExp[] = [
  /^<!-- written by tankproof\b/,
  /^<!doctype html>\s*<html[^>]*>\s*<head>[^]{0,400}<meta name="generator" content="tankproof\b/i,
  /^\{\s*"tankproof": ?\{\s*"version": ?"/,
  /^\{\s*"\$schema": ?"[^"]*sarif[^"]*",\s*"version": ?"2\.1\.0",\s*"runs": ?\[\s*\{\s*"tool": ?\{\s*"driver": ?\{\s*"name": ?"tankproof"/,
  /^<\?xml [^>]*\?>\s*<!-- written by tankproof\b/,
];
/** Bytes that are enough to tell. */
const beginning = 1024;

/**
 * Refuses a file that is not to be replaced, the one rule for every command: a file that exists is kept unless it is a report that
 * tankproof wrote, or `--force` is given. Asked before the work whose result it is to hold.
 *
 * @param option  that names the file, to be said
 * @param path    of the file; undefined where none was asked for
 * @param force   write over any file that exists
 * Errors: InputError where it is to be kept, is no plain file, or its folder does not exist.
 */
export function mayWrite({ option, path, force }: { option?: string; path: string | undefined; force: boolean }): void {
  if (path === undefined) return;
  const refuse = (words: string, help: string): never => {
    throw new InputError([{ id: 'not-written', message: `${option === undefined ? '' : `${option}: `}${path} ${words}`, help }]);
  };
  const folder = statSync(dirname(path), { throwIfNoEntry: false });
  if (folder === undefined) refuse('cannot be written: its folder does not exist', `make the folder ${dirname(path)}, or check the path`);
  if (!folder!.isDirectory()) refuse(`cannot be written: ${dirname(path)} is no folder`, 'check the path');
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return;
  if (!found.isFile()) refuse(`is ${found.isDirectory() ? 'a folder' : 'no plain file'}`, 'name a file');
  if (!force && !isOwn(path)) refuse('exists already', 'name another file, or add --force to write over it');
}

/** Whether a file is a report that tankproof wrote. */
function isOwn(path: string): boolean {
  const bytes = Buffer.alloc(beginning);
  let length = 0;
  try {
    const file = openSync(path, 'r');
    try {
      length = readSync(file, bytes);
    } finally {
      closeSync(file);
    }
  } catch {
    // what cannot be read cannot be recognised, and is kept
    return false;
  }
  const text = bytes.toString('utf8', 0, length);
  return ownBeginnings.some((begins) => begins.test(text));
}

/**
 * Writes files that a command was asked for, all or none: each beside its place first, then all of them moved there. What was there is
 * kept until the new text is complete.
 *
 * @param outputs  with their texts
 * @param force    write over files that exist
 * @param write    writes one file; that of Node.js where not given
 * Errors: InputError where a file is to be kept, or cannot be written.
 */
export function writeAll({
  outputs,
  force,
  write = writeFileSync,
}: {
  outputs: readonly Output[];
  force: boolean;
  write?: (path: string, text: string) => void;
}): void {
  // again: the work in between may have taken minutes
  for (const { path } of outputs) mayWrite({ path, force });
  const moves = outputs.map(({ path, text }, i) => {
    const to = existsSync(path) ? realpathSync(path) : path;
    return { path, text, to, beside: join(dirname(to), `.${basename(to)}.${process.pid}.${i}.part`) };
  });
  let at = '';
  try {
    for (const { path, text, beside } of moves) {
      at = path;
      write(beside, text);
    }
    for (const { path, beside, to } of moves) {
      at = path;
      renameSync(beside, to);
    }
  } catch (error) {
    for (const { beside } of moves) rmSync(beside, { force: true });
    throw notWritten({ path: at, error });
  }
}

/**
 * Writes a file that does not exist yet.
 *
 * Errors: InputError where it exists or cannot be written.
 */
export function writeNew({ path, text }: Output): void {
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  try {
    writeFileSync(beside, text, { flag: 'wx' });
    // a link is made only where nothing is, and at once
    linkSync(beside, path);
  } catch (error) {
    throw notWritten({ path, error });
  } finally {
    rmSync(beside, { force: true });
  }
}

function notWritten({ path, error }: { path: string; error: unknown }): InputError {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown cause';
  const causes: Readonly<Record<string, string>> = {
    EEXIST: 'exists already',
    ENOENT: 'cannot be written: its folder does not exist',
    EACCES: 'cannot be written: permission denied',
    EPERM: 'cannot be written: permission denied',
    EROFS: 'cannot be written: the file system is read-only',
    ENOSPC: 'cannot be written: no space is left',
    EDQUOT: 'cannot be written: the quota is used up',
    EFBIG: 'cannot be written: it would be too large',
    ENAMETOOLONG: 'cannot be written: the name is too long',
  };
  const help = code === 'EEXIST' ? 'name another file; nothing was overwritten' : 'nothing was written; check the path and the space on it';
  return new InputError([{ id: 'not-written', message: `${path} ${causes[code] ?? `cannot be written (${code})`}`, help }]);
}
