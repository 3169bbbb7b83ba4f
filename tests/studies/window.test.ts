import { describe, expect, test } from 'vitest';
import { reviewOf, standingsOf } from '../../src/checks/review.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { DesignError } from '../../src/driver/design-error.ts';
import type { Design } from '../../src/project/design.ts';
import { ladder, wellRanges } from '../../src/studies/limit-ladder.ts';
import { supplyWindow, windowStudy, type WindowStudy } from '../../src/studies/window.ts';
import { failingIn } from '../../src/studies/window-designs.ts';
import { defaults as policies, designOf, edited, example, reviewedInTime } from '../checks/reviewed.ts';
import { randomDesigns } from './random-designs.ts';

/** Ids that fail, as `check --closed-form` has them. */
function failing(design: Design): readonly string[] {
  return standingsOf({ analysis: analysisOf(design), policies }).flatMap(({ id, verdict }) => (verdict === 'fail' ? [id] : []));
}

test('how checks stand without words is what check says', () => {
  for (const name of ['scrap-box-smelter', 'charging-pad', 'vent-opener']) {
    const analysis = analysisOf(designOf(example(name)));
    const facts = ({ id, verdict, value }: { id: string; verdict: string; value: number | null }): unknown[] => [id, verdict, value];
    expect(standingsOf({ analysis, policies }).map(facts)).toEqual(reviewOf({ analysis, policies }).map(facts));
  }
});

/** A design at another voltage, its loads held by a power that grows with the square of the voltage. */
function at(design: Design, voltage: number): Design {
  const scale = (voltage / design.supply.voltage) ** 2;
  const loads = design.loads.map((load) => (load.power === undefined ? load : { ...load, power: load.power * scale }));
  return { ...design, supply: { ...design.supply, voltage }, loads };
}

function study(design: Design, over: Partial<Parameters<typeof windowStudy>[0]> = {}): WindowStudy {
  const { voltage } = design.supply;
  return windowStudy({
    design,
    policies,
    depth: 'closed form',
    from: 0.2 * voltage,
    to: 2.5 * voltage,
    progress: () => undefined,
    ...over,
  });
}

describe('a search along a grid', () => {
  const places = [0, 10, 20, 30, 40];
  const where = (of: Readonly<Record<string, (x: number) => boolean>>) => (x: number) =>
    new Set(Object.keys(of).filter((id) => of[id]!(x)));

  test('finds a window, a hole in it, and one that lies between two places', () => {
    const hole = where({ low: (x) => x < 7, hole: (x) => x > 15 && x < 25, high: (x) => x > 33 });
    expect(wellRanges({ places, failing: hole })).toEqual([
      { low: 7, high: 15, setsLow: ['low'], setsHigh: ['hole'] },
      { low: 25, high: 33, setsLow: ['hole'], setsHigh: ['high'] },
    ]);
    const narrow = where({ low: (x) => x < 13, high: (x) => x > 17 });
    expect(wellRanges({ places, failing: narrow })).toEqual([{ low: 13, high: 17, setsLow: ['low'], setsHigh: ['high'] }]);
    const none = where({ low: (x) => x < 17, high: (x) => x > 13 });
    expect(wellRanges({ places, failing: none })).toEqual([]);
  });

  test('climbs from limit to limit, each with the ones before it left out', () => {
    const input = { places, failing: where({ a: (x) => x > 12, b: (x) => x > 12, c: (x) => x > 28 }) };
    expect(ladder({ input, from: 12, direction: 1, rungs: 5 })).toEqual([
      { index: 12, checks: ['a', 'b'] },
      { index: 28, checks: ['c'] },
      { index: 40, checks: [] },
    ]);
  });
});

