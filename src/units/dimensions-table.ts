import type { Dimension } from './dimension.ts';

interface DimensionEntry {
  /** SI unit symbol of a number in this dimension. */
  readonly unit: string;
  /** With its article. */
  readonly name: string;
  /** What to write, two ways. */
  readonly examples: readonly [string, string];
}

const table: Readonly<Record<Dimension, DimensionEntry>> = {
  voltage: { unit: 'V', name: 'a voltage', examples: ['18 V', '850 mV'] },
  current: { unit: 'A', name: 'a current', examples: ['10 A', '250 mA'] },
  resistance: { unit: 'ohm', name: 'a resistance', examples: ['470 ohm', '6 mohm'] },
  conductance: { unit: 'S', name: 'a conductance', examples: ['17 S', '500 mS'] },
  inductance: { unit: 'H', name: 'an inductance', examples: ['1.8 uH', '100 uH'] },
  capacitance: { unit: 'F', name: 'a capacitance', examples: ['330 nF', '4700 uF'] },
  frequency: { unit: 'Hz', name: 'a frequency', examples: ['139 kHz', '0.1 MHz'] },
  time: { unit: 's', name: 'a time', examples: ['2 ms', '50 ns'] },
  power: { unit: 'W', name: 'a power', examples: ['25 W', '500 mW'] },
  energy: { unit: 'J', name: 'an energy', examples: ['315 mJ', '0.3 J'] },
  charge: { unit: 'C', name: 'a charge', examples: ['123 nC', '2 uC'] },
  temperature: { unit: 'K', name: 'a temperature', examples: ['30 degC', '303 K'] },
  temperatureRise: { unit: 'K', name: 'a temperature rise', examples: ['10 K', '1.5 K'] },
  thermalResistance: { unit: 'K/W', name: 'a thermal resistance', examples: ['5 K/W', '0.24 K/W'] },
  voltagePerTemperature: { unit: 'V/K', name: 'a voltage per temperature', examples: ['-6.8 mV/K', '-0.005 V/K'] },
  voltagePerTime: { unit: 'V/s', name: 'a voltage slope', examples: ['400 V/us', '5 kV/us'] },
  length: { unit: 'm', name: 'a length', examples: ['60 mm', '2 in'] },
  currentDensity: { unit: 'A/m^2', name: 'a current density', examples: ['6 A/mm^2', '2.5 A/mm^2'] },
  fluxDensity: { unit: 'T', name: 'a magnetic flux density', examples: ['27 uT', '0.1 mT'] },
  ratio: { unit: '1', name: 'a ratio', examples: ['5 %', '0.5 %'] },
  count: { unit: '1', name: 'a number', examples: ['24', '2.3'] },
};

/**
 * SI unit symbol of the numbers of a dimension; `1` for ratios and counts.
 *
 * @example unitOf('thermalResistance') // 'K/W'
 */
export function unitOf(dimension: Dimension): string {
  return table[dimension].unit;
}

/**
 * A dimension in words, with its article.
 *
 * @example nameOf('inductance') // 'an inductance'
 */
export function nameOf(dimension: Dimension): string {
  return table[dimension].name;
}

/**
 * Two ways of writing a quantity of a dimension.
 *
 * @example examplesOf('voltage') // ['18 V', '850 mV']
 */
export function examplesOf(dimension: Dimension): readonly [string, string] {
  return table[dimension].examples;
}

/**
 * How a quantity of a dimension is written.
 *
 * @example exampleOf('time') // '2 ms'
 */
export function exampleOf(dimension: Dimension): string {
  return table[dimension].examples[0];
}

/** Every dimension, in the order of the table. */
export const dimensions = Object.keys(table) as readonly Dimension[];
