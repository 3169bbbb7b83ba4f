import { describe, expect, test } from 'vitest';
import { partKinds } from '../../src/parts/part.ts';
import type { Rating } from '../../src/parts/part.ts';
import { partNames, partOf } from './part-files.ts';

const zero = 273.15;

/** Compares to nine digits, so that a prefix or a digit astray shows. */
function expectRating(rating: Rating | undefined, value: number, source: string, at?: Readonly<Record<string, number>>): void {
  expect(rating?.source).toBe(source);
  expect((rating?.value ?? Number.NaN) / value).toBeCloseTo(1, 9);
  for (const [key, condition] of Object.entries(at ?? {})) expect((rating?.at?.[key] ?? Number.NaN) / condition, key).toBeCloseTo(1, 9);
}

describe('switches', () => {
  test('IRFP250N', () => {
    const { ratings } = partOf('mosfets', 'IRFP250N');
    expectRating(ratings.onResistance, 0.075, 'data sheet', { gateVoltage: 10, drainCurrent: 18 });
    expectRating(ratings.inputCapacitance, 2.159e-9, 'data sheet', { drainVoltage: 25 });
    expectRating(ratings.gateCharge, 1.23e-7, 'data sheet', { gateVoltage: 10 });
    expectRating(ratings.bodyDiodeRecoveryTime, 2.79e-7, 'memory');
    expectRating(ratings.junctionTemperature, 175 + zero, 'data sheet');
  });

  test('IRFB4110 has its capacitances at 50 V', () => {
    const { ratings } = partOf('mosfets', 'IRFB4110');
    expectRating(ratings.onResistance, 0.0045, 'data sheet', { gateVoltage: 10, drainCurrent: 75 });
    expectRating(ratings.inputCapacitance, 9.62e-9, 'memory', { drainVoltage: 50 });
    expectRating(ratings.junctionToCase, 0.402, 'data sheet');
  });

  test('47N60C3', () => {
    const { ratings } = partOf('mosfets', '47N60C3');
    expectRating(ratings.onResistanceFactor, 2.67, 'data sheet');
    expectRating(ratings.outputCapacitance, 2.2e-9, 'memory');
    expectRating(ratings.avalancheEnergy, 1.8, 'data sheet');
  });

  test('only the part whose data sheet gives no avalanche energy is without one', () => {
    const without = partNames('mosfets').filter((name) => partOf('mosfets', name).ratings.avalancheEnergy === undefined);
    expect(without).toEqual(['BUZ11']);
  });

  test('gates that are full at 5 V have a charge given at 5 V', () => {
    const logicLevel = partNames('mosfets').filter((name) => partOf('mosfets', name).ratings.gateCharge?.at?.['gateVoltage'] === 5);
    expect(logicLevel).toEqual(['IRL540N', 'IRLZ44N']);
  });
});

describe('cross diodes', () => {
  test('1N4148 stands 75 V, not its repetitive peak', () => {
    const { ratings } = partOf('diodes', '1N4148');
    expectRating(ratings.reverseVoltage, 75, 'data sheet');
    expectRating(ratings.forwardVoltage, 1, 'data sheet', { forwardCurrent: 0.01 });
    expectRating(ratings.recoveryTime, 4e-9, 'data sheet');
  });

  test('UF4004 is known from its sibling', () => {
    const { ratings } = partOf('diodes', 'UF4004');
    expectRating(ratings.reverseVoltage, 400, 'sibling');
    expectRating(ratings.recoveryTime, 5e-8, 'sibling');
    expectRating(ratings.junctionCapacitance, 1.7e-11, 'memory', { reverseVoltage: 4 });
  });

  test('1N5822 does not recover, for it stores no charge', () => {
    const { ratings } = partOf('diodes', '1N5822');
    expect(ratings.recoveryTime).toMatchObject({ value: 0, source: 'memory' });
    expectRating(ratings.forwardVoltage, 0.525, 'data sheet', { forwardCurrent: 3 });
    expectRating(ratings.junctionTemperature, 125 + zero, 'data sheet');
  });
});

describe('gate clamps', () => {
  test('1N4742A', () => {
    const { ratings } = partOf('zeners', '1N4742A');
    expectRating(ratings.zenerVoltage, 12, 'data sheet', { testCurrent: 0.021 });
    expectRating(ratings.tolerance, 0.05, 'data sheet');
    expectRating(ratings.impedance, 9, 'data sheet');
  });

  test.each([
    ['BZX85C12', 11.4, 12.7],
    ['BZX85C15', 13.8, 15.6],
    ['BZX55C12', 11.4, 12.7],
  ])('the tolerance of %s covers its limits %d V and %d V, and hardly more', (name, low, high) => {
    const { zenerVoltage, tolerance } = partOf('zeners', name).ratings;
    const [voltage, share] = [zenerVoltage?.value ?? Number.NaN, tolerance?.value ?? Number.NaN];
    const widest = Math.max(voltage - low, high - voltage);
    expect(share * voltage).toBeGreaterThanOrEqual(widest - 1e-9);
    expect(share * voltage).toBeLessThan(widest + 0.002);
  });

  test('1N5349B', () => {
    const { ratings } = partOf('zeners', '1N5349B');
    expectRating(ratings.power, 5, 'data sheet');
    expectRating(ratings.junctionToAmbient, 45, 'data sheet');
    expectRating(ratings.testCurrent, 0.1, 'memory');
  });
});

