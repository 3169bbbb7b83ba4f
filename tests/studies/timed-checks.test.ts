import { expect, test } from 'vitest';
import { checkIds } from '../../src/checks/registry.ts';
import type { Result } from '../../src/checks/result.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { quantitiesOf } from '../../src/driver/quantities.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { timedChecks, timedQuantities } from '../../src/studies/timed-checks.ts';
import { designOf, example, reviewed, reviewedInTime } from '../checks/reviewed.ts';

const judged = ({ verdict, value, limit, margin, case: where, reason }: Result): object => ({
  verdict,
  value,
  limit,
  margin,
  where,
  reason,
});

test('every timed check is one', () => {
  expect([...timedChecks].filter((id) => !checkIds.includes(id))).toEqual([]);
});

test.each(['bindery-lamp', 'live-rail-lamp', 'scrap-box-smelter'])('all others say the same of %s without the time domain', (name) => {
  const [closed, timed] = [reviewed(example(name)), reviewedInTime(example(name))];
  for (const [id, result] of timed) if (!timedChecks.has(id)) expect({ id, ...judged(closed.get(id)!) }).toEqual({ id, ...judged(result) });
  expect([...timed.keys()]).toEqual([...closed.keys()]);
});

test('all other quantities are the same without the time domain, and those are not', () => {
  const closed = analysisOf(designOf(example('charging-pad')));
  const timed = quantitiesOf(timedAnalysis(closed));
  const unlike = quantitiesOf(closed).flatMap(({ id, value }, i) => (timed[i]!.value === value ? [] : [id]));
  expect(new Set(unlike)).toEqual(timedQuantities);
});
