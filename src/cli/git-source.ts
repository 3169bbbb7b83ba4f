import { isAbsolute, join, posix } from 'node:path';
import type { PartKind } from '../parts/part.ts';
import { mostBytes } from '../source/decode-text.ts';
import { InputError } from '../source/diagnostic.ts';
import { textIn } from './files.ts';
import { gitRefusal, gitRun } from './git-run.ts';
import { diskFolder, libraryOf, type PartsFolder } from './parts-folders.ts';
import { isPassedOver, isProjectName, isProjectFile } from './project-names.ts';
import type { NamedProjects, ProjectSource } from './project-source.ts';

const prefix = 'git:';

/** Something in a tree of git. */
interface Entry {
  /** From the top of the repository. */
  readonly path: string;
  readonly kind: 'file' | 'folder' | 'link' | 'other';
  readonly hash: string;
  readonly size: number;
}

/** A revision of the repository that the working folder lies in. */
interface Revision {
  /** As it was named. */
  readonly name: string;
  readonly commit: string;
}

/** Whether an argument names something in a revision: `git:REV:path`. */
export function isGitName(name: string): boolean {
  return name.startsWith(prefix);
}

/**
 * The project file or files that `git:REV:path` names, read through git. The path counts from the top of the repository, or with
 * `./` in front from the working folder, as git itself takes it.
 *
 * @param name  as written
 * @param root  of the installed tool
 * Errors: InputError where git is not installed, the working folder is in no repository, the revision or the path does not exist.
 */
export function gitSource({ name, root }: { name: string; root: string }): NamedProjects {
  const { rev, path: written } = partsOf(name);
  // a repository without a working copy has no such prefix
  const here = lineOf(gitRun({ args: ['rev-parse', '--show-prefix'], about: name, mayFail: true }));
  const revision = { name: rev, commit: commitOf({ rev, about: name }) };
  const path = normalPath({ written, here, name });
  const entry = path === '' ? ({ path, kind: 'folder', hash: '', size: 0 } as const) : entryAt({ revision, path, name });
  const source = (file: Entry): ProjectSource => projectIn({ revision, file, here, root });
  if (entry.kind === 'file') return { kind: 'file', source: source(entry) };
  if (entry.kind !== 'folder') throw notPlain({ revision, entry });
  const files = entriesUnder({ revision, folder: path, all: true }).filter(
    (file) => file.kind === 'file' && isProjectName(file.path) && !relativeTo(path, file.path).split('/').some(isPassedOver),
  );
  const projects = files.filter((file) => isProjectFile(() => blob({ revision, entry: file })));
  return { kind: 'folder', sources: new Map(projects.map((file) => [relativeTo(path, file.path), source(file)])) };
}

function lineOf(printed: Buffer): string {
  return printed.toString('utf8').replace(/\n$/, '');
}

function relativeTo(folder: string, path: string): string {
  return folder === '' ? path : path.slice(folder.length + 1);
}

function partsOf(name: string): { rev: string; path: string } {
  const rest = name.slice(prefix.length);
  const colon = rest.indexOf(':');
  const help = 'write git:REV:path, such as git:main:pads/lamp.yaml';
  if (colon < 0) throw new InputError([{ id: 'usage', message: `${name} names no path`, help }]);
  const [rev, path] = [rest.slice(0, colon), rest.slice(colon + 1)];
  if (rev === '') throw new InputError([{ id: 'usage', message: `${name} names no revision`, help }]);
  // git would take it for an option
  if (rev.startsWith('-')) throw new InputError([{ id: 'usage', message: `${name}: a revision cannot begin with "-"`, help }]);
  return { rev, path };
}

function commitOf({ rev, about }: { rev: string; about: string }): string {
  const found = lineOf(gitRun({ args: ['rev-parse', '--verify', '--quiet', `${rev}^{commit}`], about, mayFail: true }));
  if (/^[0-9a-f]{40,64}$/.test(found)) return found;
  const help = 'check its name with git log; a copy for CI may hold the last commit alone: fetch the other one first';
  throw gitRefusal({ id: 'unknown-revision', message: `${about}: git knows no revision "${rev}"`, help });
}

/** From the top of the repository, without `.` and `..`. */
function normalPath({ written, here, name }: { written: string; here: string; name: string }): string {
  const isFromHere = /^\.\.?(\/|$)/.test(written);
  const path = posix.normalize(isFromHere ? `${here}${written}` : written).replace(/\/$/, '');
  if (path === '.') return '';
  if (!leadsOut(path)) return path;
  const help = 'paths count from the top of the repository, with ./ in front from here';
  throw gitRefusal({ id: 'no-such-file', message: `${name}: the path leads out of the repository`, help });
}

