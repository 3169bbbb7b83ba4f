import { describe, expect, test } from 'vitest';
import { hottestCoil } from '../../src/driver/coil-heat.ts';
import { coilOf } from '../../src/driver/coil.ts';
import { designOf, edited, measuredPad } from '../checks/reviewed.ts';

const measured = '    inductance: 4.5 uH\n    resistance: 30 mohm # measured at 80 kHz\n';
const withCoil = (...lines: readonly string[]): string => edited(measuredPad, [measured, lines.map((line) => `    ${line}\n`).join('')]);
const tube = 'conductor: {shape: tube, outerDiameter: 6 mm, wall: 1 mm}';
const solenoid = ['shape: solenoid', 'diameter: 60 mm', 'turns: 8', 'pitch: 9 mm', tube];

describe('a coil that cannot be is refused at its place', () => {
  test.each<[string, readonly string[], string]>([
    ['nothing at all', [], 'needs `inductance`'],
    ['half of a measurement', ['inductance: 2 uH'], 'needs `resistance`'],
    ['dimensions without a shape', ['inductance: 2 uH', 'resistance: 5 mohm', 'turns: 4'], 'no `shape`'],
    ['a shape without turns', ['shape: solenoid', 'diameter: 60 mm', 'pitch: 9 mm', tube], 'needs `turns` for a solenoid'],
    ['a tube without wall', [...solenoid.slice(0, 4), 'conductor: {shape: tube, outerDiameter: 6 mm}'], 'needs `wall`'],
    [
      'a wall thicker than the radius',
      [...solenoid.slice(0, 4), 'conductor: {shape: tube, outerDiameter: 6 mm, wall: 4 mm}'],
      'thicker than the radius',
    ],
    ['turns that overlap', [...solenoid.slice(0, 3), 'pitch: 4 mm', tube], 'the turns overlap'],
    ['a conductor wider than the coil', ['shape: loop', 'diameter: 5 mm', tube], 'thicker than the coil is wide'],
    ['a spiral into its own middle', ['shape: spiral', 'diameter: 60 mm', 'turns: 9', 'pitch: 7 mm', tube], 'its own middle'],
    [
      'a bundle too thin for its turns',
      ['shape: bundle', 'diameter: 200 mm', 'turns: 9', 'bundleDiameter: 12 mm', tube],
      'do not fit into the bundle',
    ],
    [
      'strands that do not fit',
      ['shape: loop', 'diameter: 90 mm', 'conductor: {shape: litz, outerDiameter: 2 mm, strands: 900, strandDiameter: 0.1 mm}'],
      'do not fit',
    ],
    [
      'water in a wire',
      ['shape: loop', 'diameter: 90 mm', 'conductor: {shape: wire, outerDiameter: 2 mm}', 'cooling: water'],
      'water flows in a tube',
    ],
    [
      'a wall of a wire',
      ['shape: loop', 'diameter: 90 mm', 'conductor: {shape: wire, outerDiameter: 2 mm, wall: 1 mm}'],
      'belongs to `shape: tube`',
    ],
    [
      'strands of a tube',
      ['shape: loop', 'diameter: 90 mm', 'conductor: {shape: tube, outerDiameter: 2 mm, wall: 0.2 mm, strands: 7}'],
      '`tank.coil.conductor.strands` says nothing of `shape: tube`: it belongs to `shape: litz`',
    ],
    ['a pitch of one turn', ['shape: loop', 'diameter: 90 mm', 'pitch: 9 mm', tube], 'belongs to `shape: solenoid` or `shape: spiral`'],
    ['a bundle on a solenoid', [...solenoid, 'bundleDiameter: 12 mm'], 'belongs to `shape: bundle`'],
    [
      'a pitch of a bundle',
      ['shape: bundle', 'diameter: 200 mm', 'turns: 2', 'bundleDiameter: 15 mm', 'pitch: 7 mm', tube],
      '`tank.coil.pitch`',
    ],
    ['leads that overlap', [...solenoid, 'leads: {length: 80 mm, spacing: 5 mm}'], 'the leads overlap'],
    ['a coil of a metre of tube', ['shape: loop', 'diameter: 20 m', tube], 'at most 10 m'],
  ])('%s', (_what, lines, words) => {
    expect(() => designOf(withCoil(...lines))).toThrow(words);
  });
});

test('a shape that does not exist is one mistake', () => {
  expect(() => designOf(withCoil('shape: circle', 'pitch: 9 mm'))).toThrow(/^unknown-word: [^\n]*$/);
});

describe('a coil by its geometry', () => {
  test('and the same coil by the values computed from it are one', () => {
    const design = designOf(withCoil(...solenoid));
    const byShape = { ...coilOf(design), ...hottestCoil(design) };
    expect(byShape.inductance).toBeGreaterThan(1e-6);
    const copied = designOf(withCoil(`inductance: ${byShape.inductance * 1e6} uH`, `resistance: ${byShape.resistance * 1e3} mohm`));
    expect(coilOf(copied).inductance / byShape.inductance).toBeCloseTo(1, 9);
  });

  test('measured values beside a geometry win, and the geometry gives temperature and field', () => {
    const design = designOf(withCoil('inductance: 2.2 uH', 'resistance: 9 mohm', ...solenoid));
    const both = { ...coilOf(design), ...hottestCoil(design) };
    expect(both.inductance).toBeCloseTo(2.2e-6, 12);
    expect(both.resistance).toBeCloseTo(9e-3, 9);
    expect(typeof both.temperature).toBe('number');
    expect(both.winding!.turns.length).toBe(8);
  });

  test('twice the size has twice the inductance', () => {
    const half = coilOf(designOf(withCoil('shape: loop', 'diameter: 60 mm', 'conductor: {shape: wire, outerDiameter: 2 mm}')));
    const whole = coilOf(designOf(withCoil('shape: loop', 'diameter: 120 mm', 'conductor: {shape: wire, outerDiameter: 4 mm}')));
    expect(whole.inductance / half.inductance).toBeCloseTo(2, 1);
  });

  test('a hot coil has more resistance than a cold one, and litz less than a wire of its copper', () => {
    const design = designOf(withCoil(...solenoid));
    expect(hottestCoil(design).resistance).toBeGreaterThan(coilOf(design).leastResistance);
    const litz = hottestCoil(
      designOf(withCoil(...solenoid.slice(0, 4), 'conductor: {shape: litz, outerDiameter: 3 mm, strands: 400, strandDiameter: 0.1 mm}')),
    );
    const wire = hottestCoil(designOf(withCoil(...solenoid.slice(0, 4), 'conductor: {shape: wire, outerDiameter: 2 mm}')));
    expect(litz.resistance).toBeLessThan(wire.resistance);
  });

  test('water keeps it cool and says how much of it', () => {
    const cooled = hottestCoil(designOf(withCoil(...solenoid, 'cooling: water')));
    expect(cooled.temperature).toBe(35 + 273.15 + 20);
    expect(cooled.waterFlow! * 6e7).toBeGreaterThan(1);
  });
});
