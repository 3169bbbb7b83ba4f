import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Outcome, TimedEvent } from '../../src/driver/time-domain/outcome.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { nominal, type RandomDesign } from './random-design.ts';

/** A design and what SciPy makes of its start, see tests/oracle/random_designs.py. */
interface Reference {
  readonly design: RandomDesign;
  readonly outcome: Outcome;
  readonly drain: number;
  readonly supply: number;
  /** Outcomes at other supply voltages, by their share of the design's; of designs that the solver takes otherwise. */
  readonly near?: Readonly<Record<string, Outcome>>;
  /** Outcome of a run that is followed to its end even where it ran before; of the same designs. */
  readonly atEnd?: Outcome;
}

const path = join(import.meta.dirname, '..', 'oracle', 'random-outcomes.json');
const { designs } = JSON.parse(readFileSync(path, 'utf8')) as { designs: readonly Reference[] };

/** The start by the solver of the tool. */
function started(d: RandomDesign): TimedEvent {
  const end = timedStart({ ...nominal(d), pair: { mismatch: d.mismatch, strength: 1, junction: 298.15 } });
  if ('unknown' in end) throw new Error(end.unknown);
  return end;
}

const number = (outcome: Outcome): number => designs.filter((reference) => reference.outcome === outcome).length;

test('the reference covers 300 starts that run, latch and stall', () => {
  expect(designs).toHaveLength(300);
  expect(number('runs')).toBeGreaterThan(150);
  expect(number('latches')).toBeGreaterThan(50);
  expect(number('stalls')).toBeGreaterThan(5);
});

describe('every start of the reference', () => {
  const found: TimedEvent[] = [];
  beforeAll(() => {
    for (const { design } of designs) found.push(started(design));
  }, 600_000);
  const both = (): readonly { index: number; reference: Reference; end: TimedEvent }[] =>
    designs.map((reference, index) => ({ index, reference, end: found[index]! }));

  test('comes to the same outcome, except where 3 % of the supply voltage change that of the reference, or its own end does', () => {
    const apart = both().filter(({ reference, end }) => end.outcome !== reference.outcome);
    const explained = ({ near = {}, atEnd }: Reference): readonly (Outcome | undefined)[] => [...Object.values(near), atEnd];
    const unexplained = apart.filter(({ reference, end }) => end.outcome !== 'undecided' && !explained(reference).includes(end.outcome));
    expect(unexplained.map(({ index, reference, end }) => `${index}: ${reference.outcome}, here ${end.outcome}`)).toEqual([]);
    expect(apart.length).toBeLessThanOrEqual(3);
    expect(apart.filter(({ end }) => end.outcome === 'runs')).toEqual([]);
  });

  test('has no peak that is lower by more than 0.5 % (drains) or 7 % (chokes)', () => {
    for (const { index, reference, end } of both()) {
      if (reference.outcome !== 'runs' || end.outcome !== 'runs') continue;
      expect(end.peaks.drain / reference.drain, `drain of design ${index}`).toBeGreaterThan(0.995);
      expect(end.peaks.supply / reference.supply, `supply of design ${index}`).toBeGreaterThan(0.93);
    }
  });

  test('has peaks that are higher by more than 3 % in one of ten at most: a longer run, or a slow rail that was skipped', () => {
    const running = both().filter(({ reference, end }) => reference.outcome === 'runs' && end.outcome === 'runs');
    const higher = running.filter(({ reference, end }) => end.peaks.drain > 1.03 * reference.drain);
    expect(higher.length / running.length).toBeLessThan(0.1);
    for (const { index, reference, end } of higher) expect(end.peaks.drain / reference.drain, `design ${index}`).toBeLessThan(1.3);
  });
});
