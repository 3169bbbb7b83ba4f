import { describe, expect, test } from 'vitest';
import { explained } from '../../src/checks/registry.ts';
import { explanationText } from '../../src/report/explain.ts';
import { levelsText } from '../../src/report/levels.ts';
import { symbolWords } from '../../src/report/symbols.ts';
import { defaults } from '../checks/reviewed.ts';

const levelsOf = (id: string): string => {
  const { dimension, sense, docs } = explained.find((check) => check.id === id)!;
  return levelsText({ policy: defaults.get(id)!, dimension, sense, docs });
};

/** Checks whose formula is a sentence. */
const inWords = ['latch-up', 'magnetic-field', 'rise-time'];

describe.each(explained)('$id', ({ id, docs }) => {
  test('says what its symbols mean', () => {
    const words = symbolWords({ id, formula: docs.formula });
    expect(words === '').toBe(inWords.includes(id));
    // every word of two letters or more with a capital first, and every V, I, R and C, is a symbol that is explained
    const symbols = docs.formula.match(/(?<![\p{L}\w°]|\d )(?:[VIRC]|[VTRIQC][a-z]{1,3}|V_[A-Za-z]+)(?![\p{L}\w′,])/gu) ?? [];
    const unexplained = symbols.filter((symbol) => !`; ${words}`.includes(`; ${symbol} `) && !docs.formula.includes(`${symbol} of `));
    if (!inWords.includes(id)) expect(unexplained.filter((symbol) => !['Vac', 'R_DS', 'Chu'].includes(symbol))).toEqual([]);
  });
});

test('levels name what they are taken of, and the rule that holds', () => {
  expect(levelsOf('switch-peak-voltage')).toMatch(/^warns above 0\.8 of the rating, fails above the rating\. /);
  expect(levelsOf('rail-overshoot')).toContain('fails above 1.25 times the supply voltage');
  expect(levelsOf('choke-temperature')).toContain('fails above the part’s own maxTemperature');
  expect(levelsOf('coil-current-density')).toContain('water in a tube: warns above 25 A/mm²');
  const heating = levelsOf('capacitor-self-heating');
  expect(heating).toContain('fails above 15 K; a dielectric that is not polypropylene: warns above 0.8 of the part’s own maxRise');
  expect(heating).toContain('A maxRise below 10 K lowers both in proportion.');
});

test('the rows of check values are said to be where they are', () => {
  const check = explained.find(({ id }) => id === 'loaded-q')!;
  expect(explanationText({ check, levels: undefined, width: 200 })).toContain('shared/references/check-values.yaml');
});
