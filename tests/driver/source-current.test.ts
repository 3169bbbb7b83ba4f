import { expect, test } from 'vitest';
import { nominalCorner } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { place } from '../../src/driver/time-domain/circuit.ts';
import type { Moment, Peaks } from '../../src/driver/time-domain/run.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { usualPair } from '../../src/driver/usual-pair.ts';
import { designOf, edited, measuredPad } from '../checks/reviewed.ts';

/** Peaks of the start of the tests' pad with nothing near. */
function peaksOf({ see }: { see?: (moment: Moment) => void }, ...changes: readonly (readonly [string, string])[]): Peaks {
  const design = designOf(edited(measuredPad, ...changes));
  const point = operatingPoint({ design, load: design.loads[0]!, corner: nominalCorner });
  const start = timedStart({ design, point, pair: usualPair(point), ...(see === undefined ? {} : { see }) });
  if ('unknown' in start) throw new Error(start.unknown);
  expect(start.outcome).toBe('runs');
  return start.peaks;
}

test('without a bulk capacitor, gates on their own rail, the source gives what the chokes take', () => {
  const { source, supply } = peaksOf({});
  expect(source / supply).toBeCloseTo(1, 2);
});

test('gates that hang on the rail are fed by the source too: by Kirchhoff from the states of every step', () => {
  let highest = 0;
  const see = ({ time, state }: Moment): void => {
    const [chokes, gates] = [state[place.chokeA]! + state[place.chokeB]!, state[place.gateA]! + state[place.gateB]!];
    const own = 18 * Math.min(1, time / 300e-6);
    // rail = E − 60 mΩ·i, i = j + (2·rail − gA − gB)/220 Ω
    const rail = (own - 0.06 * (chokes - gates / 220)) / (1 + (2 * 0.06) / 220);
    highest = Math.max(highest, chokes + (2 * rail - gates) / 220);
  };
  const { source, supply } = peaksOf({ see }, ['from: 12 V', 'from: supply'], ['riseTime: 3 ms', 'riseTime: 300 us']);
  expect(source / highest).toBeCloseTo(1, 3);
  expect(source).toBeGreaterThan(supply);
});

test('a bulk capacitor takes i = C·dV/dt while the rail rises', () => {
  const bulk = ['currentLimit: 5 A', 'currentLimit: 50 A\n  bulkCapacitance: 2200 uF'] as const;
  const { source } = peaksOf({}, bulk);
  // idle, and a ripple of the chokes, flow besides
  expect(source - (2200e-6 * 18) / 3e-3).toBeGreaterThan(0);
  expect(source - (2200e-6 * 18) / 3e-3).toBeLessThan(1);
});
