import { expect, test } from 'vitest';
import { meanCurrent, type MeanCurrent } from '../../src/driver/time-domain/mean-current.ts';

/** Feeds a current as a function of time, 100 looks a second, to windows of a second. */
function fed(current: (time: number) => number, { from, until }: { from: number; until: number }): MeanCurrent {
  const mean = meanCurrent({ window: 1 });
  for (let i = 0; i <= until * 100; i++) mean.see(i / 100, current(i / 100), from);
  return mean;
}

test('there is no mean before a whole window has passed', () => {
  expect(fed(() => 3, { from: 2, until: 2.9 }).last).toBeUndefined();
  expect(fed(() => 3, { from: 2, until: 3.5 }).last).toBeCloseTo(3, 9);
});

test('whole periods average out', () => {
  const ringing = fed((time) => 5 + 4 * Math.sin(2 * Math.PI * time), { from: 0.25, until: 4 });
  expect(ringing.last).toBeCloseTo(5, 2);
  expect(ringing.isSteady(1.05)).toBe(true);
});

test('a current that grows by a third from window to window is steady neither from one to the next nor within one', () => {
  const growing = fed((time) => 1.33 ** time, { from: 0, until: 3.2 });
  expect([growing.isSteady(1.05), growing.isSteady(1.35), growing.isSteadyWithin(1.05), growing.isSteadyWithin(1.2)]).toEqual([
    false,
    true,
    false,
    true,
  ]);
  expect(fed((time) => 0.9 ** time, { from: 0, until: 1.2 }).isSteadyWithin(1.05)).toBe(true);
  expect(fed((time) => 0.9 ** time, { from: 0, until: 1.2 }).isSteady(1.05)).toBe(false);
});

test('the windows begin anew where their beginning moves, and stand still at infinity', () => {
  const mean = meanCurrent({ window: 1 });
  const see = (time: number, from: number): void => mean.see(time, 7, from);
  for (let i = 0; i <= 150; i++) see(i / 100, 0);
  expect(mean.last).toBeCloseTo(7, 9);
  see(1.51, Infinity);
  expect(mean.last).toBeUndefined();
  for (let i = 160; i <= 250; i++) see(i / 100, 1.6);
  expect(mean.last).toBeUndefined();
});
