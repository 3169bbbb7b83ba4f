import * as fc from 'fast-check';
import { matchesGlob } from 'node:path';
import { describe, expect, test } from 'vitest';
import { alternatives, isPattern, pathMatches, segmentMatches } from '../../src/source/path-pattern.ts';

describe('a pattern', () => {
  test.each<[string, string, boolean]>([
    ['pads/*.yaml', 'pads/a.yaml', true],
    ['pads/*.yaml', 'pads/b/a.yaml', false],
    ['pads/**', 'pads/b/a.yaml', true],
    ['**/a.yaml', 'a.yaml', true],
    ['**/a.yaml', 'pads/b/a.yaml', true],
    ['pads/**/a.yaml', 'pads/a.yaml', true],
    ['pads/**/a.yaml', 'coils/a.yaml', false],
    ['?.yaml', 'a.yaml', true],
    ['?.yaml', 'ab.yaml', false],
    ['[ab].yaml', 'b.yaml', true],
    ['[!ab].yaml', 'b.yaml', false],
    ['[0-9]*.yaml', '7pad.yaml', true],
    ['{pads,coils}/*.{yaml,yml}', 'coils/a.yml', true],
    ['{pads,coils}/*.{yaml,yml}', 'leads/a.yml', false],
    ['*', '.hidden', false],
    ['.*', '.hidden', true],
    ['**/*', '.git/a', false],
    ['a[.yaml', 'a[.yaml', true],
    ['A.yaml', 'a.yaml', false],
  ])('%s and %s: %s, as path.matchesGlob of Node.js has it', (pattern, path, matches) => {
    expect(pathMatches({ path, pattern })).toBe(matches);
    expect(matchesGlob(path, pattern)).toBe(matches);
  });

  test('of any kind agrees with path.matchesGlob of Node.js', () => {
    const piece = fc.constantFrom('*', '?', 'a', 'b', '.', 'ab', '[ab]', '[!a]');
    const segment = fc.oneof(
      fc.array(piece, { minLength: 1, maxLength: 4 }).map((pieces) => pieces.join('')),
      fc.constant('**'),
    );
    const pattern = fc.array(segment, { minLength: 1, maxLength: 4 }).map((segments) => segments.join('/'));
    const name = fc.stringMatching(/^[ab][ab.]{0,3}$/);
    const path = fc.array(name, { minLength: 1, maxLength: 4 }).map((names) => names.join('/'));
    // `**` beside other signs is no number of folders, and a name of points alone is no name
    const isPlain = (text: string): boolean => text.split('/').every((one) => one === '**' || (!one.includes('**') && !/^\.+$/.test(one)));
    fc.assert(
      fc.property(pattern.filter(isPlain), path, (one, given_) => {
        expect([one, given_, pathMatches({ path: given_, pattern: one })]).toEqual([one, given_, matchesGlob(given_, one)]);
      }),
      { numRuns: 3000, seed: 11 },
    );
  });

  test('of many runs takes no time, whatever the name', () => {
    const begun = performance.now();
    expect(segmentMatches({ name: 'a'.repeat(250), pattern: `${'*a'.repeat(60)}*b` })).toBe(false);
    expect(performance.now() - begun).toBeLessThan(1000);
  });

  test('with more alternatives than a person writes is taken as it is', () => {
    const many = '{a,b}'.repeat(40);
    expect(alternatives(many)).toEqual([many]);
    expect(alternatives('{a,{b,c}}d')).toEqual(['ad', 'bd', 'cd']);
    expect(alternatives('a{b}c')).toEqual(['a{b}c']);
    expect([isPattern('a{b}'), isPattern('a/b.yaml')]).toEqual([true, false]);
  });
});
