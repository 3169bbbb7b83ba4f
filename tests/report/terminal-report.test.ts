import { expect, test } from 'vitest';
import type { Result } from '../../src/checks/result.ts';
import { terminalReport } from '../../src/report/terminal.ts';

const result = (changes: Partial<Result>): Result => ({
  id: 'loaded-q',
  part: 'oscillation',
  title: 'quality',
  subject: 'tank',
  case: 'empty',
  verdict: 'pass',
  value: 10,
  limit: 2,
  warnAt: 5,
  dimension: 'count',
  sense: 'at-least',
  margin: 4,
  at: { path: 'p.yaml', line: 1, column: 1, offset: 0, length: 1 },
  basis: [],
  ...changes,
});

const printed = (results: readonly Result[]): string =>
  terminalReport({
    report: {
      file: 'p.yaml',
      title: 'a pad',
      quantities: [
        { id: 'tank.frequency', value: 1e5, dimension: 'frequency', case: 'empty' },
        { id: 'switch.temperature', value: 320, dimension: 'temperature', case: 'empty' },
      ],
      results,
      cautions: [],
      assumptions: [],
      ratings: [
        {
          part: 'X',
          key: 'drainVoltage',
          rating: { value: 200, source: 'memory', where: { path: 'p.yaml', line: 1, column: 1, offset: 0, length: 1 } },
        },
      ],
    },
    style: { width: 80, colourLevel: 0, all: false },
  });

test('results that wait for one other check are told in one line, once', () => {
  const waiting = (id: string, part: Result['part']): Result =>
    result({ id, part, verdict: 'not assessed', value: null, margin: null, reason: 'the start latches: see latch-up' });
  const text = printed([waiting('switch-surge-voltage', 'switches'), waiting('choke-peak-current', 'chokes'), result({})]);
  expect([...text.matchAll(/see latch-up/g)]).toHaveLength(1);
  expect(text).toContain('not assessed: the start latches: see latch-up\n    switch-surge-voltage, choke-peak-current');
  // one alone stays with its part
  expect(printed([waiting('switch-surge-voltage', 'switches'), result({})])).toMatch(/ {2}switches\n {4}not assessed {2}switch-surge/);
  // what became of a waiver is told with its result
  const at = { path: 'team.yaml', line: 3, column: 5, offset: 0, length: 1 };
  const waiver = { id: '', file: '*', reason: 'known', expires: '2027-12-31', at, expired: false };
  const waived = { ...waiting('switch-surge-voltage', 'switches'), waiver };
  expect(printed([waived, waiting('choke-peak-current', 'chokes')])).toContain('waived until 2027-12-31: known (team.yaml:3:5)');
});

test('a limit that only warns shows no margin below zero', () => {
  const text = printed([result({ verdict: 'warn', value: 0, margin: -1 })]);
  expect(text).toContain('past, warns');
  expect(text).not.toContain('−100 %');
  expect(printed([result({ verdict: 'fail', value: 0, margin: -1 })])).toContain('−100 %');
});

test('a junction temperature that no check stands for is told as a guess', () => {
  const doubtful = result({ id: 'switch-temperature', part: 'switches', verdict: 'not assessed', value: null, reason: 'slow gates' });
  expect(printed([doubtful]).replaceAll(/\s+/g, ' ')).toContain('junction not assessed, would be about 46.9 °C');
  expect(printed([result({})]).replaceAll(/\s+/g, ' ')).toContain('junction 46.9 °C');
});

test('the sources of ratings that occur are explained, no others', () => {
  const text = printed([result({})]);
  expect(text).toContain('memory: recalled, not read again');
  expect(text).not.toContain('sibling');
});
