import { lstatSync, mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { namedOutputs } from '../../src/cli/named-outputs.ts';
import { mayWrite, writeAll } from '../../src/cli/output-files.ts';
import { junitXml } from '../../src/report/junit.ts';
import { reviewFormats } from '../../src/report/review-formats.ts';
import { reviewJsonText } from '../../src/report/review-json.ts';
import { sarif } from '../../src/report/sarif.ts';
import { sha256 } from '../../src/cli/sha256.ts';
import type { FormatOptions, Reviewed } from '../../src/report/reviewed.ts';
import { InputError } from '../../src/source/diagnostic.ts';
import { emptyFolder } from './ran.ts';

const reviewed: readonly Reviewed[] = [{ file: 'a.yaml', problems: [{ id: 'no-such-file', message: 'a.yaml does not exist' }] }];
const options: FormatOptions = {
  version: '1.2.3',
  all: false,
  failing: ['fail'],
  notes: [],
  several: false,
  time: '2027-03-31T12:00:00',
  sha256,
};

/** What is said of a refusal, or nothing. */
function refusal(action: () => unknown): string {
  try {
    action();
    return '';
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}

/** Fails as a write to a full disk does, at the second file and with half of it written. */
function fullAfterOne(): (path: string, text: string) => void {
  let written = 0;
  return (path, text) => {
    written += 1;
    writeFileSync(path, text.slice(0, written === 1 ? undefined : 3));
    if (written > 1) throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
  };
}

describe('what may be written over', () => {
  test.each(Object.keys(reviewFormats))('a report %s of an earlier run may', (ending) => {
    const path = join(emptyFolder(), `review${ending}`);
    for (const several of [false, true]) {
      writeFileSync(path, reviewFormats[ending]!(reviewed, { ...options, several }));
      expect(refusal(() => mayWrite({ path, force: false }))).toBe('');
    }
  });

  test.each([
    ['an empty file', ''],
    ['a text', 'written by tankproof\n'],
    ['a report behind words of one’s own', `my notes\n${reviewJsonText(reviewed, options)}`],
    ['JSON of another tool', '{"tankproof": 1}'],
    ['SARIF of another tool', sarif(reviewed, options).replace('"name": "tankproof"', '"name": "other"')],
    ['JUnit XML of another tool', junitXml(reviewed, options).replace('<!-- written by tankproof -->\n', '')],
  ])('%s may not, unless it is asked for', (_words, text) => {
    const path = join(emptyFolder(), 'review.json');
    writeFileSync(path, text);
    expect(refusal(() => mayWrite({ path, force: false }))).toBe(`${path} exists already`);
    expect(refusal(() => mayWrite({ path, force: true }))).toBe('');
    expect(refusal(() => writeAll({ outputs: [{ path, text: 'new' }], force: false }))).toBe(`${path} exists already`);
    expect(readFileSync(path, 'utf8')).toBe(text);
  });

  test('no folder may, and none is made', () => {
    const folder = emptyFolder();
    mkdirSync(join(folder, 'review.md'));
    writeFileSync(join(folder, 'file'), '');
    expect(refusal(() => mayWrite({ path: join(folder, 'review.md'), force: true }))).toMatch(/is a folder$/);
    expect(refusal(() => mayWrite({ path: join(folder, 'no', 'review.md'), force: true }))).toMatch(/its folder does not exist$/);
    expect(refusal(() => mayWrite({ path: join(folder, 'file', 'review.md'), force: true }))).toMatch(/cannot be written/);
  });
});

describe('writing', () => {
  test('is all or nothing: a full disk leaves what was there, and no piece of the new', () => {
    const folder = emptyFolder();
    const paths = ['a.json', 'b.json'].map((name) => join(folder, name));
    const before = reviewJsonText(reviewed, options);
    for (const path of paths) writeFileSync(path, before);
    const outputs = paths.map((path) => ({ path, text: '{"new": 1}' }));
    expect(refusal(() => writeAll({ outputs, force: false, write: fullAfterOne() }))).toBe(
      `${paths[1]!} cannot be written: no space is left`,
    );
    expect(readdirSync(folder)).toEqual(['a.json', 'b.json']);
    for (const path of paths) expect(readFileSync(path, 'utf8')).toBe(before);
    writeAll({ outputs, force: false });
    for (const path of paths) expect(readFileSync(path, 'utf8')).toBe('{"new": 1}');
    expect(readdirSync(folder)).toEqual(['a.json', 'b.json']);
  });

  test('a link stays a link', () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'real.md'), '<!-- written by tankproof -->\n');
    symlinkSync('real.md', join(folder, 'link.md'));
    writeAll({ outputs: [{ path: join(folder, 'link.md'), text: 'new' }], force: false });
    expect(lstatSync(join(folder, 'link.md')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, 'real.md'), 'utf8')).toBe('new');
  });
});

describe('formats by ending', () => {
  const folder = emptyFolder();
  test.each([
    ['r.sarif.json', '.sarif.json'],
    ['r.SARIF', '.sarif'],
    ['r.json', '.json'],
    ['r.junit.xml', '.xml'],
    ['r.xml', '.xml'],
    ['r.md', '.md'],
  ])('%s', (name, ending) => {
    const [output] = namedOutputs({ paths: [join(folder, name)], formats: reviewFormats, force: false });
    expect(output?.format).toBe(reviewFormats[ending]);
  });

  test('an ending that nothing is written for, and a file that is named twice, are refused', () => {
    const named = (...names: string[]): string =>
      refusal(() => namedOutputs({ paths: names.map((name) => join(folder, name)), formats: reviewFormats, force: false }));
    expect(named('r.pdf')).toMatch(/has none of the endings \.sarif\.json, /);
    expect(named('r.md', '../' + folder.split('/').at(-1)! + '/r.md')).toMatch(/is named twice$/);
  });
});
