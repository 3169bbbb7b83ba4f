import { describe, expect, test } from 'vitest';
import type { Result } from '../../src/checks/result.ts';
import { edited, measuredPad, reviewed, reviewedInTime } from './reviewed.ts';

const loads = '  - name: nothing near\n  - name: lantern on the pad\n    power: 25 W\n    frequencyShift: -2 %\n';
const damped = '  - name: lantern on the pad\n    loadedQ: 0.4\n';
const free = '  - name: nothing near\n';

describe.each<[string, (text: string) => ReadonlyMap<string, Result>]>([
  ['in the time domain', reviewedInTime],
  ['in closed form', reviewed],
])('rise-time %s', (_how, of) => {
  test.each([
    ['after', free + damped],
    ['before', damped + free],
  ])('names the load that does not oscillate, listed %s one that does', (_order, list) => {
    const result = of(edited(measuredPad, [loads, list])).get('rise-time')!;
    expect(result).toMatchObject({ verdict: 'not assessed', reason: 'it does not oscillate with this load' });
    expect(result.case).toMatch(/^lantern on the pad/);
  });
});

test('names the load whose start latches, though the drains go higher with the other', () => {
  const heavy = edited(measuredPad, [loads, `${free}  - name: iron in the coil\n    loadedQ: 2\n`], ['riseTime: 3 ms', 'riseTime: 0 s']);
  const results = reviewedInTime(heavy);
  expect(results.get('latch-up')!.verdict).toBe('fail');
  expect(results.get('rise-time')!.case).toMatch(/^iron in the coil/);
});
