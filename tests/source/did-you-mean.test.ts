import { expect, test } from 'vitest';
import { didYouMean, didYouMeanHelp } from '../../src/source/did-you-mean.ts';

test.each([
  ['one letter replaced', 'voltege', ['voltage', 'tolerance'], ['voltage']],
  ['two letters swapped count as one mistake', 'votlage', ['voltage'], ['voltage']],
  ['two mistakes in a long name', 'voltageee', ['voltage'], ['voltage']],
  ['three mistakes are too many', 'vlteeg', ['voltage'], []],
  ['two mistakes in a name of two letters are too many', 'ab', ['cd'], []],
  ['one mistake in a name of two letters', 'ab', ['ac'], ['ac']],
  ['letter case costs nothing', 'irfp250n', ['IRFP250N'], ['IRFP250N']],
  ['a missing prefix costs one', 'box-100n-630v', ['pp-box-100n-630v'], ['pp-box-100n-630v']],
  ['an extra prefix costs one', 'my-IRFP250N', ['IRFP250N'], ['IRFP250N']],
  ['two letters in common at the end are no prefix mistake', 'kV', ['milliohm-kV'], []],
  ['the nearest comes first', 'abcd', ['abxx', 'abcx', 'abcd'], ['abcd', 'abcx', 'abxx']],
  ['at most three', 'abcd', ['abce', 'abcf', 'abcg', 'abch'], ['abce', 'abcf', 'abcg']],
  ['a very long word has no neighbours', 'a'.repeat(81), ['a'.repeat(81)], []],
])('%s', (_fact, word, names, expected) => expect(didYouMean({ word, names })).toEqual(expected));

test('several suggestions read as a sentence', () => {
  expect(didYouMeanHelp({ word: 'abcd', names: ['abce', 'abcf', 'abcg'] })).toBe('did you mean `abce`, `abcf` or `abcg`?');
  expect(didYouMeanHelp({ word: 'abcd', names: ['wxyz'] })).toBeUndefined();
});
