import { describe, expect, test } from 'vitest';
import { analysisOf } from '../../src/driver/analysis.ts';
import { warmCoil } from '../../src/driver/coil-heat.ts';
import { coilOf } from '../../src/driver/coil.ts';
import { quantitiesOf } from '../../src/driver/quantities.ts';
import { conductorHeatFlow } from '../../src/physics/conductor-temperature.ts';
import type { Design } from '../../src/project/design.ts';
import { meterChecks } from '../../src/studies/bringup/meter.ts';
import { voltageSteps } from '../../src/studies/bringup/steps.ts';
import { readingLoads } from '../../src/studies/reading-loads.ts';
import { comparisons } from '../../src/studies/readings/agreement.ts';
import { readingModel } from '../../src/studies/readings/model.ts';
import { observationsOf } from '../../src/studies/readings/observed.ts';
import { designOf, edited, example, measuredPad, quantity, reviewed } from '../checks/reviewed.ts';

const tube = `    shape: solenoid
    diameter: 60 mm
    turns: 8
    pitch: 9 mm
    conductor: {shape: tube, outerDiameter: 6 mm, wall: 1 mm}
`;
const pad = edited(measuredPad, ['    inductance: 4.5 uH\n    resistance: 30 mohm # measured at 80 kHz\n', tube]);
const loose = edited(pad, ['  tolerance: 5 %', '  tolerance: 20 %'], ['    tolerance: 3 %', '    tolerance: 10 %']);
const tight = edited(pad, ['  tolerance: 5 %', '  tolerance: 0 %'], ['    tolerance: 3 %', '    tolerance: 0 %']);

/** The nominal values of every load, by load and id. */
function nominalOf(text: string): ReadonlyMap<string, number | null> {
  const quantities = quantitiesOf(analysisOf(designOf(text)));
  return new Map(quantities.map((one) => [`${one.case}: ${one.id}`, one.value]));
}

describe('nominal values of a coil given by its geometry', () => {
  test('do not depend on any tolerance', () => {
    const [wide, none] = [nominalOf(loose), nominalOf(tight)];
    expect(wide.size).toBeGreaterThan(40);
    for (const [key, value] of wide) {
      if (value === null) expect(none.get(key)).toBeNull();
      else expect(value / none.get(key)!, key).toBeCloseTo(1, 9);
    }
  });

  test.each(['nothing near', 'lantern on the pad'])('the coil gives to the air what it loses, with %s', (load) => {
    const [design, values] = [designOf(pad), nominalOf(pad)];
    const winding = coilOf(design).winding!;
    // the surfaces between turns face each other: half of them cools
    const flow = conductorHeatFlow({
      diameter: winding.geometry.conductor.outerDiameter,
      emissivity: winding.emissivity,
      surface: values.get(`${load}: coil.temperature`)!,
      ambient: design.environment.ambient!,
    });
    expect((flow * winding.length) / 2 / values.get(`${load}: coil.loss`)!).toBeCloseTo(1, 5);
  });

  test('a load that detunes the coil leaves it cooler', () => {
    const values = nominalOf(pad);
    expect(values.get('lantern on the pad: coil.temperature')).toBeLessThan(values.get('nothing near: coil.temperature')!);
  });

  test('a loaded Q is that of the nominal tank, with everything in it', () => {
    const text = edited(loose, ['    power: 25 W\n', '    loadedQ: 9\n']);
    expect(nominalOf(text).get('lantern on the pad: tank.quality')).toBeCloseTo(9, 9);
  });

  test('a loaded Q beyond that of the warm coil and bank is refused', () => {
    const own = nominalOf(loose).get('nothing near: tank.quality')!;
    const bare = edited(loose, ['    power: 25 W\n    frequencyShift: -2 %\n', `    loadedQ: "${(1.02 * own).toFixed(2)}"\n`]);
    expect(() => analysisOf(designOf(bare))).toThrow('that coil and bank reach by their own loss');
    const below = edited(loose, ['    power: 25 W\n    frequencyShift: -2 %\n', `    loadedQ: "${(0.98 * own).toFixed(2)}"\n`]);
    expect(analysisOf(designOf(below)).nominal.length).toBe(2);
  });

  test('every corner is judged with the coil at its hottest', () => {
    const hottest = reviewed(loose).get('coil-temperature')!.value!;
    expect(hottest).toBeGreaterThan(quantity(loose, 'coil.temperature')! + 4);
    for (const { point } of analysisOf(designOf(loose)).corners) expect(point.coil.temperature).toBe(hottest);
  });
});

