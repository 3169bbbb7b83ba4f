import { describe, expect, test } from 'vitest';
import { nominalCorner } from '../../src/driver/corner.ts';
import { latchedPair, type LatchedPair } from '../../src/driver/latched-pair.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import type { Design } from '../../src/project/design.ts';
import { designOf, example } from '../checks/reviewed.ts';

const lamp = designOf(example('bindery-lamp'));

function latched(design: Design, from = 0): LatchedPair {
  const result = latchedPair({ design, point: operatingPoint({ design, load: design.loads[0]!, corner: nominalCorner }), from });
  if ('unknown' in result) throw new Error(result.unknown);
  return result;
}

function supplied(supply: Partial<Design['supply']>): Design {
  return { ...lamp, supply: { ...lamp.supply, ...supply } };
}

describe('a pair that stays on', () => {
  test('draws its current through the chokes: V/Le against the clock until the limit acts', () => {
    // 27 V less some 2.5 V on the drains across 50 µH: 60 A take about 120 µs, less for what saturation gives away
    const { limitAt } = latched(lamp);
    expect(limitAt).toBeGreaterThan(40e-6);
    expect(limitAt).toBeLessThan(140e-6);
  });
  test('twice the limit overheats it sooner, a tenth not within a second', () => {
    const [once, twice] = [60, 120].map((current) => latched(supplied({ currentLimit: { current, kind: 'constant' } })).tooHotAt!);
    expect(twice).toBeLessThan(once! / 2);
    expect(latched(supplied({ currentLimit: { current: 6, kind: 'constant' } })).tooHotAt).toBeUndefined();
  });
  test('the time to a temperature goes with the square of one over the loss, below the settling time of its case', () => {
    // at a limit that is reached at once the loss is steady: ΔT = P·R·√(t/τ)
    const loss = (current: number): number => (current / 2) * latchedVoltage(current);
    const times = [60, 90].map((current) => latched(supplied({ currentLimit: { current, kind: 'constant' } }), current).tooHotAt!);
    expect(times[0]! / times[1]!).toBeCloseTo((loss(90) / loss(60)) ** 2, 0);
  });
  test('is unknown without the ratings it needs', () => {
    const { junctionToCase: _left, ...ratings } = lamp.switches.mosfet.ratings;
    const design = { ...lamp, switches: { ...lamp.switches, mosfet: { ...lamp.switches.mosfet, ratings } } };
    const point = operatingPoint({ design: lamp, load: lamp.loads[0]!, corner: nominalCorner });
    expect(latchedPair({ design, point, from: 0 })).toEqual({ unknown: 'IRFP460 gives no junctionToCase' });
  });
});

/** Drain voltage of a latched IRFP460 pair at a hot junction, worked by hand: the larger of half the current in Ron and what holds the gate. */
function latchedVoltage(current: number): number {
  return Math.max((current / 2) * 0.27 * 1.05, 3 - 0.7 + Math.sqrt(current / 12));
}