function entryAt({ revision, path, name }: { revision: Revision; path: string; name: string }): Entry {
  const found = entries(['ls-tree', '-l', '-z', '--full-tree', revision.commit, '--', path]).find((entry) => entry.path === path);
  if (found !== undefined) return found;
  const help = 'paths count from the top of the repository; write ./ in front of one that counts from here';
  throw gitRefusal({ id: 'no-such-file', message: `${name}: "${path}" is not in that revision`, help });
}

/** What lies in a folder; with `all`, the files in it and in all folders under it. */
function entriesUnder({ revision, folder, all = false }: { revision: Revision; folder: string; all?: boolean }): readonly Entry[] {
  const where = folder === '' ? [] : ['--', `${folder}/`];
  return entries(['ls-tree', '-l', '-z', '--full-tree', ...(all ? ['-r'] : []), revision.commit, ...where]);
}

function entries(args: readonly string[]): readonly Entry[] {
  const kinds: Readonly<Record<string, Entry['kind']>> = { '100644': 'file', '100755': 'file', '040000': 'folder', '120000': 'link' };
  return gitRun({ args, about: args.at(-1)! })
    .toString('utf8')
    .split('\0')
    .filter((line) => line !== '')
    .map((line) => {
      const tab = line.indexOf('\t');
      const [mode = '', , hash = '', size = ''] = line.slice(0, tab).split(/ +/);
      return { path: line.slice(tab + 1), kind: kinds[mode] ?? 'other', hash, size: Number(size) || 0 };
    });
}

function told({ revision, path }: { revision: Revision; path: string }): string {
  return `${prefix}${revision.name}:${path}`;
}

function notPlain({ revision, entry }: { revision: Revision; entry: Entry }): InputError {
  const what = entry.kind === 'link' ? 'a link' : 'no plain file';
  const message = `${told({ revision, path: entry.path })} is ${what} in that revision`;
  return gitRefusal({ id: 'not-a-file', message, help: 'name the file itself' });
}

function blob({ revision, entry }: { revision: Revision; entry: Entry }): string {
  const path = told({ revision, path: entry.path });
  if (entry.kind !== 'file') throw notPlain({ revision, entry });
  if (entry.size > mostBytes) {
    const message = `${path} has ${entry.size} bytes; a file has at most ${mostBytes}`;
    throw gitRefusal({ id: 'file-too-large', message, help: 'name a project file' });
  }
  return textIn({ bytes: gitRun({ args: ['cat-file', 'blob', entry.hash], about: path }), path });
}

/** A project file of a revision, its part folders from the same one; a folder outside of the repository is today's. */
function projectIn({
  revision,
  file,
  here,
  root,
}: {
  revision: Revision;
  file: Entry;
  /** Working folder from the top of the repository. */
  here: string;
  root: string;
}): ProjectSource {
  const foreign = new Set<string>();
  const opened = (folder: string): PartsFolder => {
    const path = posix.normalize(posix.join(posix.dirname(file.path), folder)).replace(/\/$/, '');
    if (!isAbsolute(folder) && !leadsOut(path)) return revisionFolder({ revision, path: path === '.' ? '' : path });
    const top = isAbsolute(folder) ? '' : lineOf(gitRun({ args: ['rev-parse', '--show-toplevel'], about: folder }));
    foreign.add(folder);
    return diskFolder(isAbsolute(folder) ? folder : join(top, path));
  };
  return {
    path: told({ revision, path: file.path }),
    place: posix.relative(`/${here}`, `/${file.path}`),
    text: () => blob({ revision, entry: file }),
    openLibrary: (folders) => libraryOf({ root, own: folders.map(opened) }),
    foreign: () => [...foreign],
  };
}

function leadsOut(path: string): boolean {
  return path === '..' || path.startsWith('../') || isAbsolute(path);
}

function revisionFolder({ revision, path }: { revision: Revision; path: string }): PartsFolder {
  const under = (folder: string): readonly Entry[] => entriesUnder({ revision, folder });
  const inKind = (kind: PartKind): string => posix.join(path, kind);
  const all = under(path);
  if (all.length === 0) {
    const message = `${told({ revision, path })} does not exist in that revision`;
    throw gitRefusal({ id: 'no-such-file', message, help: 'check the path' });
  }
  return {
    path: told({ revision, path }),
    names: (kind) => (kind === undefined ? all : under(inKind(kind))).map((entry) => posix.basename(entry.path)),
    text: ({ kind, file }) => {
      const entry = under(inKind(kind)).find((candidate) => posix.basename(candidate.path) === file)!;
      return { path: told({ revision, path: entry.path }), text: blob({ revision, entry }) };
    },
  };
}
