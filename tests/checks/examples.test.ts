import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkIds } from '../../src/checks/registry.ts';
import { edited, example, reviewedInTime, root } from './reviewed.ts';

const names = readdirSync(join(root, 'examples')).flatMap((file) => (file.endsWith('.yaml') ? [file.replace('.yaml', '')] : []));
const results = new Map(names.map((name) => [name, reviewedInTime(example(name))]));
const verdictOf = (name: string, id: string): string => results.get(name)!.get(id)!.verdict;

test('there are at least six examples', () => {
  expect(names.length).toBeGreaterThanOrEqual(6);
});

describe.each(checkIds)('%s', (id) => {
  test('passes in one example, and warns or fails in another', () => {
    const verdicts = names.map((name) => results.get(name)!.get(id)?.verdict);
    expect(verdicts).toContain('pass');
    expect(verdicts.some((verdict) => verdict === 'warn' || verdict === 'fail')).toBe(true);
  });
});

test('the charging pad passes everything', () => {
  expect([...results.get('charging-pad')!.values()].filter(({ verdict }) => verdict !== 'pass')).toEqual([]);
});

test('the bolt heater overheats its bank, the igniter has diodes that are too slow', () => {
  expect(verdictOf('bolt-heater', 'capacitor-self-heating')).toBe('fail');
  expect(verdictOf('spark-igniter', 'cross-diode-recovery')).toBe('fail');
});

describe('the bindery lamp', () => {
  test('latches when it is plugged onto a live rail, which only the time domain finds', () => {
    const lamp = results.get('bindery-lamp')!;
    expect(lamp.get('latch-up')!.verdict).toBe('fail');
    expect(lamp.get('hold-off-running')!.verdict).toBe('pass');
  });

  test('runs with the rise time that the remedy names', () => {
    const rise = /rises in (\S+ \S+) or more/.exec(results.get('bindery-lamp')!.get('latch-up')!.remedy!)![1]!;
    const slower = reviewedInTime(edited(example('bindery-lamp'), ['riseTime: 0 s', `riseTime: ${rise.replace('µ', 'u')}`]));
    expect(['pass', 'warn']).toContain(slower.get('latch-up')!.verdict);
  });
});
