import { describe, expect, test } from 'vitest';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { nominalCorner } from '../../src/driver/corner.ts';
import type { Design, ReadingKey } from '../../src/project/design.ts';
import { InputError } from '../../src/source/diagnostic.ts';
import { comparisons } from '../../src/studies/readings/agreement.ts';
import { estimatesOf, type Estimate } from '../../src/studies/readings/estimates.ts';
import { readingFit } from '../../src/studies/readings/fit.ts';
import {
  expectedReadings,
  factorsOf,
  parameterNames,
  predicted,
  projectFactors,
  readingModel,
  type ReadingModel,
} from '../../src/studies/readings/model.ts';
import { coverage, observationsOf, readingKinds } from '../../src/studies/readings/observed.ts';
import { readingProblems } from '../../src/studies/readings/refusals.ts';
import { readingsStudy } from '../../src/studies/readings/study.ts';
import { defaults, designOf, edited, example, measuredPad, reviewed } from '../checks/reviewed.ts';

const readingsOf = (design: Design, text: string): Design => {
  const base = designOf(edited(measuredPad, ['environment:', `readings: {${text}}\nenvironment:`]));
  return { ...design, readings: base.readings, ...(base.readingsAt === undefined ? {} : { readingsAt: base.readingsAt }) };
};

