import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { burnThreshold } from '../../src/physics/hot-surface.ts';
import { formerReferenceLevel, heatingLevel, magneticReferenceLevel, nerveStimulationLevel } from '../../src/physics/magnetic-exposure.ts';
import { expected, input, row } from './check-values.ts';
import { near } from './near.ts';

const mu0 = 4e-7 * Math.PI;
const exposures = ['public', 'occupational'] as const;
const frequencies = (min: number, max: number) =>
  fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map((exponent) => Math.min(max, Math.max(min, Math.exp(exponent))));

describe('levels against nerve stimulation, ICNIRP 2010', () => {
  test('H-icnirp2010: 3 kHz to 10 MHz, read', () => {
    for (const frequency of [3.1e3, 100e3, 10e6]) {
      near(nerveStimulationLevel({ exposure: 'public', frequency }), expected('H-icnirp2010', 'GP_B_3k_10M'));
      near(nerveStimulationLevel({ exposure: 'occupational', frequency }), expected('H-icnirp2010', 'OCC_B_3k_10M'));
    }
    near(expected('H-icnirp2010', 'GP_H_3k_10M') * mu0, expected('H-icnirp2010', 'GP_B_3k_10M'), 0.025);
  });

  test('H-icnirp2010: 0.08/f and 0.3/f below 3 kHz; 200 µT and 1 mT at mains frequency', () => {
    near(nerveStimulationLevel({ exposure: 'public', frequency: 1e3 }), 80e-6);
    near(nerveStimulationLevel({ exposure: 'occupational', frequency: 1e3 }), 300e-6);
    near(nerveStimulationLevel({ exposure: 'public', frequency: 60 }), 200e-6);
    near(nerveStimulationLevel({ exposure: 'occupational', frequency: 60 }), 1e-3);
  });

  test('continuous at the corners, but for the published rounding at 3 kHz', () => {
    for (const exposure of exposures)
      for (const corner of [8, 25, 300, 400, 3e3]) {
        const [below, above] = [corner * (1 - 1e-9), corner * (1 + 1e-9)].map((frequency) =>
          nerveStimulationLevel({ exposure, frequency }),
        );
        near(below!, above!, corner === 3e3 ? 0.013 : 1e-6);
      }
  });
});

describe('levels against heating, ICNIRP 2020', () => {
  test.each(['H-icnirp2020-local-0.1', 'H-icnirp2020-local-1'])('%s, read', (id) => {
    const given = { region: 'local', frequency: input(id, 'f') } as const;
    near(heatingLevel({ exposure: 'public', ...given }), expected(id, 'GP_B'));
    near(heatingLevel({ exposure: 'public', ...given }), expected(id, 'GP_H') * mu0);
    near(heatingLevel({ exposure: 'occupational', ...given }), expected(id, 'OCC_H') * mu0);
  });
  test.each(['H-icnirp2020-wb-0.1', 'H-icnirp2020-wb-0.15', 'H-icnirp2020-wb-1'])('%s, from memory', (id) => {
    const given = { region: 'whole body', frequency: input(id, 'f') } as const;
    near(heatingLevel({ exposure: 'public', ...given }), expected(id, 'GP_B'));
    near(heatingLevel({ exposure: 'occupational', ...given }), expected(id, 'OCC_H') * mu0);
  });
});

