import { describe, expect, test } from 'vitest';
import { chargedEquationsOf } from '../../src/driver/time-domain/charged-equations.ts';
import { place } from '../../src/driver/time-domain/circuit.ts';
import { equationsOf } from '../../src/driver/time-domain/circuit-equations.ts';
import { accuracyOf, usualEffort } from '../../src/driver/time-domain/effort.ts';
import { runOf, type Peaks } from '../../src/driver/time-domain/run.ts';
import { designs, initialOf, oracle, periodOf, type ReferenceDesign } from './reference-circuits.ts';

/** What the reference model made of it. */
interface ReferenceResult {
  readonly name: string;
  readonly drain: number;
  readonly tank: number;
  readonly supply: number;
  readonly choke: number;
  readonly gate: number;
  readonly swings: boolean;
  readonly frequency: number | null;
}

const { results } = oracle('golden.json') as { results: readonly ReferenceResult[] };
const golden = new Map(results.map((result) => [result.name, result]));

interface Followed {
  readonly peaks: Peaks;
  readonly swings: boolean;
  readonly frequency: number | undefined;
}

/** A design followed by the solver of the tool. */
function followed(design: ReferenceDesign, effort = usualEffort): Followed {
  const { circuit, until } = design;
  const period = periodOf(circuit);
  const initial = initialOf(design);
  let [before, at, late] = [0, 0, 0];
  const crossings: number[] = [];
  const run = runOf({
    circuit,
    initial,
    until,
    accuracy: accuracyOf({ circuit, effort }),
    mostSteps: 1e7,
    watch: ({ time, state }) => {
      const tank = state[place.drainA]! - state[place.drainB]!;
      if (before < 0 && tank >= 0 && time > 0.5 * until) crossings.push(time - ((time - at) * tank) / (tank - before));
      if (time > 0.9 * until) late = Math.max(late, Math.abs(tank));
      [before, at] = [tank, time];
      return false;
    },
  });
  expect(run.complete).toBe(true);
  const [first, last] = [crossings[0]!, crossings.at(-1)!];
  const swings = crossings.length > 3 && until - last < 3 * period && late > 1;
  return { peaks: run.peaks, swings, frequency: swings ? (crossings.length - 1) / (last - first) : undefined };
}

test('the reference covers coils, banks, supplies and loads, either arrangement, hot switches and a supply at its limit', () => {
  expect(designs.length).toBeGreaterThanOrEqual(40);
  expect(results.map(({ name }) => name)).toEqual(designs.map(({ name }) => name));
  const qualityOf = ({ circuit: { tank } }: ReferenceDesign): number => {
    const impedance = Math.sqrt(tank.inductance / tank.capacitance);
    return 1 / (impedance / tank.load + tank.coilResistance / impedance);
  };
  const range = (of: (design: ReferenceDesign) => number, from: readonly ReferenceDesign[]): readonly [number, number] => {
    const values = from.map((design) => of(design));
    return [Math.min(...values), Math.max(...values)];
  };
  for (const arrangement of ['two', 'centre-tap']) {
    const chosen = designs.filter(({ circuit }) => circuit.arrangement === arrangement);
    const covers = (of: (design: ReferenceDesign) => number, low: number, high: number): void => {
      const [lowest, highest] = range(of, chosen);
      expect(lowest).toBeLessThan(1.06 * low);
      expect(highest).toBeGreaterThan(0.99 * high);
    };
    covers(({ circuit }) => circuit.tank.inductance, 0.5e-6, 50e-6);
    covers(({ circuit }) => circuit.tank.capacitance, 0.1e-6, 10e-6);
    covers(({ circuit }) => circuit.supply.voltage, 8, 60);
    covers(qualityOf, 2, 100);
    expect(chosen.some(({ circuit }) => circuit.switches[0].threshold < 2.3 && circuit.switches[0].series > 0.05)).toBe(true);
    const limited = chosen.filter(({ name, circuit }) => golden.get(name)!.supply > (circuit.supply.limit?.current ?? Infinity));
    expect(limited.length).toBeGreaterThan(0);
    expect(chosen.some(({ circuit }) => circuit.gates.rail === undefined && circuit.gates.pullUp < 50)).toBe(true);
  }
});

describe.each(designs.map((design) => [design.name, design] as const))('%s', (name, design) => {
  const wanted = golden.get(name)!;
  const found = followed(design);

  test('has the peaks of the reference within 0.1 % (voltage) and 0.2 % (current), its frequency within 0.1 %', () => {
    expect(found.swings).toBe(wanted.swings);
    // a gate's peak lies on the knee of its clamp; where nothing swings, what is left lies below the solver's absolute tolerance
    const within = { drain: [0.001, 0.03], tank: [0.001, 0.03], supply: [0.002, 0.001], choke: [0.002, 0.001], gate: [0.006, 0] } as const;
    for (const key of ['drain', 'tank', 'supply', 'choke', 'gate'] as const) {
      const [share, least] = within[key];
      const off = Math.abs(found.peaks[key] - wanted[key]);
      expect(off, `${key}: ${found.peaks[key]} against ${wanted[key]}`).toBeLessThan(share * wanted[key] + least);
    }
    if (wanted.frequency !== null) expect(Math.abs(found.frequency! / wanted.frequency - 1)).toBeLessThan(0.001);
  });

  test('comes to the same with half the tolerance and with half the step', () => {
    for (const effort of [
      { ...usualEffort, tolerance: usualEffort.tolerance / 2 },
      { ...usualEffort, stepsPerPeriod: 2 * usualEffort.stepsPerPeriod },
    ]) {
      const finer = followed(design, effort);
      expect(finer.swings).toBe(found.swings);
      expect(Math.abs(finer.peaks.drain / found.peaks.drain - 1)).toBeLessThan(0.003 + 0.03 / found.peaks.drain);
      expect(Math.abs(finer.peaks.supply / found.peaks.supply - 1)).toBeLessThan(0.005);
    }
  });

  test('has the Jacobian of its equations', () => {
    const { overVoltage } = design.circuit.capacitances;
    const equations = overVoltage === undefined ? equationsOf(design.circuit) : chargedEquationsOf(design.circuit, overVoltage);
    const { count } = equations;
    let seed = 1;
    const random = (): number => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let trial = 0; trial < 20; trial++) {
      const y = Float64Array.from({ length: count }, (_, i) =>
        i < 2 ? -0.3 + 40 * random() : i < 5 ? 10 * random() : i < 7 ? 13 * random() : 20 * random(),
      );
      const [J, f, up, down] = [new Float64Array(count * count), new Float64Array(count), new Float64Array(count), new Float64Array(count)];
      equations.evaluate(1, y, f, J);
      for (let j = 0; j < count; j++) {
        const h = 1e-6 * Math.max(1, Math.abs(y[j]!));
        const moved = Float64Array.from(y);
        moved[j] = y[j]! + h;
        equations.evaluate(1, moved, up);
        moved[j] = y[j]! - h;
        equations.evaluate(1, moved, down);
        for (let i = 0; i < count; i++) {
          const numeric = (up[i]! - down[i]!) / (2 * h);
          const kink = Math.abs((up[i]! + down[i]! - 2 * f[i]!) / h);
          if (kink > 1e-3 * (1 + Math.abs(numeric))) continue;
          expect(Math.abs(J[i * count + j]! - numeric), `row ${i}, column ${j}`).toBeLessThan(1e-3 * (1 + Math.abs(numeric)));
        }
      }
    }
  });
});
