import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { analysisOf } from '../../src/driver/analysis.ts';
import { assumptionsOf, ratingsUsed } from '../../src/driver/assumptions.ts';
import { nominalCorner } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { quantitiesOf } from '../../src/driver/quantities.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { circuitOf } from '../../src/driver/time-domain/circuit-of.ts';
import type { Circuit } from '../../src/driver/time-domain/circuit.ts';
import { runOf, type Run } from '../../src/driver/time-domain/run.ts';
import type { Design } from '../../src/project/design.ts';
import { designOf, edited, measuredPad, root } from '../checks/reviewed.ts';
import { initialOf, oracle, periodOf, referenceDesign, type ReferenceDesign } from './reference-circuits.ts';

type Capacitances = Circuit['capacitances'];

function runWith(design: ReferenceDesign, capacitances: Capacitances, { steps, tolerance }: { steps: number; tolerance: number }): Run {
  const circuit = { ...design.circuit, capacitances };
  return runOf({
    circuit,
    initial: initialOf(design),
    until: design.until,
    accuracy: { tolerance, longestStep: periodOf(circuit) / steps },
    mostSteps: 1e7,
    watch: () => false,
  });
}

/** Points that are all the constants of a circuit. */
function levelled(constants: Capacitances): Capacitances {
  const level = (capacitance: number): readonly { voltage: number; capacitance: number }[] =>
    [0, 7, 60].map((voltage) => ({ voltage, capacitance }));
  return { ...constants, overVoltage: { gateToDrain: level(constants.gateToDrain), drainToSource: level(constants.drainToSource) } };
}

describe('points that are all alike', () => {
  test.each([
    'live rail, gates on it',
    'leads and bulk capacitor feed the gates',
    'weak switches latch',
    'one choke, own rail, ramp',
    'one choke, weak switches latch',
    'load removed, one choke',
  ])('%s: are the constant', (name) => {
    const design = referenceDesign(name);
    const { capacitances } = design.circuit;
    const accuracy = { steps: 140, tolerance: 1e-4 };
    const [constant, points] = [runWith(design, capacitances, accuracy), runWith(design, levelled(capacitances), accuracy)];
    for (const key of ['drain', 'tank', 'supply', 'choke'] as const)
      expect(Math.abs(points.peaks[key] / constant.peaks[key] - 1), key).toBeLessThan(1e-4);
    expect(Math.abs(points.peaks.gate / constant.peaks.gate - 1)).toBeLessThan(2e-3);
    expect(points.swings.count).toBe(constant.swings.count);
  });
});

test('points matter: the reference circuits with them differ from those without by more than they are held to', () => {
  const { results } = oracle('golden.json') as { results: readonly { name: string; drain: number; supply: number }[] };
  const found = results.filter(({ name }) => name.includes('points: '));
  expect(found.length).toBeGreaterThanOrEqual(10);
  const changes = found.map(({ name, drain, supply }) => {
    const without = results.find((result) => result.name === name.split('points: ')[1])!;
    return Math.max(Math.abs(drain / without.drain - 1), Math.abs(supply / without.supply - 1) / 2);
  });
  expect(changes.filter((change) => change > 1e-3).length).toBeGreaterThanOrEqual(5);
});