describe('the strictest level', () => {
  test('is never above one of its parts, the occupational never below the public', () => {
    fc.assert(
      fc.property(frequencies(1, 30e6), fc.constantFrom(...exposures), (frequency, exposure) => {
        const { fluxDensity, against } = magneticReferenceLevel({ exposure, frequency });
        const parts = [
          ...(frequency <= 10e6 ? [nerveStimulationLevel({ exposure, frequency })] : []),
          ...(frequency >= 100e3 ? [heatingLevel({ exposure, region: 'whole body', frequency })] : []),
        ];
        expect(fluxDensity).toBe(Math.min(...parts));
        if (against === 'heating') expect(frequency).toBeGreaterThanOrEqual(100e3);
        expect(magneticReferenceLevel({ exposure: 'occupational', frequency }).fluxDensity).toBeGreaterThan(
          magneticReferenceLevel({ exposure: 'public', frequency }).fluxDensity,
        );
      }),
    );
  });

  test('falls with frequency, for the public without a step at 100 kHz; the occupational step is the documented one', () => {
    fc.assert(
      fc.property(frequencies(3.1e3, 29e6), (frequency) => {
        for (const exposure of exposures)
          expect(magneticReferenceLevel({ exposure, frequency: frequency * 1.01 }).fluxDensity).toBeLessThanOrEqual(
            magneticReferenceLevel({ exposure, frequency }).fluxDensity,
          );
      }),
    );
    near(magneticReferenceLevel({ exposure: 'public', frequency: 100e3 }).fluxDensity, 27e-6);
    near(magneticReferenceLevel({ exposure: 'occupational', frequency: 99.9e3 }).fluxDensity, 100e-6);
    near(magneticReferenceLevel({ exposure: 'occupational', frequency: 100e3 }).fluxDensity, 61.5752160104e-6);
  });

  test('the former public level, 6.25 µT and 0.92/f µT in law, was stricter from 25 Hz to 10 MHz', () => {
    near(formerReferenceLevel({ exposure: 'public', frequency: 50 }), 100e-6);
    near(formerReferenceLevel({ exposure: 'public', frequency: 1e6 }), 0.92e-6);
    near(formerReferenceLevel({ exposure: 'occupational', frequency: 50 }), 500e-6);
    near(formerReferenceLevel({ exposure: 'occupational', frequency: 50e3 }), 30.7e-6);
    fc.assert(
      fc.property(frequencies(26, 10e6), fc.constantFrom(...exposures), (frequency, exposure) => {
        expect(formerReferenceLevel({ exposure, frequency })).toBeLessThan(magneticReferenceLevel({ exposure, frequency }).fluxDensity);
      }),
    );
    for (const [exposure, corner] of [
      ['public', 800],
      ['public', 150e3],
      ['occupational', 820],
      ['occupational', 65e3],
    ] as const)
      near(formerReferenceLevel({ exposure, frequency: corner }), formerReferenceLevel({ exposure, frequency: corner * (1 + 1e-9) }), 0.02);
  });

  test('outside the guidelines there is no level', () => {
    for (const frequency of [0, 0.99, -50, 31e6, Number.NaN, Infinity]) {
      expect(() => magneticReferenceLevel({ exposure: 'public', frequency })).toThrow(RangeError);
      expect(() => nerveStimulationLevel({ exposure: 'public', frequency })).toThrow(RangeError);
      expect(() => heatingLevel({ exposure: 'public', region: 'local', frequency })).toThrow(RangeError);
      expect(() => formerReferenceLevel({ exposure: 'public', frequency })).toThrow(RangeError);
    }
  });
});

describe('burn threshold of bare metal', () => {
  test('H-burn-iso: the recalled points, the low edge at 1 s', () => {
    const values = row('H-burn-iso').expected as unknown as Record<string, number | string>;
    const celsius = (contactTime: number): number => burnThreshold({ contactTime }) - 273.15;
    near(celsius(1), Number(String(values['1s']).split('..')[0]), 1e-12);
    near(celsius(10), Number(values['10s']), 1e-12);
    near(celsius(60), Number(values['1min']), 1e-12);
    near(celsius(600), Number(values['10min']), 1e-12);
    near(celsius(8 * 3600), Number(values['8h']), 1e-12);
  });

  test('H-burn-shriners: at the times to a serious burn that were read elsewhere it is lower, by less than 4 K', () => {
    const temperatures = row('H-burn-shriners').inputs['T']!.value as number[];
    const times = (row('H-burn-shriners').expected['t']!.value as unknown as string[]).map((text) => Number(/\d+(\.\d+)?/.exec(text)![0]));
    expect(times).toEqual([300, 90, 30, 10, 5, 3, 1.5, 1]);
    times.forEach((contactTime, i) => {
      const below = temperatures[i]! - (burnThreshold({ contactTime }) - 273.15);
      expect(below).toBeGreaterThan(0);
      expect(below).toBeLessThan(4);
    });
  });

  test('never rises with time; no data below half a second', () => {
    fc.assert(
      fc.property(frequencies(0.5, 1e6), (contactTime) => {
        expect(burnThreshold({ contactTime: contactTime * 1.1 })).toBeLessThanOrEqual(burnThreshold({ contactTime }));
        expect(burnThreshold({ contactTime })).toBeGreaterThanOrEqual(316.15);
      }),
    );
    for (const contactTime of [0, 0.4, -1, Number.NaN, Infinity]) expect(() => burnThreshold({ contactTime })).toThrow(RangeError);
  });
});
