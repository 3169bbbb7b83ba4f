import * as fc from 'fast-check';
import { evaluate as fullEvaluate, unit as fullUnit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import type { Dimension } from '../../src/units/dimension.ts';
import { dimensions, exampleOf, examplesOf, unitOf } from '../../src/units/dimensions-table.ts';
import { expressionValue } from '../../src/units/expression.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';

function read(text: string, dimension: Dimension): number {
  const parsed = parseQuantity({ text, dimension });
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`);
  return parsed.value;
}

describe('spellings', () => {
  test.each<[string, Dimension, number]>([
    ['1.8 uH', 'inductance', 1.8e-6],
    ['1.8 µH', 'inductance', 1.8e-6],
    ['1.8 μH', 'inductance', 1.8e-6],
    ['1.8uH', 'inductance', 1.8e-6],
    ['470 Ω', 'resistance', 470],
    ['470 \u2126', 'resistance', 470],
    ['470 ohm', 'resistance', 470],
    ['470 Ohm', 'resistance', 470],
    ['470 ohms', 'resistance', 470],
    ['4.7 kΩ', 'resistance', 4700],
    ['60 mohm', 'resistance', 0.06],
    ['6 mΩ', 'resistance', 0.006],
    ['1 Mohm', 'resistance', 1e6],
    ['30 °C', 'temperature', 303.15],
    ['30 degC', 'temperature', 303.15],
    ['30 ℃', 'temperature', 303.15],
    ['\u221210 °C', 'temperature', 263.15],
    ['303 K', 'temperature', 303],
    ['10 K', 'temperatureRise', 10],
    ['5 K/W', 'thermalResistance', 5],
    ['5 °C/W', 'thermalResistance', 5],
    ['5 degC/W', 'thermalResistance', 5],
    ['-6.8 mV/K', 'voltagePerTemperature', -0.0068],
    ['-6.8 mV/°C', 'voltagePerTemperature', -0.0068],
    ['400 V/us', 'voltagePerTime', 4e8],
    ['400 V/µs', 'voltagePerTime', 4e8],
    ['5 %', 'ratio', 0.05],
    ['5%', 'ratio', 0.05],
    ['-2 %', 'ratio', -0.02],
    ['0.05', 'ratio', 0.05],
    ['25\u00A0W', 'power', 25],
    ['1e-6 F', 'capacitance', 1e-6],
    ['.5 mm', 'length', 0.0005],
    ['2 * 47 uF', 'capacitance', 94e-6],
    ['2 × 47 µF', 'capacitance', 94e-6],
    ['2/3 in', 'length', (2 / 3) * 0.0254],
    ['(1 + 2) * 3 V', 'voltage', 9],
    ['24 V / 2', 'voltage', 12],
    ['12 V + 500 mV', 'voltage', 12.5],
    ['12 V - 500 mV', 'voltage', 11.5],
    ['1/(20 us)', 'frequency', 50e3],
    ['24 V / (2 A)', 'resistance', 12],
    ['24 V * 2 A', 'power', 48],
    ['-(3 V)', 'voltage', -3],
    ['2^3 V', 'voltage', 8],
    ['30 V / 15 V', 'count', 2],
    ['139 kHz', 'frequency', 139e3],
    ['123 nC', 'charge', 123e-9],
    ['17 S', 'conductance', 17],
    ['315 mJ', 'energy', 0.315],
    ['+5 V', 'voltage', 5],
    ['300 mK', 'temperature', 0.3],
    ['(20 + 5) degC', 'temperature', 298.15],
    ['-273.15 °C', 'temperature', 0],
    ['5 degC/W * 3 W', 'temperatureRise', 15],
    ['3 V ÷ 2', 'voltage', 1.5],
    ['18 V + 5 %', 'voltage', 18.9],
    ['5°C/W', 'thermalResistance', 5],
    ['5degC/W', 'thermalResistance', 5],
    ['5K/W', 'thermalResistance', 5],
    ['\u201310 °C', 'temperature', 263.15],
    ['5 V \u2212 1 V', 'voltage', 4],
    ['(1/20) %', 'ratio', 0.0005],
    ['24 V / 50 %', 'voltage', 48],
    ['10 V * 1 m / (2 m)', 'voltage', 5],
    ['(5 %) + (2 %)', 'ratio', 0.07],
  ])('%s is %s %d', (text, dimension, wanted) => {
    expect(Math.abs(read(text, dimension) - wanted)).toBeLessThanOrEqual(1e-12 * Math.abs(wanted));
  });

  test('every example that a message shows is read', () => {
    for (const dimension of dimensions) for (const text of examplesOf(dimension)) expect(Number.isFinite(read(text, dimension))).toBe(true);
  });
});

describe('refusals, each with what to write', () => {
  test.each<[string, Dimension, string, string]>([
    ['18', 'voltage', 'bare-number', '18 V'],
    ['1.8 mm', 'inductance', 'wrong-unit', '1.8 uH'],
    ['24 V^2', 'voltage', 'wrong-unit', '18 V'],
    ['5 V', 'ratio', 'wrong-unit', '5 %'],
    ['10 KHz', 'frequency', 'unknown-unit', 'kHz'],
    ['10 Mhz', 'frequency', 'unknown-unit', 'MHz'],
    ['12 Volts', 'voltage', 'unknown-unit', 'V'],
    ['12 volt', 'voltage', 'unknown-unit', 'V'],
    ['10 uf', 'capacitance', 'unknown-unit', 'uF'],
    ['10 uh', 'inductance', 'unknown-unit', 'uH'],
    ['12 v', 'voltage', 'unknown-unit', 'V'],
    ['3 blorps', 'voltage', 'unknown-unit', '18 V'],
    ['25 C', 'temperature', 'wrong-unit', '25 degC'],
    ['10 degC', 'temperatureRise', 'wrong-unit', '10 K'],
    ['1 h', 'time', 'wrong-unit', 's, ms'],
    ['10 m ohm', 'resistance', 'split-prefix', 'mohm'],
    ['10 m V', 'voltage', 'split-prefix', 'mV'],
    ['10 k ohm', 'resistance', 'split-prefix', 'kohm'],
    ['2 V 3 V', 'voltage', 'not-arithmetic', 'one quantity'],
    ['1,5 V', 'voltage', 'decimal-comma', '1.5'],
    ['4k7', 'resistance', 'letter-for-point', '4.7 kohm'],
    ['4k7 ohm', 'resistance', 'letter-for-point', '4.7 kohm'],
    ['4R7', 'resistance', 'letter-for-point', '4.7 ohm'],
    ['24 Vrms', 'voltage', 'suffixed-unit', 'V'],
    ['24 Vdc', 'voltage', 'suffixed-unit', 'V'],
    ['1e400 V', 'voltage', 'not-finite', ''],
    ['1 V / 0', 'voltage', 'not-finite', ''],
    ['NaN V', 'voltage', 'not-finite', 'number'],
    ['Infinity V', 'voltage', 'not-finite', 'number'],
    ['0x10 V', 'voltage', 'not-decimal', 'decimal'],
    ['', 'voltage', 'not-a-quantity', ''],
    ['   ', 'voltage', 'not-a-quantity', ''],
    ['-300 degC', 'temperature', 'below-absolute-zero', 'sign'],
    ['2 degC/W * 3 W + 50 degC', 'temperature', 'temperature-arithmetic', '50 degC'],
    ['30', 'temperature', 'bare-number', '30 degC'],
    ['5 % %', 'ratio', 'not-a-quantity', '5 %'],
    ['5 % 3', 'ratio', 'not-arithmetic', ''],
    ['sqrt(4) V', 'voltage', 'not-arithmetic', ''],
    ['ones(20000,20000)', 'voltage', 'not-arithmetic', ''],
    ['a = 3 V', 'voltage', 'not-arithmetic', ''],
    ['f(x) = x V', 'voltage', 'not-arithmetic', ''],
    ['1:3 V', 'voltage', 'not-arithmetic', ''],
    ['[1, 2] V', 'voltage', 'not-arithmetic', ''],
    ['3 V; 4 V', 'voltage', 'not-arithmetic', ''],
    ['true ? 3 V : 4 V', 'voltage', 'not-arithmetic', ''],
    ['3 V to mV', 'voltage', 'not-arithmetic', ''],
    ['"3" V', 'voltage', 'not-arithmetic', ''],
    ['3 V + 2 A', 'voltage', 'wrong-unit', ''],
    ['3 V + 2', 'voltage', 'wrong-unit', ''],
    ['3!', 'count', 'not-arithmetic', ''],
    ['3 V > 2 V', 'voltage', 'not-arithmetic', ''],
    [`${'('.repeat(50)}1${')'.repeat(50)} V`, 'voltage', 'too-long', 'result'],
    ['1+'.repeat(150), 'voltage', 'too-long', 'result'],
    ['fast', 'time', 'unknown-unit', '2 ms'],
    ['5 constructor', 'voltage', 'unknown-unit', '18 V'],
    ['-V', 'voltage', 'not-a-quantity', '18 V'],
    ['V * A', 'power', 'not-a-quantity', '25 W'],
    ['°C', 'temperature', 'not-a-quantity', '30 degC'],
    ['18 %', 'voltage', 'wrong-unit', '18 V'],
    ['5 %', 'temperature', 'wrong-unit', '30 degC'],
    ['5 KW', 'thermalResistance', 'unknown-unit', '5 K/W'],
    ['400 v/us', 'voltagePerTime', 'unknown-unit', 'did you mean V?'],
    ['10m V', 'voltage', 'split-prefix', 'write 10 mV'],
    ['10k ohm', 'resistance', 'split-prefix', 'write 10 kohm'],
    ['2V5', 'voltage', 'letter-for-point', 'write 2.5 V'],
    ['4K7', 'resistance', 'letter-for-point', 'write 4.7 kohm'],
    ['4R7', 'voltage', 'letter-for-point', '18 V'],
    ['4k7', 'capacitance', 'letter-for-point', '330 nF'],
    [',5 V', 'voltage', 'decimal-comma', 'write 0.5 V'],
    ['2 1/2 in', 'length', 'not-arithmetic', 'write (2 + 1/2) in'],
    ['3/8"', 'length', 'unknown-unit', 'write 3/8 in'],
    ['24 Vp-p', 'voltage', 'suffixed-unit', 'write 24 V'],
    ['17 S typ', 'conductance', 'suffixed-unit', 'write 17 S'],
    ['10 degC max', 'temperature', 'suffixed-unit', 'write 10 degC'],
    ['+-5 %', 'ratio', 'not-arithmetic', 'write 5 %'],
    ['12 V\u201315 V', 'voltage', 'not-arithmetic', '18 V'],
    ['12\u201315', 'count', 'not-arithmetic', '24'],
    ['5-6 V', 'voltage', 'not-arithmetic', '18 V'],
    ['20-30 degC', 'temperature', 'not-arithmetic', '30 degC'],
    ['5..6 V', 'voltage', 'not-arithmetic', '18 V'],
    ['5 V to 6 V', 'voltage', 'not-arithmetic', '18 V'],
    ['1/20 %', 'ratio', 'not-arithmetic', 'write (1/20) %, or 1/20'],
    ['1 day', 'time', 'wrong-unit', 's, ms'],
    ['5\u202EV', 'voltage', 'not-a-quantity', '18 V'],
    ['5 __proto__', 'voltage', 'unknown-unit', '18 V'],
    ['5²V', 'voltage', 'not-arithmetic', '^'],
    ['1½ in', 'length', 'not-arithmetic', '/'],
    ['10⁻³ V', 'voltage', 'not-arithmetic', '^'],
    ['0.05 + 2 %', 'ratio', 'not-arithmetic', 'result'],
    ['5 % + 2 %', 'ratio', 'not-arithmetic', 'percentage'],
    ['V', 'voltage', 'not-a-quantity', '18 V'],
    ['V/us', 'voltagePerTime', 'not-a-quantity', '400 V/us'],
    ['5 V # typical', 'voltage', 'not-arithmetic', 'quotes'],
    ['±5 %', 'ratio', 'not-arithmetic', 'write 5 %'],
    ['100 nF ± 5 %', 'capacitance', 'not-arithmetic', 'write 100 nF'],
    ['24 x 100 nF', 'capacitance', 'not-arithmetic', 'write 24 * 100 nF'],
    ['2 * 1,5 V', 'voltage', 'decimal-comma', 'write 2 * 1.5 V'],
    ['1.000,5 V', 'voltage', 'decimal-comma', 'write 1000.5 V'],
    ['1,000,000 Hz', 'frequency', 'decimal-comma', 'write 1000000 Hz'],
    ['1,500 V', 'voltage', 'decimal-comma', 'or 1500 V'],
    ['1 000 V', 'voltage', 'digit-grouping', 'write 1000 V'],
    ["1'000 V", 'voltage', 'digit-grouping', 'write 1000 V'],
    ['2n2', 'capacitance', 'letter-for-point', 'write 2.2 nF'],
    ['R47', 'resistance', 'letter-for-point', 'write 0.47 ohm'],
    ['24 V rms', 'voltage', 'suffixed-unit', 'write 24 V'],
    ['24 kVpp', 'voltage', 'suffixed-unit', 'write 24 kV'],
    ['10 K ohm', 'resistance', 'split-prefix', 'write 10 kohm'],
    ['10 mm', 'inductance', 'wrong-unit', 'did you mean "10 mH"?'],
    ['330 nH', 'capacitance', 'wrong-unit', 'did you mean "330 nF"?'],
    ['10 uS', 'time', 'wrong-unit', 'did you mean "10 us"?'],
    ['400 V/uS', 'voltagePerTime', 'wrong-unit', 'did you mean "400 V/us"?'],
    ['10 K', 'resistance', 'wrong-unit', 'did you mean "10 kohm"?'],
    ['10 C', 'temperatureRise', 'wrong-unit', 'did you mean "10 K"?'],
    ['5 C/W', 'thermalResistance', 'wrong-unit', 'did you mean "5 K/W"?'],
    ['10 k', 'resistance', 'unknown-unit', 'did you mean "10 kohm"?'],
    ['100n', 'capacitance', 'unknown-unit', 'did you mean "100 nF"?'],
    ['1 MWatts', 'power', 'unknown-unit', 'did you mean "1 MW"?'],
    ['5 percent', 'ratio', 'unknown-unit', 'write 5 %'],
    ['25 ºC', 'temperature', 'unknown-unit', 'write 25 degC'],
    ['25 celsius', 'temperature', 'unknown-unit', 'write 25 degC'],
    ['298 °K', 'temperature', 'unknown-unit', 'write 298 K'],
    ['1 + 2 degC', 'temperature', 'wrong-unit', 'same kind'],
    ['50 degC / 2', 'temperature', 'temperature-arithmetic', '50 degC'],
    ['5 K/W * 3 W', 'temperature', 'temperature-arithmetic', '50 degC'],
    ['50 degC - 20 degC', 'temperatureRise', 'wrong-unit', 'in K'],
    ['-1e400 degC', 'temperature', 'not-finite', 'finite'],
    ['5 degC', 'voltage', 'wrong-unit', '18 V'],
    ['3 V +', 'voltage', 'not-a-quantity', '18 V'],
  ])('%s as %s is %s', (text, dimension, id, help) => {
    const parsed = parseQuantity({ text, dimension });
    expect(parsed.ok).toBe(false);
    if (parsed.ok) return;
    expect(parsed.problem.id).toBe(id);
    expect(parsed.problem.help ?? '').toContain(help);
    expect(parsed.problem.message).not.toMatch(/\bNaN\b|undefined|\[object|\p{Cc}|\p{Cf}/u);
    // a whole quantity that a help tells to write is one
    const [, told, meant] = /^write ([-\d.(][^,]*)|^did you mean "(.*?)"/.exec(parsed.problem.help ?? '') ?? [];
    const whole = told ?? meant;
    if (whole !== undefined) expect(parseQuantity({ text: whole, dimension })).toMatchObject({ ok: true });
  });
});

test('the units are those of the whole of mathjs, over 2,000 values, prefixes and units', () => {
  const cases: [string, Dimension][] = [];
  const list: [string, string, Dimension][] = [
    ['V', 'unmk', 'voltage'],
    ['A', 'unmk', 'current'],
    ['ohm', 'unmkMG', 'resistance'],
    ['H', 'pnum', 'inductance'],
    ['F', 'pnum', 'capacitance'],
    ['Hz', 'kMG', 'frequency'],
    ['s', 'pnum', 'time'],
    ['W', 'unmkM', 'power'],
    ['J', 'unmk', 'energy'],
    ['C', 'pnum', 'charge'],
    ['m', 'umc', 'length'],
    ['S', 'um', 'conductance'],
  ];
  for (const [name, prefixes, dimension] of list) {
    for (const prefix of ['', ...prefixes])
      for (let i = 0; i < 40; i++) cases.push([`${(1.37 ** i / 100).toPrecision(7)} ${prefix}${name}`, dimension]);
  }
  expect(cases.length).toBeGreaterThan(1900);
  for (const [text, dimension] of cases) {
    const wanted = fullUnit(text).toNumber(unitOf(dimension));
    expect(Math.abs(read(text, dimension) - wanted)).toBeLessThanOrEqual(1e-12 * wanted);
  }
});

test('the plain form and the expression parser give the same bits', () => {
  for (const text of ['1.8 uH', '2.159 nF', '75 mohm', '0.3 in', '1e-3 V', '47.11 kHz']) {
    const slow = expressionValue(text);
    const dimension = dimensions.find((candidate) => parseQuantity({ text, dimension: candidate }).ok && unitOf(candidate) !== '1')!;
    expect(read(text, dimension)).toBe(typeof slow === 'number' ? slow : slow.value);
  }
});

test('arithmetic comes to what the whole of mathjs makes of it', () => {
  const number = fc.double({ min: 0.01, max: 999, noNaN: true }).map((value) => Number(value.toPrecision(4)));
  const unit = fc.constantFrom('V', 'mV', 'kV', 'uV');
  const { voltage } = fc.letrec<{ voltage: string }>((tie) => ({
    voltage: fc.oneof(
      { maxDepth: 4 },
      fc.tuple(number, unit).map(([a, b]) => `${a} ${b}`),
      fc.tuple(number, number, unit).map(([a, b, c]) => `${a} * ${b} ${c}`),
      fc.tuple(number, number, unit).map(([a, b, c]) => `${a}/${b} ${c}`),
      fc.tuple(number, number, unit).map(([a, b, c]) => `${a} ${c} / ${b}`),
      fc.tuple(tie('voltage'), tie('voltage')).map(([a, b]) => `(${a} + ${b})`),
      fc.tuple(number, tie('voltage')).map(([a, b]) => `${a} * (${b})`),
      fc.tuple(tie('voltage'), number).map(([a, b]) => `(${a}) / ${b}`),
      fc.tuple(tie('voltage'), number).map(([a, b]) => `((${a})^2 / (${b} V))`),
    ),
  }));
  fc.assert(
    fc.property(
      voltage.filter((text) => text.length <= 200),
      (text) => {
        const wanted = (fullEvaluate(text) as { toNumber: (unit: string) => number }).toNumber('V');
        expect(Math.abs(read(text, 'voltage') - wanted)).toBeLessThanOrEqual(1e-12 * wanted);
      },
    ),
    { seed: 3, numRuns: 1000 },
  );
});

test('any text is a finite number or one problem, at once', () => {
  const pieces = fc.constantFrom(
    '1',
    '2.5',
    '1e9',
    'V',
    'uH',
    'ohm',
    'degC',
    '%',
    '+',
    '-',
    '*',
    '/',
    '^',
    '(',
    ')',
    ' ',
    ',',
    '.',
    '[',
    '"',
    'sqrt',
    'constructor',
    '__proto__',
    'valueOf',
    '²',
    '½',
    '#',
    '1%',
    '\u2013',
    'to',
    'x',
    'max',
    'i',
    'e',
    '!',
    ':',
    '?',
    '=',
    ';',
    '\n',
    'µ',
    '°',
  );
  const texts = fc.oneof(
    fc.string({ maxLength: 300, unit: 'binary' }),
    fc.array(pieces, { maxLength: 120 }).map((parts) => parts.join('')),
  );
  fc.assert(
    fc.property(texts, fc.constantFrom(...dimensions), (text, dimension) => {
      const parsed = parseQuantity({ text, dimension });
      if (parsed.ok) expect(Number.isFinite(parsed.value)).toBe(true);
      else {
        expect(parsed.problem.message).not.toMatch(/^$|undefined|\[object/);
        expect(parsed.problem.help).toMatch(/^(write|use|give|check|did you mean) ./);
        expect(parsed.problem.help).not.toMatch(/undefined|\[object/);
      }
    }),
    { seed: 11, numRuns: 3000 },
  );
});

test.each([
  ['digits', '1'.repeat(100_000) + '!'],
  ['digits and a unit', '1'.repeat(201) + ' V'],
  ['ligatures that unfold', '\uFDFA'.repeat(1_000_000)],
])('a text too long is refused before anything is done with it: %s', (_, text) => {
  const start = performance.now();
  expect(parseQuantity({ text, dimension: 'voltage' })).toMatchObject({ ok: false, problem: { id: 'too-long' } });
  expect(performance.now() - start).toBeLessThan(500);
});

test('nineteen nested percentages take no more time than nineteen sums', () => {
  const nested = (change: string): string => '('.repeat(19) + '1 V' + `+${change})`.repeat(19);
  const seconds = (text: string): number => {
    const start = performance.now();
    read(text, 'voltage');
    return performance.now() - start;
  };
  seconds(nested('1 mV'));
  expect(read(nested('1%'), 'voltage')).toBeCloseTo(1.01 ** 19, 12);
  expect(seconds(nested('1%'))).toBeLessThan(20 * seconds(nested('1 mV')) + 100);
});

test('an example of a dimension is its first one', () => {
  expect(exampleOf('voltage')).toBe('18 V');
});