describe('a hundred random designs against brute force in closed form', () => {
  const found = randomDesigns({ count: 100, seed: 41 }).map((whole) => {
    // four corners in place of sixteen: what is looked at here is the search
    const design: Design = {
      ...whole,
      supply: { ...whole.supply, tolerance: 0 },
      tank: { ...whole.tank, coil: { ...whole.tank.coil, tolerance: 0 } },
    };
    try {
      const { voltage: own } = design.supply;
      const ends = { from: 0.2 * own, to: 2.5 * own };
      const supply = supplyWindow({ design, policies, depth: 'closed form', ...ends, failingNow: [], progress: () => undefined });
      const step = Math.max(0.5, Number((design.supply.voltage / 10).toFixed(1)));
      const voltages = Array.from({ length: Math.floor((supply.to - supply.from) / step) }, (_, i) =>
        Number((supply.from + i * step).toFixed(1)),
      );
      return { design, supply, brute: voltages.map((voltage) => ({ voltage, failing: failing(at(design, voltage)) })) };
    } catch (error) {
      if (error instanceof DesignError) return undefined;
      throw error;
    }
  });
  const cases = found.flatMap((one) => one ?? []);

  test('a voltage lies in a window where no check fails, and only there', () => {
    for (const { supply, brute } of cases)
      for (const { voltage, failing: ids } of brute)
        expect([voltage, supply.ranges.some(({ low, high }) => low <= voltage && voltage <= high)]).toEqual([voltage, ids.length === 0]);
  });

  test('each end is one: at it nothing fails, 0.1 V beyond what is named does', () => {
    for (const { design, supply } of cases)
      for (const { low, high, setsLow, setsHigh } of supply.ranges) {
        expect([failing(at(design, low)), failing(at(design, high))]).toEqual([[], []]);
        if (setsHigh.length > 0) expect(failing(at(design, high + 0.1))).toEqual(expect.arrayContaining([...setsHigh]));
        if (setsLow.length > 0) expect(failing(at(design, low - 0.1))).toEqual(expect.arrayContaining([...setsLow]));
      }
  });

  test('each rung is a limit: below it only what was left out fails, beyond it the next', () => {
    for (const { design, supply } of cases) {
      const without = new Set<string>();
      for (const { value, checks } of supply.upper) {
        expect(failing(at(design, value)).filter((id) => !without.has(id))).toEqual([]);
        if (checks.length === 0) continue;
        expect(
          failing(at(design, value + 0.1))
            .filter((id) => !without.has(id))
            .toSorted(),
        ).toEqual([...checks].toSorted());
        for (const id of checks) without.add(id);
      }
    }
  });

  test('among them are windows and designs without one', () => {
    expect(cases.length).toBeGreaterThan(80);
    expect(cases.filter(({ supply }) => supply.ranges.length > 0).length).toBeGreaterThan(15);
    expect(cases.filter(({ supply }) => supply.ranges.length === 0).length).toBeGreaterThan(15);
  });
});

describe('bindery-lamp, which latches when it is plugged in', () => {
  const text = example('bindery-lamp');
  const { supply } = study(designOf(text), { depth: 'time domain', from: 18, to: 30 });
  const written = (voltage: number): string =>
    edited(
      text,
      ['voltage: 27 V', `voltage: ${voltage.toFixed(1)} V`],
      ['power: 38 W', `power: ${(38 * (voltage / 27) ** 2).toPrecision(12)} W`],
    );
  const failsInTime = (voltage: number): readonly string[] =>
    [...reviewedInTime(written(voltage)).values()].flatMap(({ id, verdict }) => (verdict === 'fail' ? [id] : []));

  test('has an upper end that only the time domain sees', () => {
    expect(supply.chosen!.setsHigh).toContain('latch-up');
    expect(study(designOf(text)).supply.chosen!.high).toBeGreaterThan(supply.chosen!.high + 1);
    expect(supply.failingNow).toContain('latch-up');
  });
  test('and a narrower one in which the start is assessed: latch-up passes or warns at its ends, as check has it', () => {
    const inside = supply.surest!;
    expect(inside.high).toBeLessThanOrEqual(supply.chosen!.high);
    expect(['pass', 'warn']).toContain(reviewedInTime(written(inside.high)).get('latch-up')!.verdict);
    expect(['fail', 'not assessed']).toContain(reviewedInTime(written(inside.high + 0.1)).get('latch-up')!.verdict);
  });
  test('where check, of the file as it is then written, fails 0.2 V beyond and not 0.1 V inside', () => {
    const { high } = supply.chosen!;
    expect(failsInTime(high + 0.2)).toContain('latch-up');
    expect(failsInTime(high - 0.1)).toEqual([]);
  });
});

test('what fails while running fails with the time domain too', () => {
  for (const name of ['bindery-lamp', 'scrap-box-smelter', 'vent-opener']) {
    const design = designOf(example(name));
    const running = failingIn({ design, policies, depth: 'running' }).failing;
    const whole = failingIn({ design, policies, depth: 'time domain' }).failing;
    expect([...running].filter((id) => !whole.has(id))).toEqual([]);
  }
});

test('the start is as open as check leaves it where a dip takes a supply that switches off past its limit', () => {
  const text = edited(example('charging-pad'), ['currentLimit: 5 A', 'currentLimit: {current: 5 A, kind: hiccup}']);
  const result = reviewedInTime(text).get('latch-up')!;
  expect(result.verdict).toBe('not assessed');
  expect(result.reason).toMatch(/dips to 50 %/);
  expect(result.reason).not.toMatch(/the start is|is taken away|is put on/);
  expect(failingIn({ design: designOf(text), policies, depth: 'time domain' }).open).toContain('latch-up');
});

test('the heaviest load, written as its power, fails nothing, and a percent more does', () => {
  const design = designOf(example('charging-pad'));
  const { load } = study(design);
  const withPower = (power: number): Design => ({
    ...design,
    loads: design.loads.map((one) => (one.name === load!.name ? { ...one, power } : one)),
  });
  expect(failing(withPower(load!.chosen!.high))).toEqual([]);
  expect(failing(withPower(load!.chosen!.high * 1.015))).toEqual(expect.arrayContaining([...load!.chosen!.setsHigh]));
});
