import { describe, expect, test } from 'vitest';
import type { Design, Reading } from '../../src/project/design.ts';
import { comparisons } from '../../src/studies/readings/agreement.ts';
import { causesOf, faultyModel, type Cause } from '../../src/studies/readings/causes.ts';
import { faultsFor, type FaultId } from '../../src/studies/readings/faults.ts';
import { readingFit } from '../../src/studies/readings/fit.ts';
import { predicted, projectFactors, readingModel } from '../../src/studies/readings/model.ts';
import { observationsOf } from '../../src/studies/readings/observed.ts';
import { designOf, edited, example, measuredPad } from '../checks/reviewed.ts';

/** Readings without noise of a driver with a fault. */
function causesOfFault({
  text,
  id,
  nth = 0,
  change = (readings) => readings,
}: {
  text: string;
  id: FaultId;
  nth?: number;
  change?: (readings: Record<string, Reading>) => Record<string, Reading>;
}): { causes: readonly Cause[]; off: readonly string[] } {
  const design = designOf(text);
  const model = readingModel(design);
  const fault = faultsFor({ model, original: design })
    .filter((one) => one.id === id)
    .at(nth)!;
  const values = Object.entries(predicted(faultyModel({ model, fault }), projectFactors)!);
  const readings = change(Object.fromEntries(values.flatMap(([key, value]) => (typeof value === 'number' ? [[key, { value }]] : []))));
  const built: Design = { ...design, readings };
  const observations = observationsOf(built);
  const compared = comparisons({ design: built, model, observations });
  const base = readingFit({ model, observations })!;
  return {
    causes: causesOf({ original: design, model, observations, base }),
    off: compared.filter(({ verdict }) => verdict === 'disagrees').map(({ key }) => key),
  };
}

const underLoad = (text: string, name: string): string => edited(text, ['environment:', `readings: {load: ${name}}\nenvironment:`]);
const loadedPad = underLoad(measuredPad, 'lantern on the pad');
const smallChokes = edited(loadedPad, [
  'part: choke-100u-10a-sendust',
  'inductance: 100 uH\n  resistance: 16 mohm\n  saturationCurrent: 1.2 A\n  tolerance: 10 %',
]);
const exactDrain = (readings: Record<string, Reading>): Record<string, Reading> => ({
  ...readings,
  drainPeak: { value: readings['drainPeak']!.value, uncertainty: 0.2 },
});
const measuredSupply = edited(loadedPad, ['readings: {', 'readings: {supplyVoltage: {value: 18 V, uncertainty: 20 mV}, ']);
/** A load that brings the gate of the off switch far up, and a heatsink on which it still settles while it leaks. */
const leaky = edited(loadedPad, ['power: 25 W', 'power: 60 W'], ['heatsink: 8 K/W', 'heatsink: 4 K/W']);

/** A coil by its geometry, of eight turns. */
const heaterAlone = example('bolt-heater');

describe.each([
  ['lost-capacitor', measuredPad, 1, 'frequency'],
  ['wrong-marking', measuredPad, 4, 'frequency'],
  ['other-coil', measuredPad, 1, 'frequency'],
  ['other-coil', heaterAlone, 1, 'frequency'],
  ['shorted-turn', measuredPad, 13, 'supplyCurrentIdle'],
  ['wrong-dielectric', measuredPad, 1, 'supplyCurrentIdle'],
  ['slow-gate', loadedPad, 1, 'switchTemperature'],
  ['partial-latch', leaky, -1, 'switchTemperature'],
  ['saturated-choke', smallChokes, 3, 'frequency'],
  ['other-load', measuredPad, 1, 'supplyCurrentLoaded'],
  ['source-resistance', measuredSupply, 2, 'drainPeak'],
] as const)('readings of a driver with %s', (id, text, nth, key) => {
  const { causes, off } = causesOfFault({ text, id, nth, change: id === 'source-resistance' ? exactDrain : (readings) => readings });

  test('disagree, and it is named first, since it explains them all', () => {
    expect(off).toContain(key);
    expect(causes[0]!.id).toBe(id);
    expect(causes[0]!.explainsAll).toBe(true);
  });

  test('are its evidence: with it the prediction comes closer to what was read', () => {
    const { evidence } = causes[0]!;
    expect(evidence.length).toBeGreaterThan(0);
    for (const { read, project, withCause } of evidence) expect(Math.abs(withCause - read)).toBeLessThan(Math.abs(project - read));
  });
});

test('chokes that carry little are not suspected of saturation', () => {
  const design = designOf(example('charging-pad'));
  const faults = faultsFor({ model: readingModel(design), original: design });
  expect(faults.filter(({ id }) => id === 'saturated-choke')).toEqual([]);
});

test('a coil of a single turn has none to short', () => {
  const single = edited(example('bolt-heater'), ['turns: 8', 'turns: 1']);
  const design = designOf(single);
  expect(faultsFor({ model: readingModel(design), original: design }).some(({ id }) => id === 'shorted-turn')).toBe(false);
});