/** Uniform numbers from a seed: a multiplicative generator of Park and Miller, and normal ones by Box and Muller. */
function normal(seed: number): () => number {
  let state = seed;
  const uniform = (): number => (state = (state * 48271) % 2147483647) / 2147483647;
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

const keys = [
  'frequency',
  'drainPeak',
  'tankCurrentPeak',
  'supplyCurrentIdle',
  'supplyCurrentLoaded',
] as const satisfies readonly ReadingKey[];

/** A driver drawn from its tolerances, read with noise, and what is estimated of it. */
function trial({ design, model, seed }: { design: Design; model: ReadingModel; seed: number }): {
  estimates: readonly Estimate[];
  truth: Readonly<Record<string, number>>;
} {
  const draw = normal(seed);
  for (let i = 0; i < 10; i++) draw();
  const factors = factorsOf(parameterNames.map((name) => model.priors[name] * draw()));
  const values = predicted(model, factors)!;
  const readings = Object.fromEntries(
    keys.map((key) => {
      const { uncertainty, model: off } = readingKinds[key];
      return [key, { value: (values[key] as number) * Math.exp((draw() * Math.hypot(uncertainty, off)) / coverage) }];
    }),
  );
  const fit = readingFit({ model, observations: observationsOf({ ...design, readings }) })!;
  const truth = estimatesOf({ original: model, model, keys, fit: { ...fit, factors } });
  return {
    estimates: estimatesOf({ original: model, model, fit, keys }),
    truth: Object.fromEntries(truth.map(({ id, value }) => [id, value])),
  };
}

describe('estimates from noisy readings of drivers drawn from their tolerances', () => {
  const design = designOf(measuredPad);
  const model = readingModel(design);
  const trials = Array.from({ length: 200 }, (_, i) => trial({ design, model, seed: 1000 + 7919 * i }));

  test.each(['LC', 'L', 'C', 'R', 'Rload', 'source', 'loss'])('the 95 %% interval of %s holds the truth in 95 of 100', (id) => {
    const inside = trials.filter(({ estimates, truth }) => {
      const { low, high } = estimates.find((estimate) => estimate.id === id)!;
      return truth[id]! >= low && truth[id]! <= high;
    });
    // binomial, 200 trials of 0.95: mean 190, standard deviation 3.1; three of them
    expect(inside.length).toBeGreaterThanOrEqual(180);
    expect(inside.length).toBeLessThanOrEqual(199);
  });

  test('what is told is closer to the truth than the project’s own value', () => {
    for (const id of ['LC', 'R', 'Rload']) {
      const square = (of: (estimate: Estimate) => number): number =>
        trials.reduce((sum, { estimates, truth }) => sum + Math.log(of(estimates.find((one) => one.id === id)!) / truth[id]!) ** 2, 0);
      expect(square(({ value }) => value)).toBeLessThan(0.25 * square(({ project }) => project));
    }
  });
});

describe('what can be told', () => {
  const design = designOf(measuredPad);
  const told = (text: string): readonly string[] => {
    const withReadings = readingsOf(design, text);
    const model = readingModel(withReadings);
    const observations = observationsOf(withReadings);
    const fit = readingFit({ model, observations })!;
    return estimatesOf({ original: model, model, fit, keys: observations.map(({ key }) => key) })
      .filter(({ isTold }) => isTold)
      .map(({ id }) => id);
  };
  const precise = 'frequency: {value: 85 kHz, uncertainty: 100 Hz}';

  test('a frequency alone tells L·C and neither of them', () => expect(told(precise)).toEqual(['LC']));
  test('an idle current tells the loss', () => expect(told('supplyCurrentIdle: 510 mA')).toEqual(['R', 'loss']));
  test('a loaded current tells the load once the idle one is known', () => {
    expect(told('supplyCurrentLoaded: 1.87 A')).toEqual([]);
    expect(told('supplyCurrentIdle: 510 mA, supplyCurrentLoaded: 1.87 A')).toEqual(['R', 'Rload', 'loss']);
  });

  test('a wide tolerance is narrowed to both, once the tank’s current is read too', () => {
    const wide = designOf(edited(measuredPad, ['tolerance: 3 %', 'tolerance: 30 %']));
    const { estimates } = ((): { estimates: readonly Estimate[] } => {
      const withReadings = readingsOf(wide, `${precise}, tankCurrentPeak: {value: 23.7 A, uncertainty: 300 mA}`);
      const model = readingModel(withReadings);
      const fit = readingFit({ model, observations: observationsOf(withReadings) })!;
      return { estimates: estimatesOf({ original: model, model, fit, keys: ['frequency', 'tankCurrentPeak'] }) };
    })();
    expect(estimates.find(({ id }) => id === 'L')!.isTold).toBe(true);
  });
});

describe('agreement', () => {
  const design = designOf(measuredPad);
  const model = readingModel(design);
  const verdicts = (readings: Design['readings']): readonly string[] => {
    const built = { ...design, readings };
    return comparisons({ design: built, model: readingModel(built), observations: observationsOf(built) }).map(({ verdict }) => verdict);
  };

  test('what the project predicts agrees with itself', () => {
    const values = Object.entries(predicted(model, projectFactors)!);
    const perfect = Object.fromEntries(values.flatMap(([key, value]) => (typeof value === 'number' ? [[key, { value }]] : [])));
    expect(new Set(verdicts(perfect))).toEqual(new Set(['agrees']));
  });

  test('a frequency disagrees once it is past tolerances, uncertainty and model together', () => {
    // by hand: half of 3 % coil, of 5 % bank, and the two of the reading, 1 % and 1 %, in quadrature; chokes add 0.3 %
    const combined = Math.hypot(1.5, 2.5, 1, 1, 0.3) / 100;
    const nominal = predicted(model, projectFactors)!.frequency as number;
    expect(verdicts({ frequency: { value: nominal * (1 + 0.9 * combined) } })).toEqual(['agrees']);
    expect(verdicts({ frequency: { value: nominal * (1 + 1.1 * combined) } })).toEqual(['disagrees']);
  });

  test('a capacitor that is cooler than predicted agrees, one that is far hotter does not', () => {
    const { capacitorTemperature: expected } = predicted(model, projectFactors)! as { capacitorTemperature: number };
    expect(verdicts({ capacitorTemperature: { value: expected - 5 } })).toEqual(['agrees']);
    expect(verdicts({ capacitorTemperature: { value: expected + 10 } })).toEqual(['disagrees']);
  });

  test('readings at another voltage and load are held against that', () => {
    const text = 'supplyVoltage: 9 V, load: lantern on the pad, drainPeak: 27.8 V';
    const built = readingsOf(design, text);
    const [compared] = comparisons({ design: built, model: readingModel(built), observations: observationsOf(built) });
    const held = { name: 'lantern on the pad', frequencyShift: -0.02, parallelResistance: (Math.PI * 18) ** 2 / 50 };
    const half: Design = { ...design, supply: { ...design.supply, voltage: 9 } };
    expect(compared!.predicted).toBeCloseTo(operatingPoint({ design: half, load: held, corner: nominalCorner }).running!.drainPeak, 9);
  });
});

describe('what no running driver reads', () => {
  const design = designOf(measuredPad);
  const ids = (text: string): readonly string[] => {
    const built = text === '' ? design : readingsOf(design, text);
    return readingProblems({ design: built, model: readingModel(built), observations: observationsOf(built) }).map(({ id }) => id);
  };
  test.each([
    ['', ['no-readings']],
    ['frequency: 850 kHz', ['reading-far-off']],
    ['frequency: 85 Hz', ['reading-far-off']],
    ['supplyCurrentIdle: 0 A', ['reading-far-off']],
    ['supplyCurrentIdle: 510 A', ['reading-far-off']],
    ['drainPeak: 75 V', ['impossible-reading']],
    ['supplyCurrentIdle: 1 A, supplyCurrentLoaded: 700 mA', ['impossible-reading']],
    ['gateHigh: 14 V', ['impossible-reading']],
    ['coilTemperature: 10 degC', ['impossible-reading']],
    ['frequency: 85 kHz, drainPeak: 57 V', []],
  ])('%s', (text, expected) => expect(ids(text)).toEqual(expected));
});

describe('margins as built', () => {
  test('where everything reads as predicted, a coil given by its geometry is as hot as check has it, at most', () => {
    const text = example('barn-charger').replace(/readings:[^]*$/, '');
    const design = designOf(text);
    const { frequency, supplyCurrentIdle, drainPeak } = expectedReadings(readingModel(design));
    const readings = { frequency, supplyCurrentIdle, drainPeak } as Readonly<Record<string, number>>;
    const read = { ...design, readings: Object.fromEntries(Object.entries(readings).map(([key, value]) => [key, { value }])) };
    const study = readingsStudy({ design: read, policies: defaults });
    const checked = reviewed(text).get('coil-temperature')!.value!;
    const asBuilt = study.asBuilt.find(({ id }) => id === 'coil-temperature')!.value!;
    expect(asBuilt).toBeLessThan(checked + 0.5);
    expect(asBuilt).toBeGreaterThan(checked - 4);
  });

  test('a perfect set leaves the review as it was', () => {
    const design = designOf(measuredPad);
    const values = Object.entries(predicted(readingModel(design), projectFactors)!);
    const readings = Object.fromEntries(values.flatMap(([key, value]) => (typeof value === 'number' ? [[key, { value }]] : [])));
    const study = readingsStudy({ design: { ...design, readings }, policies: defaults });
    expect(study.restsOn).toBe('tolerances');
    expect(study.causes).toEqual([]);
    expect(study.asBuilt.filter(({ verdict }) => verdict === 'fail')).toEqual([]);
    for (const { value, project } of study.estimates) expect(value / project).toBeCloseTo(1, 3);
  });

  test('a bank that lost capacitors is reviewed with those that are left', () => {
    const design = designOf(example('charging-pad'));
    const study = readingsStudy({ design: readingsOf(design, 'frequency: 139 kHz, supplyCurrentIdle: 130 mA'), policies: defaults });
    expect(study.causes[0]!.words).toBe('2 of 6 capacitors lost');
    // four carry what six did at a lower current: 6/4·√(4/6) = 1.22 times
    const asWritten = predicted(readingModel(design), projectFactors)!.tankCurrentPeak as number;
    const current = study.asBuilt.find(({ id }) => id === 'capacitor-current')!.value!;
    expect(current).toBeGreaterThan((1.2 * asWritten) / Math.SQRT2 / 6);
  });

  test('readings that contradict a running driver are refused at their place', () => {
    const design = readingsOf(designOf(measuredPad), 'frequency: 850 kHz');
    expect(() => readingsStudy({ design, policies: defaults })).toThrow(InputError);
  });
});
