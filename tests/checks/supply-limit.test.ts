import { describe, expect, test } from 'vitest';
import type { Result } from '../../src/checks/result.ts';
import { startupEvents, latchMap } from '../../src/studies/startup.ts';
import { designOf, edited, example, measuredPad, reviewedInTime } from './reviewed.ts';

/** The tests' pad on another supply. */
const pad = (limit: string, ...changes: readonly (readonly [string, string])[]): string =>
  edited(measuredPad, ['currentLimit: 5 A', `currentLimit: ${limit}`], ...changes);
const liveRail = ['riseTime: 3 ms', 'riseTime: 0 s'] as const;
const kinds = ['hiccup', 'foldback'] as const;

/** Amperes that a remedy asks for. */
function amperesIn(remedy: string | undefined): string {
  const found = /a supply that gives ([\d.]+ A) or more \(supply\.currentLimit\)/.exec(remedy ?? '')?.[1];
  if (found === undefined) throw new Error(`no current in "${remedy}"`);
  return found;
}

describe.each(kinds)('a supply with %s', (kind) => {
  const limit = (current: string): string => `{current: ${current}, kind: ${kind}}`;
  const own: Record<typeof kind, RegExp> = { hiccup: /tries again \(hiccup\)/, foldback: /less and less past its limit \(foldback\)/ };

  test('that never comes to its limit is judged as one of constant current', () => {
    const judged = (text: string): readonly Pick<Result, 'id' | 'verdict' | 'value'>[] =>
      [...reviewedInTime(text).values()].map(({ id, verdict, value }) => ({ id, verdict, value }));
    expect(judged(pad(limit('20 A')))).toEqual(judged(pad('20 A')));
  });

  test('that a start takes to its limit: not assessed, and nothing at switch-on is; the larger one of the remedy passes', () => {
    const results = reviewedInTime(pad(limit('5 A'), liveRail));
    const start = results.get('latch-up')!;
    expect(start.verdict).toBe('not assessed');
    expect(start.reason).toMatch(/the start is undecided with nothing near: it takes [\d.]+ A at its peak, [\d.]+ A with 8 % in reserve/);
    expect(start.reason).toMatch(own[kind]);
    expect(results.get('switch-surge-voltage')!.verdict).toBe('not assessed');
    const mended = reviewedInTime(pad(limit(amperesIn(start.remedy)), liveRail));
    expect(mended.get('latch-up')!.verdict).toBe('pass');
    expect(mended.get('switch-surge-voltage')!.verdict).toBe('pass');
  });

  test('that only a load put on, taken away or a dip takes to its limit: not assessed, with what it must give', () => {
    const result = reviewedInTime(pad(limit('2.4 A'))).get('latch-up')!;
    expect(result.verdict).toBe('not assessed');
    expect(result.reason).not.toMatch(/start is undecided/);
    for (const when of [/when it is put on, the outcome is undecided/, /dips to 50 % for 20 periods, the outcome is undecided/])
      expect(result.reason).toMatch(when);
    expect(reviewedInTime(pad(limit(amperesIn(result.remedy)))).get('latch-up')!.verdict).toBe('pass');
  });

  test('no rise time at which it comes to its limit counts as one that starts', () => {
    const constant = reviewedInTime(pad('5 A', ['riseTime: 3 ms', 'riseTime: 60 us'])).get('rise-time')!;
    expect(constant).toMatchObject({ verdict: 'pass', limit: 0 });
    const quick = reviewedInTime(pad(limit('5 A'), ['riseTime: 3 ms', 'riseTime: 60 us']));
    const result = quick.get('rise-time')!;
    expect(result).toMatchObject({ verdict: 'not assessed', value: null });
    expect(result.reason).toMatch(/^60 µs takes the supply to its limit.* is the shortest: with .* it takes the supply to its limit/);
    const slower = /rises in ([\d.]+ [µm]s) or more/.exec(quick.get('latch-up')!.remedy!)![1]!;
    const mended = reviewedInTime(pad(limit('5 A'), ['riseTime: 3 ms', `riseTime: ${slower}`]));
    expect(mended.get('rise-time')!.verdict).toBe('pass');
    expect(mended.get('latch-up')!.verdict).toBe('pass');
  });

  test('where it cannot carry the running driver no rise time is well', () => {
    expect(reviewedInTime(pad(limit('1.2 A'))).get('rise-time')).toMatchObject({
      verdict: 'not assessed',
      reason: 'no rise time was found with which every load starts within the drain rating',
    });
  });
});

describe('startup', () => {
  const events = (text: string): readonly string[] =>
    startupEvents({ design: designOf(text), options: {} }).map(({ event, load, result }) =>
      'unknown' in result ? `${event}, ${load}: ${result.unknown}` : `${event}, ${load}: ${result.outcome}`,
    );

  test('an event that takes such a supply to its limit is undecided, one that does not runs', () => {
    expect(events(pad('{current: 2.4 A, kind: hiccup}'))).toEqual([
      'switch-on, nothing near: runs',
      'hot-plug, nothing near: undecided',
      'supply drop to 50 %, 20 periods, nothing near: undecided',
      'switch-on, lantern on the pad: runs',
      'hot-plug, lantern on the pad: undecided',
      'load application, lantern on the pad: undecided',
      'load removal, lantern on the pad: runs',
      'supply drop to 50 %, 20 periods, lantern on the pad: undecided',
    ]);
  });

  test('its peaks are those of a supply without limit', () => {
    const peaks = (text: string): readonly object[] =>
      startupEvents({ design: designOf(text), options: {} }).map(({ result }) => ('unknown' in result ? result : result.peaks));
    expect(peaks(pad('{current: 1 A, kind: foldback}'))).toEqual(peaks(edited(measuredPad, ['  currentLimit: 5 A\n', ''])));
  });

  test('what latches without a limit latches', () => {
    const lamp = edited(example('bindery-lamp'), ['currentLimit: 60 A', 'currentLimit: {current: 60 A, kind: hiccup}']);
    expect(events(lamp)[0]).toMatch(/^switch-on, .*: latches$/);
  });

  test('a bulk capacitor that is charged before the gates are released counts', () => {
    const held = (limit: string, rise: string): string =>
      pad(`${limit}\n  bulkCapacitance: 1000 uF`, ['riseTime: 3 ms', `riseTime: ${rise}`], ['power: 2 W', 'power: 2 W\n    hold: true']);
    const first = (text: string): string => events(text)[0]!;
    expect(first(held('{current: 10 A, kind: hiccup}', '1 ms'))).toMatch(/undecided$/);
    // 1000 uF to 18 V within 10 ms take 1.8 A
    expect(first(held('{current: 10 A, kind: hiccup}', '10 ms'))).toMatch(/runs$/);
    expect(first(held('10 A', '1 ms'))).toMatch(/runs$/);
  });

  test('the map of rise times marks them', () => {
    const { outcomes } = latchMap({
      design: designOf(pad('{current: 5 A, kind: hiccup}')),
      riseTimes: [0, 3e-3],
      voltages: [18],
      options: {},
      progress: () => undefined,
    });
    expect(outcomes).toEqual([['undecided', 'runs']]);
  });
});
