import { describe, expect, test } from 'vitest';
import { projectPolicies } from '../../src/checks/read-policies.ts';
import { reviewOf } from '../../src/checks/review.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { bringupCard, type BringupCard } from '../../src/studies/bringup/card.ts';
import { gateTest } from '../../src/studies/bringup/gate-test.ts';
import { defaults, designOf, edited, example, measuredPad, quantity } from '../checks/reviewed.ts';

function cardOf(text: string): BringupCard {
  const design = designOf(text);
  const policies = projectPolicies({ policies: defaults, design });
  if (!policies.ok) throw new Error('limits');
  const analysis = timedAnalysis(analysisOf(design));
  return bringupCard({ analysis, results: reviewOf({ analysis, policies: policies.value }) });
}

describe('the measured pad', () => {
  const card = cardOf(measuredPad);

  test('its last step reads what check prints as nominal', () => {
    const last = card.steps.at(-1)!;
    expect(last.idle.frequency).toBeCloseTo(quantity(measuredPad, 'tank.frequency')!, 6);
    expect(last.idle.drainPeak).toBeCloseTo(quantity(measuredPad, 'drain.peak')!, 9);
    expect(last.voltage).toBe(18);
  });

  test('a step reads what a project of that voltage and the same load resistance does', () => {
    const [first] = card.steps;
    const text = edited(measuredPad, ['voltage: 18 V', 'voltage: 7.2 V'], ['power: 25 W', 'parallelResistance: 63.9550 ohm']);
    expect(first!.idle.drainPeak).toBeCloseTo(quantity(text, 'drain.peak')!, 9);
  });

  test('every limit lies past what is expected, and a step draws less than the limit that is set', () => {
    for (const { idle, loaded, abort, past } of card.steps) {
      expect(past).toEqual([]);
      expect(abort.idleAbove).toBeGreaterThan(idle.supplyCurrentIdle as number);
      expect(abort.loadedAbove!).toBeGreaterThan(idle.supplyCurrentLoaded as number);
      expect(abort.loadedAbove!).toBeLessThanOrEqual(card.supply.limit);
      expect(abort.drainAbove).toBeGreaterThan(idle.drainPeak as number);
      expect(abort.frequencyBelow).toBeLessThan(loaded!.frequency as number);
      expect(abort.frequencyAbove).toBeGreaterThan(idle.frequency as number);
    }
  });

  test('no limit lies past a rating: at twenty times the coil’s loss the drains still end at 0.8 of 200 V', () => {
    for (const { abort } of card.steps) expect(abort.surgeAbove!).toBeLessThanOrEqual(160);
  });
});

test('a coil without its geometry is not assessed: do not power up', () => {
  const { blockers } = cardOf(measuredPad);
  expect(blockers.map(({ id }) => id)).toContain('coil-temperature');
  expect(blockers.every(({ verdict }) => verdict === 'fail' || verdict === 'not assessed')).toBe(true);
});

test('a step at which the start is no sure one is left out with the reason', () => {
  const { steps } = cardOf(example('bindery-lamp'));
  expect(steps.at(-1)!.leftOut).toContain('latches');
  expect(steps[0]!.leftOut).toBeUndefined();
});

test('gates from the supply hang below their threshold at a low one: no step there', () => {
  const text = edited(
    measuredPad,
    ['from: 12 V', 'from: supply'],
    ['voltage: 18 V', 'voltage: 9 V'],
    ['resistance: 220 ohm', 'resistance: 470 ohm'],
  );
  const { steps } = cardOf(text);
  expect(steps[0]!.voltage).toBeCloseTo(3.6, 9);
  expect(steps[0]!.leftOut).toBeDefined();
});

describe('the gates alone', () => {
  test('with the diodes in they end between the thresholds, not at the gate rail', () => {
    const { tied, freed, limit } = gateTest(designOf(measuredPad));
    // 12 V through 220 Ω into IRFP250N, 2 V to 4 V: by hand √(2·I/K) adds 0.1 V
    expect(tied.low).toBeGreaterThan(2);
    expect(tied.low).toBeLessThan(2.3);
    expect(tied.high).toBeLessThan(4.3);
    expect(freed.value).toBeCloseTo((12 * 10e3) / 10.22e3, 9);
    expect(limit).toBeCloseTo((1.2 * 2 * 12) / 220, 9);
  });

  test('a clamp that stands takes twice what it takes running', () => {
    const text = edited(measuredPad, ['from: 12 V', 'from: 24 V']);
    const { clamp, freed } = gateTest(designOf(text));
    // 1N4744A, 15 V ± 5 %: highest at the end of its tolerance next to half the feed
    const vz = 15 * 0.95;
    expect(clamp!.power).toBeCloseTo(vz * ((24 - vz) / 220 - vz / 10e3), 9);
    expect(freed.value).toBe(15);
  });
});

describe('the lamp', () => {
  test('leaves nine tenths of the supply to the idle driver', () => {
    const { lamp, supply } = cardOf(example('charging-pad'));
    if ('none' in lamp) throw new Error(lamp.none);
    expect(lamp.rail).toBeGreaterThanOrEqual(0.9 * supply.voltage);
    expect(lamp.ratedVoltage * lamp.lamps * 1.15).toBeGreaterThanOrEqual(supply.voltage);
  });

  test('is none where the idle current is too high for one', () => {
    expect(cardOf(example('scrap-box-smelter')).lamp).toHaveProperty('none');
  });
});
