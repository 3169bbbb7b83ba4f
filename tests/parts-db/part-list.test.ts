import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import partSchema from '../../shared/part.schema.json' with { type: 'json' };
import { partKinds } from '../../src/parts/part.ts';
import type { PartKind } from '../../src/parts/part.ts';
import { partNames, partOf, partText } from './part-files.ts';

const names: Readonly<Record<PartKind, readonly string[]>> = {
  mosfets: [
    ...['BUZ11', 'IRFZ44N', 'IRLZ44N', 'IRF3205', 'IRF1407', 'IRF540N', 'IRL540N', 'IRF3710', 'IRFB4110', 'IRFP150N', 'IRFB4115'],
    ...['IRFP4568', 'IRFP250N', 'IRFP260N', 'IRFB4227', 'IRFP4668', 'IRFP4768', 'IRF740', 'IRF840', 'IRFP460', '47N60C3'],
  ],
  diodes: [
    ...['1N4148', '1N4007', '1N4937', 'UF4004', 'UF4007', 'HER108', 'BYV26C', 'BYV26E', 'BYV29-500', 'BYW29-200'],
    ...['MUR160', 'MUR460', 'MUR860', '1N5822', 'SB560'],
  ],
  zeners: ['1N4742A', '1N4744A', 'BZX85C12', 'BZX85C15', 'BZX55C12', '1N5349B'],
  capacitors: [
    ...['pp-box-100n-630v', 'pp-box-330n-400v', 'pp-box-330n-630v', 'pp-box-1u-630v', 'pp-resonance-330n-1200v', 'pp-foil-100n-1000v'],
    ...['x2-330n-275v', 'polyester-100n-630v', 'c0g-1812-10n-1000v', 'c0g-1812-33n-630v', 'mica-10n-500v', 'tank-block-660n-500vac'],
  ],
  chokes: [
    ...['choke-47u-6a-iron-powder', 'choke-47u-11a-iron-powder', 'choke-100u-4a-iron-powder', 'choke-100u-8a-iron-powder'],
    ...['choke-100u-9a-iron-powder', 'choke-100u-12a-iron-powder', 'choke-200u-5a-iron-powder', 'choke-200u-13a-iron-powder'],
    ...['choke-100u-10a-sendust', 'choke-100u-20a-powder', 'choke-100u-3a-drum', 'choke-100u-15a-ferrite'],
  ],
};

const needed: Readonly<Record<PartKind, readonly string[]>> = {
  mosfets: [
    ...['drainVoltage', 'onResistance', 'thresholdMin', 'thresholdMax', 'drainCurrent', 'gateVoltage'],
    ...['junctionTemperature', 'junctionToCase'],
  ],
  diodes: ['reverseVoltage', 'forwardVoltage', 'averageCurrent', 'recoveryTime'],
  zeners: ['zenerVoltage', 'tolerance', 'power'],
  capacitors: ['capacitance', 'tolerance', 'voltageDc', 'voltageAc', 'lossTangent', 'currentRms'],
  chokes: ['inductance', 'resistance', 'saturationCurrent'],
};

const sources = ['data sheet', 'sibling', 'build', 'practice', 'memory', 'class', 'derived'];
const words = ['tankproofPart', 'kind', 'title', 'note', 'package', 'dielectric', 'size', 'onResistanceAt'];
const ratios = ['onResistanceFactor', 'lossTangent'];
const unit = /^-?\d+(\.\d+)? (%|[pnum]?[VAWSJFHCs]|mohm|ohm|degC|K|K\/W|V\/us)$/;

type Mapping = Readonly<Record<string, unknown>>;

const isMapping = (node: unknown): node is Mapping => typeof node === 'object' && node !== null && !Array.isArray(node);

/** Every rating of a file with the key it stands under, those of a curve or of several coolings one by one. */
function ratingsOf(key: string, node: unknown): readonly { key: string; rating: unknown }[] {
  if (!isMapping(node) || 'value' in node) return [{ key, rating: node }];
  return Object.values(node).flatMap((inner) => ratingsOf(key, inner));
}

const files = partKinds.flatMap((kind) => partNames(kind).map((name) => ({ kind, name, text: partText(kind, name) })));

test('parts-db has a folder for every kind of part and nothing else', () => {
  expect(readdirSync(join(import.meta.dirname, '..', '..', 'parts-db')).toSorted()).toEqual(partKinds.toSorted());
});

test.each([
  ['mosfets', 21],
  ['diodes', 15],
  ['zeners', 6],
  ['capacitors', 12],
  ['chokes', 12],
] as const)('the %s are the listed %d', (kind, count) => {
  expect(partNames(kind)).toEqual(names[kind].toSorted());
  expect(partNames(kind)).toHaveLength(count);
});

describe.each(files)('$kind $name', ({ kind, name, text }) => {
  const mapping = parse(text) as Mapping;
  const ratings = Object.entries(mapping)
    .filter(([key]) => !words.includes(key))
    .flatMap(([key, node]) => ratingsOf(key, node));

  test('is read without a complaint', () => {
    expect(partOf(kind, name)).toMatchObject({ kind, name, title: mapping['title'] });
  });

  test('begins by sending the builder to the data sheet', () => {
    const comment = text.slice(0, text.indexOf('tankproofPart')).replaceAll('\n# ', ' ');
    expect(comment).toMatch(/^# [A-Z0-9].*\. Confirm every rating against the data sheet of the part in hand\.( [A-Z].*\.)?\n$/);
  });

  test('has every needed rating, and its keys in the order of the schema', () => {
    const keys = Object.keys(mapping);
    expect(keys).toEqual(expect.arrayContaining([...needed[kind]]));
    expect(keys).toEqual(Object.keys(partSchema.$defs[kind].properties).filter((key) => keys.includes(key)));
  });

  test('every rating has a number with its unit and an allowed source', () => {
    for (const { key, rating } of ratings) {
      expect(isMapping(rating), key).toBe(true);
      const { value, source } = rating as Mapping;
      if (ratios.includes(key)) expect(value, key).toBeTypeOf('number');
      else expect(value, key).toMatch(unit);
      expect(sources, key).toContain(source);
    }
  });

  test('has whole remarks in plain words', () => {
    const remarks = [mapping, ...ratings.map(({ rating }) => rating as Mapping)].flatMap(({ note }) => (note === undefined ? [] : [note]));
    for (const remark of remarks) expect(remark).toMatch(/^[A-Za-z0-9][^()]*[A-Za-z0-9.%]$/);
    expect(text).not.toMatch(/confidence|repository|\bnull\b|\t/i);
    expect(text.split('\n').filter((line) => line.length > 140 || line !== line.trimEnd())).toEqual([]);
  });
});
