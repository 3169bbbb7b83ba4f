import { describe, expect, test } from 'vitest';
import { nominalCorner } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { settledStart, startRuns } from '../../src/driver/settled-start.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { outcomeWord } from '../driver/outcome-word.ts';
import { designOf, measuredPad, reviewedInTime } from './reviewed.ts';

/** An invented heater on a gate rail of its own: a pair of 1.5 times the stated strength latches in a band of supply voltages. */
const heater = `
tankproof: 1
title: Bench heater
supply: {voltage: 24 V, tolerance: 5 %, riseTime: 5 ms, resistance: 30 mohm, currentLimit: 15 A, bulkCapacitance: 470 uF, leadInductance: 1 uH}
chokes: {arrangement: two, part: choke-100u-10a-sendust}
tank:
  coil:
    {shape: solenoid, diameter: 56 mm, turns: 8, conductor: {shape: tube, outerDiameter: 6 mm, wall: 1 mm}, pitch: 9 mm, cooling: water,
      tolerance: 3 %}
  bank: {part: pp-foil-100n-1000v, parallel: 18}
loads: [{name: empty}, {name: bolt, power: 150 W}]
switches: {part: IRFP4668, heatsink: 5 K/W}
gates:
  pullUp: {resistance: 39 ohm, power: 5 W, from: 12 V}
  pullDown: 10 kohm
  clamp: 1N4742A
  crossDiode: UF4007
environment: {ambient: 25 degC, access: trained}
`;

describe('a pair that latches only between the corners of the supply', () => {
  const design = designOf(heater);
  const outcomeAt = (supply: number): string => {
    const point = operatingPoint({ design, load: design.loads[0]!, corner: { ...nominalCorner, supply } });
    return outcomeWord(timedStart({ design, point, pair: { mismatch: 0.05, strength: 1.5, junction: 298.15 } }));
  };

  test('latches at nominal values, and runs with the supply at either end', () => {
    expect([0.95, 1, 1.05].map(outcomeAt)).toEqual(['runs', 'latches', 'runs']);
  });

  test('is no pass: the start is undecided, and says with what', () => {
    const result = reviewedInTime(heater).get('latch-up')!;
    expect(result.verdict).toBe('not assessed');
    expect(result.reason).toMatch(/at nominal values, with thresholds 5 % apart and switches of 1.5 times the stated strength it latches/);
  });
});

test('a start that runs was run as often as reports tell', () => {
  const design = designOf(measuredPad);
  const [load] = design.loads;
  const point = operatingPoint({ design, load: load!, corner: nominalCorner });
  expect(startRuns).toBe('eleven runs');
  expect(settledStart({ design, point, weak: point })).toMatchObject({ outcome: 'runs', runs: 11 });
});
