import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { namedFiles, type NamedFiles } from '../../src/cli/project-files.ts';
import { emptyFolder } from './ran.ts';

const project = '# a pad\ntankproof: 1\n';

/** A folder with files of these contents. */
function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = emptyFolder();
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}

const told = ({ files }: NamedFiles, folder: string): readonly string[] =>
  files.map((one) => (typeof one === 'string' ? one : `${one.problems[0]!.id}: ${one.file}`).replaceAll(`${folder}/`, ''));

describe('what paths name', () => {
  const folder = folderWith({
    'b.yaml': project,
    'a.yml': project,
    'C.YAML': project,
    'deep/er/z.yaml': project,
    'deep/limits.yaml': 'tankproofLimits: 1\n',
    'deep/empty.yaml': '',
    'deep/notes.txt': project,
    '.hidden/x.yaml': project,
    'node_modules/x.yaml': project,
    'late.yaml': 'title: a pad\ntankproof: 1\n',
    'flow.yaml': '{tankproof: 1}\n',
  });
  const all = ['C.YAML', 'a.yml', 'b.yaml', 'deep/er/z.yaml', 'flow.yaml', 'late.yaml'];

  test('of a folder, its project files and those below, in the order of their names; the others are counted', () => {
    const found = namedFiles([folder]);
    expect(told(found, folder)).toEqual(all);
    expect(found.skipped.map((path) => path.replace(`${folder}/`, ''))).toEqual(['deep/empty.yaml', 'deep/limits.yaml']);
  });

  test.each<[string, readonly string[]]>([
    ['*.yaml', ['b.yaml', 'flow.yaml', 'late.yaml']],
    ['**/*.yaml', ['b.yaml', 'flow.yaml', 'late.yaml', 'deep/er/z.yaml']],
    ['deep/**', ['deep/er/z.yaml', 'deep/notes.txt'].toSorted()],
    ['{a,b}.y{a,}ml', ['b.yaml', 'a.yml'].toSorted()],
    ['*/er/z.yaml', ['deep/er/z.yaml']],
    ['.hidden/*', ['.hidden/x.yaml']],
  ])('of the pattern %s', (pattern, files) => {
    expect(told(namedFiles([join(folder, pattern)]), folder).toSorted()).toEqual([...files].toSorted());
  });

  test('a file that is named is taken as it is, each once and at its first place', () => {
    const paths = ['late.yaml', 'deep/limits.yaml', 'missing.yaml', '.', 'b.yaml'].map((name) => join(folder, name));
    expect(told(namedFiles(paths), folder)).toEqual([
      'late.yaml',
      'deep/limits.yaml',
      'missing.yaml',
      'C.YAML',
      'a.yml',
      'b.yaml',
      'deep/er/z.yaml',
      'flow.yaml',
    ]);
    expect(namedFiles(paths).skipped.map((path) => path.replace(`${folder}/`, ''))).toEqual(['deep/empty.yaml']);
  });

  test.each<[string, string]>([
    ['nothing/*.yaml', 'no-such-file: nothing/*.yaml'],
    ['*.toml', 'no-such-file: *.toml'],
    ['deep/l*.yaml', 'no-project: deep/l*.yaml'],
  ])('%s is refused in its place', (pattern, words) => {
    expect(told(namedFiles([join(folder, 'b.yaml'), join(folder, pattern)]), folder)).toEqual(['b.yaml', words]);
  });
});

describe('links', () => {
  test('in a circle end, and each folder is looked into once', () => {
    const folder = folderWith({ 'a/p.yaml': project, 'b/q.yaml': project });
    symlinkSync('..', join(folder, 'a', 'up'));
    symlinkSync('self', join(folder, 'self'));
    symlinkSync(join(folder, 'b'), join(folder, 'a', 'to-b'));
    for (const path of [folder, join(folder, '**', '*.yaml')]) {
      const names = told(namedFiles([path]), folder);
      expect(names).toHaveLength(2);
      expect(names[0]).toBe('a/p.yaml');
    }
  });

  test('to nowhere and what is no text are refused in their places', () => {
    const folder = folderWith({ 'a.yaml': project, 'z.yaml': project });
    symlinkSync('nowhere', join(folder, 'm.yaml'));
    writeFileSync(join(folder, 'n.yaml'), Uint8Array.of(0xff, 0xfe, 0x74, 0x00));
    const found = namedFiles([folder]);
    expect(told(found, folder)).toEqual(['a.yaml', 'no-such-file: m.yaml', 'not-text: n.yaml', 'z.yaml']);
    const broken = found.files[1];
    expect(typeof broken === 'object' && broken.problems[0]?.message).toContain('is a link to something that does not exist');
  });
});
