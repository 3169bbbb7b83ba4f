import { describe, expect, test } from 'vitest';
import { nominalCorner } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { settledStart } from '../../src/driver/settled-start.ts';
import type { Circuit } from '../../src/driver/time-domain/circuit.ts';
import { measuresWith } from '../../src/driver/time-domain/measures.ts';
import { finished, type Outcome } from '../../src/driver/time-domain/outcome.ts';
import { stretch } from '../../src/driver/time-domain/stretch.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { mismatchRange } from '../../src/driver/usual-pair.ts';
import { designOf } from '../checks/reviewed.ts';
import { designs, initialOf, oracle, periodOf, type ReferenceDesign } from './reference-circuits.ts';
import { outcomeWord } from './outcome-word.ts';

const { results } = oracle('golden.json') as { results: readonly { name: string; outcome: Outcome }[] };
const golden = new Map(results.map(({ name, outcome }) => [name, outcome]));

/** Thresholds 6 % apart latch it; with 0.5 and with 5 % it runs, as SciPy says too. */
const latchedByMismatch = 'strong switches far apart latch';

/** The circuit with thresholds so far apart around the same mean. */
function apart(circuit: Circuit, mismatch: number): Circuit {
  const [a, b] = circuit.switches;
  const mean = (a.threshold + b.threshold) / 2;
  return {
    ...circuit,
    switches: [
      { ...a, threshold: mean * (1 + mismatch / 2) },
      { ...b, threshold: mean * (1 - mismatch / 2) },
    ],
  };
}

/** What a circuit draws and swings to while running, by power balance: tank, drops of choke and source. */
function runningOf(circuit: Circuit): { frequency: number; tankPeak: number; supplyCurrent: number } {
  const { supply, choke, tank, arrangement } = circuit;
  const coil = tank.inductance / tank.capacitance / tank.coilResistance;
  const load = 1 / (1 / tank.load + 1 / coil);
  const drops = supply.resistance + choke.resistance / (arrangement === 'two' ? 2 : 1) + circuit.switches[0].series;
  const supplyCurrent = (Math.PI ** 2 * supply.voltage) / (2 * load) / (1 + (Math.PI ** 2 * drops) / (2 * load));
  return { frequency: 1 / periodOf(circuit), tankPeak: Math.PI * (supply.voltage - supplyCurrent * drops), supplyCurrent };
}

/** What a start comes to. */
function outcomeOf(design: ReferenceDesign, circuit: Circuit, { steps, tolerance } = { steps: 70, tolerance: 1e-3 }): Outcome {
  const measures = measuresWith({ circuit, running: runningOf(circuit), railUp: circuit.supply.riseTime, mayRest: false });
  const last = stretch({
    circuit,
    measures,
    accuracy: { tolerance, longestStep: periodOf(circuit) / steps },
    mostSteps: 150_000,
    initial: initialOf(design),
  });
  return finished({ circuit, measures, ...last }).outcome;
}

test('the reference runs, latches and stalls, with one choke and with two', () => {
  for (const arrangement of ['two', 'centre-tap']) {
    const found = new Set(designs.filter(({ circuit }) => circuit.arrangement === arrangement).map(({ name }) => golden.get(name)!));
    expect([...found].toSorted()).toEqual(['latches', 'runs', 'stalls']);
  }
});

describe.each(designs.map((design) => [design.name, design] as const))('%s', (name, design) => {
  const outcome = golden.get(name)!;

  test('comes to what the reference says', () => {
    expect(outcomeOf(design, design.circuit)).toBe(outcome);
  });

  test('comes to the same with half the tolerance and with half the step', () => {
    expect(outcomeOf(design, design.circuit, { steps: 70, tolerance: 0.5e-3 })).toBe(outcome);
    expect(outcomeOf(design, design.circuit, { steps: 140, tolerance: 1e-3 })).toBe(outcome);
  });

  test('comes to the same with thresholds 0.5 and 5 % apart', () => {
    const found = mismatchRange.map((mismatch) => outcomeOf(design, apart(design.circuit, mismatch)));
    const expected = name === latchedByMismatch ? 'runs' : outcome;
    expect(found).toEqual([expected, expected]);
  });
});

test('a start that thresholds ten times as far apart latch is undecided', () => {
  const design = designOf(`tankproof: 1
supply: {voltage: 30 V, tolerance: 0 %, riseTime: 0 s, resistance: 10 mohm}
chokes: {arrangement: two, inductance: 330 uH, resistance: 5 mohm, saturationCurrent: 100 A}
tank:
  coil: {inductance: 10 uH, resistance: 12 mohm}
  bank: {part: {capacitance: 6.6 uF, voltageDc: 630 V, lossTangent: 0.0005, tolerance: 5 %}}
loads: [{name: load, parallelResistance: 50 ohm}]
switches: {part: IRFP4668, heatsink: 2 K/W}
gates: {pullUp: {resistance: 470 ohm, power: 5 W, from: supply}, clamp: 1N4742A, crossDiode: UF4004}
environment: {ambient: 25 degC}
`);
  const point = operatingPoint({ design, load: design.loads[0]!, corner: nominalCorner });
  const starts = mismatchRange.map((mismatch) => timedStart({ design, point, pair: { mismatch, strength: 1.5, junction: 298.15 } }));
  expect(starts.map(outcomeWord)).toEqual(['runs', 'latches']);
  const settled = settledStart({ design, point, weak: point });
  expect(outcomeWord(settled)).toBe('undecided');
});
