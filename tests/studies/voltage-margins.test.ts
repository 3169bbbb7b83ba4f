import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { defaultPolicies, designInFile, ownPolicies, reviewedDesign } from '../../src/cli/review-file.ts';
import type { Design } from '../../src/project/design.ts';
import { timedChecks } from '../../src/studies/timed-checks.ts';
import { runningFailures, voltageMargins, type MarginAt, type VoltageMargins } from '../../src/studies/voltage-margins.ts';
import { formatQuantity } from '../../src/units/format-quantity.ts';
import { fileWith, root } from '../cli/ran.ts';

const policies = defaultPolicies(root);
const names = readdirSync(join(root, 'examples'));
const designOf = (name: string): Design => designInFile({ path: join(root, 'examples', name), root });
const marginsOf = (design: Design): VoltageMargins => voltageMargins({ design, policies: ownPolicies({ policies, design }) });
const at = (margins: VoltageMargins, index: number): readonly MarginAt[] => {
  const point = margins.points[index]!;
  if ('refused' in point) throw new Error(point.refused);
  return point.margins;
};
const present = ({ points }: VoltageMargins): number => points.findIndex(({ isPresent }) => isPresent);

describe.each(names)('%s', (name) => {
  const design = designOf(name);
  const margins = marginsOf(design);

  test('is looked at from half to one and a half times its voltage, its own among them', () => {
    const voltages = margins.points.map(({ voltage }) => voltage);
    expect(voltages).toHaveLength(21);
    expect(voltages[0]).toBeCloseTo(design.supply.voltage / 2, 9);
    expect(voltages.at(-1)).toBeCloseTo(1.5 * design.supply.voltage, 9);
    expect(voltages[present(margins)]).toBe(design.supply.voltage);
    expect(voltages).toEqual(voltages.toSorted((a, b) => a - b));
  });

  // with the time domain it is the same: timed-checks.test.ts
  test('at its own voltage stands as the review has it in all that runs', () => {
    const { results } = reviewedDesign({ design, policies, closedForm: true });
    const running = results.filter(({ id }) => !timedChecks.has(id));
    const margin = at(margins, present(margins)).filter(({ isTimed }) => !isTimed);
    expect(running.length).toBeGreaterThan(20);
    // loads held as resistances: the same but for rounding
    expect(margin.map(({ id, verdict }) => ({ id, verdict }))).toEqual(running.map(({ id, verdict }) => ({ id, verdict })));
    margin.forEach(({ value }, i) => {
      const other = running[i]!.value;
      if (value === null || other === null) expect(value).toBe(other);
      else expect(Math.abs(value - other)).toBeLessThanOrEqual(1e-9 * Math.abs(other));
    });
  });

  test('passes nowhere what only the time domain can pass', () => {
    const timed = margins.points.flatMap((_, i) => at(margins, i).filter(({ isTimed }) => isTimed));
    expect(timed.filter(({ verdict }) => verdict === 'pass' || verdict === 'warn')).toEqual([]);
    expect(timed.some(({ id }) => id === 'latch-up')).toBe(true);
  });

  test('is told a span only where nothing of the running driver fails', () => {
    const inSpans = new Set(margins.spans.flatMap(({ first, last }) => Array.from({ length: last - first + 1 }, (_, i) => first + i)));
    margins.points.forEach((point, i) => {
      expect(inSpans.has(i), `${point.voltage} V`).toBe(!('refused' in point) && runningFailures(point).length === 0);
    });
  });

  test('reads the same voltage as was computed', () => {
    for (const { voltage } of margins.points) {
      const shown = formatQuantity({ value: voltage, dimension: 'voltage', digits: 4 });
      expect(Number(shown.replace(' V', ''))).toBe(voltage);
    }
  });
});

test('at another voltage a load keeps its resistance, as a project says that states it so', () => {
  const text = readFileSync(join(root, 'examples', 'live-rail-lamp.yaml'), 'utf8');
  const margins = marginsOf(designOf('live-rail-lamp.yaml'));
  // R = (π·V)²/(2P) of design.md, at the voltage of the project
  const resistance = (Math.PI * 36) ** 2 / (2 * 60);
  const written = text.replace('power: 60 W', `parallelResistance: ${resistance} ohm`);
  expect(written).not.toBe(text);
  for (const index of [2, 7, 15]) {
    const { voltage } = margins.points[index]!;
    const design = designInFile({ path: fileWith(written.replace('voltage: 36 V', `voltage: ${voltage} V`)), root });
    const { results } = reviewedDesign({ design, policies, closedForm: true });
    const running = results.filter(({ id }) => !timedChecks.has(id));
    const margin = at(margins, index).filter(({ isTimed }) => !isTimed);
    expect(margin.map(({ verdict }) => verdict)).toEqual(running.map(({ verdict }) => verdict));
    margin.forEach(({ id, value }, i) => {
      if (value !== null) expect(value / running[i]!.value!, id).toBeCloseTo(1, 9);
    });
  }
});

test('with a resistance for a load the drains go up with the supply, to π times it', () => {
  const margins = marginsOf(designOf('charging-pad.yaml'));
  const peak = (index: number): number => at(margins, index).find(({ id }) => id === 'switch-peak-voltage')!.value!;
  const [low, high] = [peak(0), peak(20)];
  expect(high / low).toBeGreaterThan(2.97);
  expect(high / low).toBeLessThan(3.01);
});

test('what is not assessed at a voltage, though it is at the present one, is named with the span', () => {
  const margins = marginsOf(designOf('live-rail-lamp.yaml'));
  // hot-surface: without the coil's temperature only a hotter choke decides it
  expect(margins.spans.map(({ open }) => open)).toEqual([['hot-surface']]);
  const [span] = margins.spans;
  const low = at(margins, span!.last).find(({ id }) => id === 'hot-surface')!;
  const own = at(margins, present(margins)).find(({ id }) => id === 'hot-surface')!;
  expect([low.verdict, own.verdict]).toEqual(['not assessed', 'fail']);
});

test('a peak at switch-on is the figure of the closed form, and not assessed', () => {
  const design = designOf('charging-pad.yaml');
  const margins = at(marginsOf(design), 10);
  const { results } = reviewedDesign({ design, policies, closedForm: true });
  const found = margins.find(({ id }) => id === 'switch-surge-voltage')!;
  expect(found.value).toBeCloseTo(results.find(({ id }) => id === 'switch-surge-voltage')!.value!, 6);
  expect(found.limit).toBe(200);
  expect(found.verdict).toBe('not assessed');
});
