import { expect, test } from 'vitest';
import { meanCurrent } from '../../src/driver/time-domain/mean-current.ts';

/** Feeds a current as a function of time, 100 looks a second. */
function fed(current: (time: number) => number, { from, until }: { from: number; until: number }): { last?: number; before?: number } {
  const mean = meanCurrent({ window: 1 });
  for (let i = 0; i <= until * 100; i++) mean.see({ time: i / 100, current: current(i / 100), from });
  return { ...(mean.last === undefined ? {} : { last: mean.last }), ...(mean.before === undefined ? {} : { before: mean.before }) };
}

test('there is no mean before a whole window has passed', () => {
  expect(fed(() => 3, { from: 2, until: 2.9 })).toEqual({});
  expect(fed(() => 3, { from: 2, until: 3.5 }).last).toBeCloseTo(3, 9);
});

test('whole periods average out, and a current that grows has a higher mean each time', () => {
  expect(fed((time) => 5 + 4 * Math.sin(2 * Math.PI * time), { from: 0.25, until: 4 }).last).toBeCloseTo(5, 2);
  const growing = fed((time) => time, { from: 0, until: 3 });
  expect(growing.last! - growing.before!).toBeCloseTo(1, 1);
});

test('the windows begin anew where their beginning moves, and stand still at infinity', () => {
  const mean = meanCurrent({ window: 1 });
  const see = (time: number, from: number): void => mean.see({ time, current: 7, from });
  for (let i = 0; i <= 150; i++) see(i / 100, 0);
  expect(mean.last).toBeCloseTo(7, 9);
  see(1.51, Infinity);
  expect(mean.last).toBeUndefined();
  for (let i = 160; i <= 250; i++) see(i / 100, 1.6);
  expect(mean.last).toBeUndefined();
});