describe('capacitors of the bank', () => {
  test('pp-box-100n-630v', () => {
    const { ratings, lossTangent, thermalResistance, size } = partOf('capacitors', 'pp-box-100n-630v');
    expectRating(ratings.capacitance, 1e-7, 'class');
    expect(lossTangent?.points.map(({ frequency, rating }) => [frequency, rating.value])).toEqual([
      [1e3, 0.0004],
      [1e4, 0.0006],
      [1e5, 0.003],
    ]);
    expectRating(ratings.voltageSlope, 4e8, 'class');
    expectRating(ratings.selfInductance, 1.5e-8, 'derived');
    expectRating(thermalResistance?.stillAir, 65, 'class');
    expect(size).toBe('18 x 8.5 x 14.5 mm');
  });

  test('polyester loses ten times what a polypropylene box of its value does', () => {
    const [polyester, polypropylene] = ['polyester-100n-630v', 'pp-box-100n-630v'].map(
      (name) => partOf('capacitors', name).lossTangent?.points.at(-1)?.rating.value ?? Number.NaN,
    );
    expect(polyester! / polypropylene!).toBeCloseTo(10, 9);
  });

  test('pp-resonance-330n-1200v has a current whose frequency nobody stated', () => {
    const { ratings } = partOf('capacitors', 'pp-resonance-330n-1200v');
    expectRating(ratings.currentRms, 9.8, 'build');
    expect(ratings.currentRms?.at).toBeUndefined();
    expectRating(ratings.voltageAc, 400, 'class', { frequency: 50 });
  });

  test('only the block with cooled terminals has no thermal resistance to air', () => {
    const without = partNames('capacitors').filter((name) => partOf('capacitors', name).thermalResistance === undefined);
    expect(without).toEqual(['tank-block-660n-500vac']);
    expectRating(partOf('capacitors', 'tank-block-660n-500vac').ratings.currentRms, 200, 'class', { frequency: 1e5 });
  });
});

describe('chokes', () => {
  test('choke-100u-10a-sendust keeps the 9 A that it was rated at', () => {
    const { ratings } = partOf('chokes', 'choke-100u-10a-sendust');
    expectRating(ratings.inductance, 1e-4, 'build');
    expectRating(ratings.saturationCurrent, 9, 'class');
    expectRating(ratings.coreLoss, 0.4, 'class', { supplyVoltage: 24, frequency: 1e5 });
  });

  test('choke-47u-6a-iron-powder', () => {
    const { ratings } = partOf('chokes', 'choke-47u-6a-iron-powder');
    expectRating(ratings.inductance, 4.608e-5, 'derived');
    expectRating(ratings.resistance, 0.0175, 'derived');
    expectRating(ratings.maxTemperature, 75 + zero, 'practice');
  });

  test('choke-100u-15a-ferrite has a core loss at 48 V only', () => {
    const { ratings } = partOf('chokes', 'choke-100u-15a-ferrite');
    expectRating(ratings.coreLoss, 0.5, 'class', { supplyVoltage: 48, frequency: 1e5 });
    expectRating(ratings.saturationCurrent, 16, 'class');
    expect(ratings.maxTemperature).toBeUndefined();
  });

  test('the current in a name is the saturation current of an iron powder choke, rounded', () => {
    for (const name of partNames('chokes').filter((choke) => choke.endsWith('iron-powder'))) {
      const [, inductance, current] = /^choke-(\d+)u-(\d+)a/.exec(name) ?? [];
      const { ratings } = partOf('chokes', name);
      expect(Math.abs((ratings.saturationCurrent?.value ?? Number.NaN) - Number(current)), name).toBeLessThanOrEqual(0.5);
      expect((ratings.inductance?.value ?? Number.NaN) / (Number(inductance) * 1e-6), name).toBeCloseTo(1, 1);
    }
  });
});

test('a rating never lacks its source', () => {
  const parts = partKinds.flatMap((kind) => partNames(kind).map((name) => partOf(kind, name)));
  const ratings = parts.flatMap((part) => Object.values(part.ratings as Readonly<Record<string, Rating>>));
  expect(ratings.length).toBeGreaterThan(700);
  expect(ratings.filter(({ source }) => source === 'project')).toEqual([]);
});