test.each([
  ['the error of the formula for its inductance', example('bolt-heater')],
  ['a load that lowers its inductance', edited(example('charging-pad'), ['frequencyShift: -2 %', 'frequencyShift: 12 %'])],
])('at its hottest a coil is no cooler than the current of any corner makes it: %s', (_why, text) => {
  const design = designOf(text);
  const { corners } = analysisOf(design);
  for (const { point } of corners) {
    const own = warmCoil({ design, current: point.running!.tankCurrentPeak / Math.SQRT2 }).temperature as number;
    expect(own).toBeLessThanOrEqual(point.coil.temperature as number);
  }
});

test('a coil that settles at no temperature is expected at none, and fails', () => {
  const text = edited(example('scrap-box-smelter'), ['    loadedQ: 4\n', '    parallelResistance: 30 ohm\n']);
  const quantities = quantitiesOf(analysisOf(designOf(text)));
  expect(quantities.find(({ id }) => id === 'coil.temperature')).toMatchObject({
    value: null,
    reason: expect.stringContaining('the coil does not settle below 326.9 °C') as string,
  });
  const { verdict, basis } = reviewed(text).get('coil-temperature')!;
  expect(verdict).toBe('fail');
  expect(basis.join()).toContain('it does not settle below this temperature');
  const design = designOf(text);
  const results = [...reviewed(text).values()];
  const [, , , whole] = voltageSteps({ analysis: analysisOf(design), results, loads: readingLoads(design), limit: 40 });
  expect(whole!.idle.coilTemperature).toHaveProperty('unknown');
  expect(whole!.past).toContain('coil');
});

describe('the charging pad with a supply of ±20 %', () => {
  const text = edited(example('charging-pad'), ['  tolerance: 5 %\n  riseTime', '  tolerance: 20 %\n  riseTime']);
  const design = designOf(text);

  test('bringup expects the coil that the nominal values have, step by step', () => {
    const steps = voltageSteps({ analysis: analysisOf(design), results: [], loads: readingLoads(design), limit: 5 });
    const last = steps.at(-1)!;
    expect(last.idle.coilTemperature).toBeCloseTo(quantity(text, 'coil.temperature')!, 6);
    const half = edited(text, ['voltage: 18 V', 'voltage: 7.2 V']);
    expect(steps[0]!.idle.coilTemperature).toBeCloseTo(quantity(half, 'coil.temperature')!, 6);
    expect(last.loaded!.coilTemperature).toBeLessThan(reviewed(text).get('coil-temperature')!.value! - 4);
  });

  test('its meter reads the coil cold', () => {
    const [, , drains] = meterChecks(design);
    const cold = coilOf(design).winding!.resistanceAt(298.15).most;
    expect(cold).toBeLessThan(quantity(text, 'coil.resistance')!);
    expect(drains!.expect).toMatchObject({ high: expect.closeTo(0.5 + cold, 12) as number });
  });

  test('readings at half of the voltage are held against the coil at half of it', () => {
    const at = (readings: string): Design => designOf(text.replace(/readings:[^]*$/, `readings: ${readings}\n`));
    const measured = at('{coilTemperature: 30 degC, supplyCurrentIdle: 80 mA, supplyVoltage: 9 V}');
    const compared = comparisons({ design: measured, model: readingModel(measured), observations: observationsOf(measured) });
    const half = edited(text, ['voltage: 18 V', 'voltage: 9 V']);
    expect(compared.find(({ key }) => key === 'coilTemperature')!.predicted).toBeCloseTo(quantity(half, 'coil.temperature')!, 6);
  });
});
