import { describe, expect, test } from 'vitest';
import { analysisOf } from '../../src/driver/analysis.ts';
import { nominalCorner } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { circuitOf } from '../../src/driver/time-domain/circuit-of.ts';
import { stateCount } from '../../src/driver/time-domain/circuit.ts';
import { measuresOf } from '../../src/driver/time-domain/measures.ts';
import { accuracyOf, usualEffort } from '../../src/driver/time-domain/effort.ts';
import { finished } from '../../src/driver/time-domain/outcome.ts';
import { stretch } from '../../src/driver/time-domain/stretch.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { usualPair } from '../../src/driver/usual-pair.ts';
import { designOf, edited, measuredPad, reviewedInTime } from './reviewed.ts';

const limited = (limit: string): string => edited(measuredPad, ['currentLimit: 5 A', `currentLimit: ${limit}`]);

describe('a supply of constant current that gives much less than the driver takes', () => {
  const text = edited(limited('1 mA\n  bulkCapacitance: 470 uF'), ['resistance: 60 mohm', 'resistance: 100 ohm']);

  test('is found without a step of the solver, and nothing that rests on a start passes', () => {
    const analysis = timedAnalysis(analysisOf(designOf(text)));
    expect(analysis.starts).toEqual(
      analysis.design.loads.map(() => ({ unknown: expect.stringMatching(/^the supply gives 1 mA of the [\d.]+ mA that/) as string })),
    );
    const results = reviewedInTime(text);
    expect(analysis.probe!.steps()).toBe(0);
    for (const id of ['latch-up', 'rise-time', 'switch-surge-voltage', 'choke-peak-current', 'cross-diode-voltage'])
      expect(results.get(id), id).toMatchObject({ verdict: 'not assessed' });
    expect(results.get('supply-current')!.verdict).toBe('fail');
  });

  test('the remedy of latch-up is a supply that feeds it', () => {
    const { verdict, remedy } = reviewedInTime(limited('1 mA')).get('latch-up')!;
    expect(verdict).toBe('not assessed');
    const current = /^a supply for ([\d.]+ A) or more/.exec(remedy!)![1]!;
    const mended = reviewedInTime(limited(current));
    expect(mended.get('supply-current')!.verdict).toBe('pass');
    expect(mended.get('latch-up')!.verdict).toBe('pass');
  });
});

describe.each([0, 1])('load %i: the share of the running current from which on it is run', (index) => {
  const design = designOf(measuredPad);
  const load = design.loads[index]!;
  const point = operatingPoint({ design, load, corner: nominalCorner });
  const running = point.running!;
  const on = (share: number): typeof design => ({
    ...design,
    supply: { ...design.supply, currentLimit: { current: share * running.supplyCurrent, kind: 'constant' } },
  });

  test('just below it the solver finds nothing that runs', () => {
    const starved = on(0.24);
    expect(timedStart({ design: starved, point, pair: usualPair(point) })).toHaveProperty('unknown');
    const circuit = circuitOf({ design: starved, point, pair: usualPair(point) });
    if ('unknown' in circuit) throw new Error(circuit.unknown);
    const measures = { ...measuresOf({ design: starved, point, running, circuit }), mayRest: false };
    const end = stretch({
      circuit,
      measures,
      accuracy: accuracyOf({ circuit, effort: usualEffort }),
      mostSteps: usualEffort.mostSteps,
      initial: new Float64Array(stateCount(circuit)),
    });
    expect(finished({ circuit, measures, ...end }).outcome).not.toBe('runs');
  });
  test('above it is run', () => {
    expect(timedStart({ design: on(0.26), point, pair: usualPair(point) })).toHaveProperty('outcome');
  });
});
