import { describe, expect, test } from 'vitest';
import { cornersOf } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { stateCount, type Circuit } from '../../src/driver/time-domain/circuit.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { circuitOf } from '../../src/driver/time-domain/circuit-of.ts';
import { equationsOf } from '../../src/driver/time-domain/circuit-equations.ts';
import { measuresOf } from '../../src/driver/time-domain/measures.ts';
import { accuracyOf, usualEffort } from '../../src/driver/time-domain/effort.ts';
import { stretch } from '../../src/driver/time-domain/stretch.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { designOf, edited, example } from '../checks/reviewed.ts';

const pair = { mismatch: 0.02, strength: 1, junction: 300 };

/** The start of a project's load, with the shortcut of a slow rail and followed through without it. */
function starts({ text, load: index }: { text: string; load: number }): {
  short: number;
  whole: number;
  stepsShort: number;
  stepsWhole: number;
} {
  const design = designOf(text);
  const point = operatingPoint({ design, load: design.loads[index]!, corner: cornersOf(design).at(-1)! });
  const short = timedStart({ design, point, pair });
  const circuit = circuitOf({ design, point, pair }) as Circuit;
  const measures = { ...measuresOf({ design, point, running: point.running!, circuit }), mayRest: false };
  const whole = stretch({
    circuit,
    measures,
    accuracy: accuracyOf({ circuit, effort: usualEffort }),
    mostSteps: 1e6,
    initial: new Float64Array(stateCount(circuit)),
  });
  if ('unknown' in short) throw new Error(short.unknown);
  expect([short.outcome, whole.verdict]).toEqual(['runs', 'runs']);
  return { short: short.peaks.drain, whole: whole.run.peaks.drain, stepsShort: short.steps, stepsWhole: whole.run.steps };
}

describe('a rail that takes many envelope periods to come up', () => {
  test.each([
    ['gates on the rising supply', edited(example('barn-charger'), ['riseTime: 5 ms', 'riseTime: 12 ms']), 0],
    ['gates on the rising supply, loaded', edited(example('barn-charger'), ['riseTime: 5 ms', 'riseTime: 12 ms']), 1],
    ['gates on their own rail, bulk capacitor', edited(example('charging-pad'), ['riseTime: 3 ms', 'riseTime: 8 ms']), 1],
  ])('is skipped while it swings, and the peaks are those of the whole run, never lower: %s', (_name, text, load) => {
    const { short, whole, stepsShort, stepsWhole } = starts({ text, load });
    expect(short).toBeGreaterThan(0.995 * whole);
    expect(short).toBeLessThan(1.02 * whole);
    expect(stepsShort).toBeLessThan(stepsWhole / 2);
  });

  test('is not skipped where the limit of the supply holds the driver back: its drains do not grow with the rail', () => {
    const heldBack = edited(
      example('charging-pad'),
      ['riseTime: 3 ms', 'riseTime: 8 ms'],
      ['  bulkCapacitance: 470 uF # at the driver\n', ''],
      ['  leadInductance: 1 uH\n', ''],
      ['currentLimit: 5 A', 'currentLimit: 1.1 A'],
    );
    const { short, whole } = starts({ text: heldBack, load: 1 });
    expect(short / whole).toBeCloseTo(1, 6);
  });

  test('a rise time is asked with a limit that is come to only once the rail is up, though the start without it ends before', () => {
    const stepsWith = (limit: string): number => {
      const { probe } = timedAnalysis(
        analysisOf(designOf(edited(example('charging-pad'), ['currentLimit: 5 A', `currentLimit: ${limit}`]))),
      );
      probe!.start({ riseTime: 3e-3, load: 0 });
      probe!.start({ riseTime: 3e-3, load: 1 });
      const before = probe!.steps();
      for (let load = 0; load < probe!.loads; load++)
        expect(['runs', 'unfinished']).toContain(probe!.start({ riseTime: 12e-3, load }).outcome);
      return probe!.steps() - before;
    };
    // one load takes 1.5 A: with 1.6 A it may be held back, and is followed to its end
    expect(stepsWith('1.6 A')).toBeGreaterThan(1.5 * stepsWith('5 A'));
  });

  test('nothing is at rest that can grow: a gate near its threshold or a swinging tank', () => {
    const design = designOf(example('barn-charger'));
    const point = operatingPoint({ design, load: design.loads[0]!, corner: cornersOf(design).at(-1)! });
    const circuit = circuitOf({ design, point, pair }) as Circuit;
    const equations = equationsOf(circuit);
    const { threshold } = circuit.switches[0];
    const state = (drainA: number, gateA: number): Float64Array => Float64Array.of(drainA, 1, 0, 0, 0, gateA, 1, 0, 0);
    expect(equations.isAtRest(state(1, 1))).toBe(true);
    expect(equations.isAtRest(state(1.6, 1))).toBe(false);
    expect(equations.isAtRest(state(1, threshold - 0.05))).toBe(false);
  });
});
