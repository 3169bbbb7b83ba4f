import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Dimension } from '../../src/units/dimension.ts';
import { dimensions } from '../../src/units/dimensions-table.ts';
import { asciiText, formatQuantity } from '../../src/units/format-quantity.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';

test.each<[number, Dimension, string]>([
  [1.8e-6, 'inductance', '1.8 µH'],
  [92.1e3, 'frequency', '92.1 kHz'],
  [138526.6, 'frequency', '139 kHz'],
  [75.398, 'voltage', '75.4 V'],
  [24, 'voltage', '24 V'],
  [100, 'voltage', '100 V'],
  [1234, 'voltage', '1.23 kV'],
  [0.99996, 'voltage', '1 V'],
  [999.6, 'voltage', '1 kV'],
  [470, 'resistance', '470 Ω'],
  [0.006, 'resistance', '6 mΩ'],
  [4.7e-3, 'capacitance', '4700 µF'],
  [358.15, 'temperature', '85 °C'],
  [340.4, 'temperature', '67.3 °C'],
  [263.15, 'temperature', '-10 °C'],
  [12.44, 'temperatureRise', '12.4 K'],
  [0.5, 'thermalResistance', '0.5 K/W'],
  [0.05, 'ratio', '5 %'],
  [2.751, 'ratio', '275 %'],
  [47.4e6, 'voltagePerTime', '47.4 V/µs'],
  [-0.0068, 'voltagePerTemperature', '-6.8 mV/K'],
  [14.36, 'count', '14.4'],
  [0, 'voltage', '0 V'],
  [-3.25, 'voltage', '-3.25 V'],
  [0.06, 'length', '60 mm'],
  [5e-8, 'time', '50 ns'],
  [1.2e15, 'voltage', '1.2e15 V'],
  [-1.2e15, 'voltage', '-1.2e15 V'],
  [1e-30, 'resistance', '1e-30 Ω'],
  [1.7976931348623157e308, 'voltage', '1.8e308 V'],
  [1e25, 'temperature', '1e25 °C'],
  [1e12, 'count', '1e12'],
  [1.7e308, 'ratio', '1.7e308'],
  [-1234.5, 'temperatureRise', '-1235 K'],
  [5e9, 'voltagePerTime', '5 kV/µs'],
  [950e3, 'voltagePerTime', '950 V/ms'],
])('%d as %s reads %s', (value, dimension, wanted) => {
  expect(formatQuantity({ value, dimension })).toBe(wanted);
});

test.each([Number.NaN, Infinity, -Infinity])('%d is never printed', (value) => {
  for (const dimension of dimensions) expect(() => formatQuantity({ value, dimension })).toThrow(RangeError);
});

test.each([0, -1, 2.5, 16, Number.NaN])('%d significant digits are never printed', (digits) => {
  expect(() => formatQuantity({ value: 1, dimension: 'voltage', digits })).toThrow(RangeError);
});

test('every finite number is printed as one, with one unit', () => {
  fc.assert(
    fc.property(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.constantFrom(...dimensions),
      fc.integer({ min: 1, max: 15 }),
      (value, dimension, digits) => {
        expect(formatQuantity({ value, dimension, digits })).toMatch(/^-?\d+(\.\d*[1-9])?(e-?\d+)?( \S+)?$/);
      },
    ),
    { seed: 7, numRuns: 3000 },
  );
});

test('what is printed is read back as the same number to the printed digits', () => {
  const printable = dimensions.filter((dimension) => dimension !== 'count');
  fc.assert(
    fc.property(
      fc.constantFrom(...printable),
      fc.double({ min: -9, max: 5, noNaN: true }),
      fc.integer({ min: 2, max: 6 }),
      (dimension, exponent, digits) => {
        const value = 10 ** exponent;
        const parsed = parseQuantity({ text: formatQuantity({ value, dimension, digits }), dimension });
        expect(parsed.ok).toBe(true);
        if (!parsed.ok) return;
        const allowed = dimension === 'temperature' ? 0.051 : value * 0.51 * 10 ** (1 - digits);
        expect(Math.abs(parsed.value - value)).toBeLessThanOrEqual(allowed);
      },
    ),
    { seed: 5, numRuns: 2000 },
  );
});

test('in ASCII nothing else is left', () => {
  expect(asciiText('470 Ω, 1.8 µH, 67 °C, −5 %, ω·√2')).toBe('470 ohm, 1.8 uH, 67 degC, -5 %, w*sqrt2');
  expect(asciiText('μ \u2126 \u201Cé\u201D \u2192 \u2103 \u706B')).toBe('u ohm "e" -> degC ?');
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 50 }), (text) => {
      expect([...asciiText(text)].every((char) => char <= '\x7F')).toBe(true);
    }),
    { seed: 2 },
  );
});
