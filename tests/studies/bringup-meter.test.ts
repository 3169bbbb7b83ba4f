import { describe, expect, test } from 'vitest';
import { solveLinear } from '../../src/physics/linear-equations.ts';
import { meterChecks } from '../../src/studies/bringup/meter.ts';
import { designOf, edited, measuredPad } from '../checks/reviewed.ts';

/** The gate network as resistors; drains, coil and chokes are one node with the rail of a supply that feeds the gates. */
const nodes = ['source', 'rail', 'gateA', 'gateB'] as const;
type Node = (typeof nodes)[number];

/** Resistance between two nodes of a network, by nodal analysis. */
function between(a: Node, b: Node, resistors: readonly (readonly [Node, Node, number])[]): number {
  const free = nodes.filter((node) => node !== b);
  const matrix = free.map((row) =>
    free.map((column) =>
      resistors.reduce((sum, [x, y, ohms]) => {
        if (row === column) return sum + (x === row || y === row ? 1 / ohms : 0);
        return sum - ((x === row && y === column) || (y === row && x === column) ? 1 / ohms : 0);
      }, 1e-15),
    ),
  );
  return solveLinear({ matrix, right: free.map((node) => (node === a ? 1 : 0)) })[free.indexOf(a)]!;
}

const middle = (text: string, words: RegExp): number => {
  const { expect: wanted } = meterChecks(designOf(text)).find(({ between: where }) => words.test(where))!;
  if (wanted === 'open') throw new Error('open');
  return (wanted.low + wanted.high) / 2;
};

describe.each([
  ['gates on their own rail', measuredPad],
  ['gates on the supply', edited(measuredPad, ['from: 12 V', 'from: supply'])],
])('%s', (_words, text) => {
  const [up, down] = [220, 10e3];
  const network = [
    ['rail', 'gateA', up],
    ['rail', 'gateB', up],
    ['gateA', 'source', down],
    ['gateB', 'source', down],
  ] as const;

  test('a gate reads its pull-down in parallel with the way through the other gate', () => {
    expect(middle(text, /each gate to its source/)).toBeCloseTo(between('gateA', 'source', network), 6);
  });

  test('a pull-up reads what nodal analysis gives', () => {
    expect(middle(text, /(rail|supply \+) to each gate/)).toBeCloseTo(between('rail', 'gateA', network), 6);
  });
});

test('the supply of a driver with its own gate rail reads open, one that feeds the gates their resistors', () => {
  const rail = /supply \+ to supply −/;
  expect(meterChecks(designOf(measuredPad)).find(({ between: where }) => where.includes('supply + to supply −'))!.expect).toBe('open');
  expect(middle(edited(measuredPad, ['from: 12 V', 'from: supply']), rail)).toBeCloseTo((220 + 10e3) / 2, 6);
});

test('a pull-up of little resistance hides the cross diode, one of much does not', () => {
  const row = (text: string) => meterChecks(designOf(text)).find(({ between: where }) => where.includes('other drain'))!;
  expect(row(edited(measuredPad, ['from: 12 V', 'from: supply'])).note).toContain('lift one end');
  expect(row(measuredPad).note).toContain('forward');
});
