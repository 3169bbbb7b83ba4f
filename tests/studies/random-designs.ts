import type { Capacitor } from '../../src/parts/part.ts';
import type { Design } from '../../src/project/design.ts';
import { designOf, measuredPad, root } from '../checks/reviewed.ts';
import { partsOnShelf } from '../../src/cli/parts-shelf.ts';

/** Numbers from 0 to 1 that follow from a seed (mulberry32, public domain). */
export function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

export const shelf = partsOnShelf({ root, folders: [], kind: undefined }).map(({ part }) => part);

export const capacitors: readonly Capacitor[] = shelf.flatMap((part) => (part.kind === 'capacitors' ? [part] : []));

/** Invented designs that differ in nearly everything, most of them with something too small. */
export function randomDesigns({ count, seed }: { count: number; seed: number }): readonly Design[] {
  const base = designOf(measuredPad);
  const random = numbersFrom(seed);
  const between = (low: number, high: number): number => low * (high / low) ** random();
  const oneOf = <T>(all: readonly T[]): T => all[Math.floor(random() * all.length)]!;
  const mosfets = shelf.flatMap((part) => (part.kind === 'mosfets' ? [part] : []));
  const chokes = shelf.flatMap((part) => (part.kind === 'chokes' ? [part] : []));
  return Array.from({ length: count }, (): Design => {
    const capacitor = oneOf(capacitors);
    const unit = capacitor.ratings.capacitance!.value;
    const series = oneOf([1, 1, 1, 2, 3]);
    const parallel = Math.max(1, Math.round((between(0.1e-6, 3e-6) * series) / unit));
    const inductance = between(0.8e-6, 12e-6);
    return {
      ...base,
      supply: { ...base.supply, voltage: Math.round(between(9, 48)), riseTime: oneOf([0, 1e-3, 5e-3]), tolerance: oneOf([0, 0.05, 0.1]) },
      chokes: { arrangement: oneOf(['two', 'two', 'centre-tap'] as const), choke: oneOf(chokes) },
      tank: {
        coil: { inductance, resistance: between(3e-3, 60e-3), tolerance: oneOf([0, 0.03]) },
        bank: { capacitor, series, parallel, cooling: 'still air' },
      },
      loads: [{ name: 'empty' }, { name: 'loaded', power: between(3, 150) }],
      switches: { ...base.switches, mosfet: oneOf(mosfets), heatsink: between(1, 20) },
      gates: { ...base.gates, pullUp: { ...base.gates.pullUp, resistance: between(100, 600), from: oneOf(['supply', 12] as const) } },
    };
  });
}