describe('a part with points', () => {
  const output = '{source: class, 0 V: 2.6 nF, 5 V: 900 pF, 20 V: 340 pF, 25 V: 315 pF, 100 V: 150 pF}';
  const transfer = '{source: class, 0 V: 1.5 nF, 5 V: 300 pF, 25 V: 83 pF, 50 V: 60 pF}';
  /** The pad of the tests with an invented switch: the ratings of one of parts-db, but for its capacitances. */
  const padWith = (capacitances: string, parallel = 1): Design => {
    const lines = readFileSync(join(root, 'parts-db', 'mosfets', 'IRFP250N.yaml'), 'utf8').split('\n');
    const kept = lines.filter((line) => !/^(tankproofPart|kind|outputCapacitance|reverseTransferCapacitance|#)/.test(line));
    const part = [...kept, ...capacitances.split('\n')].map((line) => `    ${line}`.trimEnd()).join('\n');
    return designOf(edited(measuredPad, ['  part: IRFP250N', `  parallel: ${parallel}\n  part:\n${part}`]));
  };
  const capacitancesFor = (design: Design): Capacitances => {
    const point = operatingPoint({ design, load: design.loads[0]!, corner: nominalCorner });
    const circuit = circuitOf({ design, point, pair: { mismatch: 0.01, strength: 1, junction: 298.15 } });
    if ('unknown' in circuit) throw new Error(circuit.unknown);
    return circuit.capacitances;
  };
  const single = 'outputCapacitance: 315 pF\nreverseTransferCapacitance: 83 pF';

  test('has Crss = Cgd, Coss = Cds + Cgd at each, and the gate that the closed forms take with the drain low', () => {
    const both = padWith(`outputCapacitance: ${output}\nreverseTransferCapacitance: ${transfer}`, 2);
    const { gateToSource, gateToDrain, drainToSource, overVoltage } = capacitancesFor(both);
    expect(overVoltage!.gateToDrain.map(({ voltage }) => voltage)).toEqual([0, 5, 25, 50]);
    expect(overVoltage!.drainToSource.map(({ voltage }) => voltage)).toEqual([0, 5, 20, 25, 50, 100]);
    const inPicofarad = overVoltage!.drainToSource.map(({ capacitance }) => (capacitance / 2) * 1e12);
    // 100 V: the last point of Crss holds on
    for (const [index, expected] of [
      [0, 2600 - 1500],
      [1, 900 - 300],
      [3, 315 - 83],
      [5, 150 - 60],
    ] as const)
      // prettier-ignore
      expect(inPicofarad[index]).toBeCloseTo(expected, 6);
    expect(gateToSource + overVoltage!.gateToDrain[0]!.capacitance).toBeCloseTo(2 * 2 * 2159e-12, 18);
    expect([gateToDrain, drainToSource].map((value) => (value / 2) * 1e12)).toEqual([expect.closeTo(83, 6), expect.closeTo(232, 6)]);
  });

  test('alike at every voltage has the constants of one that gives them once', () => {
    const { overVoltage, ...constants } = capacitancesFor(
      padWith('outputCapacitance: {0 V: 315 pF, 50 V: 315 pF}\nreverseTransferCapacitance: {0 V: 83 pF, 50 V: 83 pF}'),
    );
    expect(constants).toEqual(capacitancesFor(padWith(single)));
    for (const { capacitance } of overVoltage!.drainToSource) expect(capacitance).toBeCloseTo(constants.drainToSource, 20);
    for (const { capacitance } of overVoltage!.gateToDrain) expect(capacitance).toBeCloseTo(constants.gateToDrain, 20);
  });

  test('of one of the two keeps the other constant, Cds a tenth of Coss at least', () => {
    const whole = capacitancesFor(padWith('outputCapacitance: {0 V: 2 nF, 25 V: 315 pF, 100 V: 90 pF}\nreverseTransferCapacitance: 83 pF'));
    expect(whole.overVoltage!.gateToDrain).toEqual([{ voltage: 0, capacitance: whole.gateToDrain }]);
    expect(whole.overVoltage!.drainToSource.at(-1)!.capacitance).toBeCloseTo(9e-12, 20);
    const part = capacitancesFor(padWith(`outputCapacitance: 315 pF\nreverseTransferCapacitance: ${transfer}`));
    expect(part.overVoltage!.drainToSource).toEqual([{ voltage: 0, capacitance: part.drainToSource }]);
    expect(part.overVoltage!.gateToDrain).toHaveLength(4);
    expect(capacitancesFor(padWith(single)).overVoltage).toBeUndefined();
  });

  test('is said to be taken so, each of its points with its source', () => {
    const design = padWith(`outputCapacitance: ${output}`);
    const said = assumptionsOf(analysisOf(design)).filter((line) => line.includes('Capacitance'));
    expect(said).toEqual([
      expect.stringContaining("outputCapacitance in the time domain as a junction's from point to point"),
      expect.stringContaining('gives reverseTransferCapacitance at one drain voltage at most: taken as constant'),
    ]);
    const used = ratingsUsed(design).filter(({ key }) => key === 'outputCapacitance');
    expect(used.map(({ rating }) => [rating.at?.['drainVoltage'], rating.source])).toEqual([0, 5, 20, 25, 100].map((v) => [v, 'class']));
  });

  test('starts, and its load removed peaks, near one without', () => {
    const quantitiesFor = (design: Design): readonly (number | null)[] => {
      const found = quantitiesOf(timedAnalysis(analysisOf(design)));
      return ['drain.peakAtSwitchOn', 'drain.peakAtLoadRemoval'].map((id) => found.findLast((one) => one.id === id)!.value);
    };
    const points = quantitiesFor(padWith(`outputCapacitance: ${output}\nreverseTransferCapacitance: ${transfer}`));
    const constant = quantitiesFor(padWith(single));
    points.forEach((value, index) => {
      expect(value! / constant[index]!).toBeGreaterThan(0.98);
      expect(value! / constant[index]!).toBeLessThan(1.02);
      expect(value).not.toBe(constant[index]);
    });
  });
});
