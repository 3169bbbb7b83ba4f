import { expect, test } from 'vitest';
import { timeIn } from '../../src/driver/time-domain/recorder.ts';
import { recordingCsv, startupText } from '../../src/report/startup-text.ts';
import { startupEvents } from '../../src/studies/startup.ts';
import { designOf, example } from '../checks/reviewed.ts';

test('a recording of a slow rail tells the times of the run, with what it leaves out', () => {
  const events = startupEvents({ design: designOf(example('charging-pad')), options: {} });
  const [first] = events;
  const { result, recording } = first!;
  if ('unknown' in result || recording?.gap === undefined) throw new Error('the middle of the rise is left out');
  const { slice, count, gap } = recording;
  expect(Math.abs(timeIn(recording, slice * count) - result.at)).toBeLessThan(slice);
  const times = recordingCsv({ recording })
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => Number(line.split(',')[0]));
  expect(Math.abs(times.at(-1)! - result.at)).toBeLessThan(2 * slice);
  const leaps = times.slice(1).flatMap((time, i) => (time - times[i]! > 2 * slice ? [time - times[i]!] : []));
  expect(leaps).toHaveLength(1);
  expect(Math.abs(leaps[0]! - gap.length)).toBeLessThan(2 * slice);
  expect(startupText({ file: 'a.yaml', title: 'pad', events, width: 80 })).toContain('it leaves out');
});
