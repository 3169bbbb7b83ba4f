import { place, stateCount, type Circuit } from './circuit.ts';

/** Which states of a circuit act on each other, and in which order they are eliminated best: what couples to few first. */
export interface Couplings {
  /** Whether ∂f/∂y or M can be other than zero at a place; flat, row by row. */
  readonly couples: readonly boolean[];
  readonly order: readonly number[];
}

const { drainA, drainB, coil, chokeA, chokeB, gateA, gateB, rail, lead } = place;

/** The couplings of equationsOf. */
export function couplingsOf(circuit: Circuit): Couplings {
  const n = stateCount(circuit);
  const isTapped = circuit.arrangement === 'centre-tap';
  const chokes = isTapped ? [chokeA] : [chokeA, chokeB];
  const nodes = [drainA, drainB, gateA, gateB];
  const onRail = circuit.gates.rail === undefined ? [gateA, gateB] : [];
  const groups: (readonly number[])[] = [
    nodes,
    [coil, drainA, drainB],
    ...chokes.map((choke) => [choke, ...(isTapped ? [drainA, drainB] : [choke === chokeA ? drainA : drainB])]),
    // behind resistance alone the rail moves with all that hangs on it
    ...(circuit.supply.buffer === undefined
      ? [[...chokes, ...onRail]]
      : [[rail, lead], ...[...chokes, ...onRail].map((one) => [rail, one])]),
  ];
  const couples = Array.from({ length: n * n }, (_, at) => {
    const [i, j] = [Math.floor(at / n), at % n];
    return i === j || groups.some((group) => group.includes(i) && group.includes(j));
  });
  const order = [coil, chokeA, chokeB, lead, rail, gateA, gateB, drainA, drainB].filter((state) => state < n);
  return { couples, order };
}
