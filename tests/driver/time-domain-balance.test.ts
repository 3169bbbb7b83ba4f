import { expect, test } from 'vitest';
import { accuracyOf, usualEffort, type Effort } from '../../src/driver/time-domain/effort.ts';
import { runOf } from '../../src/driver/time-domain/run.ts';
import { accountOf, type Balance } from './balance.ts';
import { designs, initialOf, referenceDesign, type ReferenceDesign } from './reference-circuits.ts';

/** The account of a run. */
function balanceOf(design: ReferenceDesign, effort: Effort): Balance {
  const { circuit, until } = design;
  const account = accountOf(circuit);
  const initial = initialOf(design);
  account.see(0, initial);
  const run = runOf({
    circuit,
    initial,
    until,
    accuracy: accuracyOf({ circuit, effort }),
    mostSteps: 1e7,
    watch: ({ time, state }) => {
      account.see(time, state);
      return false;
    },
  });
  expect(run.complete).toBe(true);
  return account.balance();
}

/** A reference design whose drains break down at a voltage. */
function breaking(name: string, breakdown: number): ReferenceDesign {
  const design = referenceDesign(name);
  return { ...design, name: `${name}, breaking down at ${breakdown} V`, circuit: { ...design.circuit, breakdown } };
}

// Tellegen's theorem: whatever the elements, what the sources give is lost or stored
const usual = designs.map((design) => [design.name, design, balanceOf(design, usualEffort)] as const);

test.each(usual)('%s, as it is usually followed: energy and charge close to 0.1 %', (_, __, { open, openCharge }) => {
  expect(Math.abs(open)).toBeLessThan(1e-3);
  expect(Math.abs(openCharge)).toBeLessThan(1e-3);
});

const finer: Effort = { ...usualEffort, stepsPerPeriod: 140, tolerance: 1e-4 };

test.each(usual)('%s, with half the step and a tenth of the tolerance: both close to 0.03 %', (_, design) => {
  const { open, openCharge } = balanceOf(design, finer);
  expect(Math.abs(open)).toBeLessThan(3e-4);
  expect(Math.abs(openCharge)).toBeLessThan(3e-4);
});

// the tip of a crest in breakdown is a few steps wide, and the account's trapezoid sees it coarsely
test.each([breaking('load removed', 100), breaking('live rail, own gate rail', 100), breaking('one choke, own rail, ramp', 75)])(
  '$name: both close to 0.05 % at 1/300 of a period',
  (design) => {
    const { open, openCharge, lost, given } = balanceOf(design, { ...usualEffort, stepsPerPeriod: 300, tolerance: 1e-5 });
    expect(lost['breakdown']! / given['source']!).toBeGreaterThan(0.01);
    expect(Math.abs(open)).toBeLessThan(5e-4);
    expect(Math.abs(openCharge)).toBeLessThan(5e-4);
  },
);

test('an element left out of the account is noticed', () => {
  const { given, lost, stored } = balanceOf(referenceDesign('gates on a rising rail'), finer);
  const total = given['source']! + given['gate rail']!;
  const kept = Object.values(lost).reduce((a, b) => a + b, 0);
  for (const name of ['source resistance', 'chokes', 'coil', 'load', 'channels', 'cross diodes', 'pull-ups', 'clamps']) {
    expect(Math.abs(total - kept - stored + lost[name]!) / total, name).toBeGreaterThan(5e-4);
  }
});
