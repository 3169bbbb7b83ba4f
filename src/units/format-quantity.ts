import type { Dimension } from './dimension.ts';
import { unitOf } from './dimensions-table.ts';

/** Steps of a dimension, ascending: factor and symbol. The first whose number is 1 or more is used. */
type Steps = readonly (readonly [number, string])[];

const engineering = (unit: string, symbols: string): Steps => {
  const all: Record<string, number> = { p: 1e-12, n: 1e-9, µ: 1e-6, m: 1e-3, '-': 1, k: 1e3, M: 1e6, G: 1e9 };
  return [...symbols].map((symbol) => [all[symbol]!, (symbol === '-' ? '' : symbol) + unit] as const);
};

const steps: Readonly<Record<Dimension, Steps>> = {
  voltage: engineering('V', 'nµm-k'),
  current: engineering('A', 'nµm-k'),
  resistance: engineering('Ω', 'µm-kMG'),
  conductance: engineering('S', 'µm-'),
  inductance: engineering('H', 'pnµm-'),
  capacitance: engineering('F', 'pnµ'),
  frequency: engineering('Hz', '-kMG'),
  time: engineering('s', 'pnµm-'),
  power: engineering('W', 'nµm-kM'),
  energy: engineering('J', 'nµm-k'),
  charge: engineering('C', 'pnµm-'),
  temperature: [[1, '°C']],
  temperatureRise: [[1, 'K']],
  thermalResistance: [[1, 'K/W']],
  voltagePerTemperature: [
    [1e-3, 'mV/K'],
    [1, 'V/K'],
  ],
  voltagePerTime: [
    [1, 'V/s'],
    [1e3, 'V/ms'],
    [1e6, 'V/µs'],
    [1e9, 'kV/µs'],
  ],
  length: [
    [1e-3, 'mm'],
    [1, 'm'],
  ],
  currentDensity: [[1e6, 'A/mm²']],
  fluxDensity: engineering('T', 'nµm-'),
  ratio: [[0.01, '%']],
  count: [[1, '']],
};

/**
 * A quantity for people: engineering prefix, so many significant digits, one space before the unit.
 *
 * @param value      in SI; a temperature in K
 * @param dimension  of the value
 * @param digits     significant digits, 1 to 15; whole digits before the point are never cut, a temperature has one decimal at most
 * @returns such as `1.8 µH`, `92.1 kHz`, `85 °C`, `5 %`
 * Errors: RangeError where the value is not finite, or the digits are no whole number from 1 to 15.
 *
 * @example formatQuantity({ value: 1.8e-6, dimension: 'inductance' }) // '1.8 µH'
 * @example formatQuantity({ value: 0.99996, dimension: 'voltage' }) // '1 V'
 * @example formatQuantity({ value: 4.7e-3, dimension: 'capacitance' }) // '4700 µF'
 * @example formatQuantity({ value: 358.15, dimension: 'temperature' }) // '85 °C'
 * @example formatQuantity({ value: 1.2e15, dimension: 'voltage' }) // '1.2e15 V'
 */
export function formatQuantity({ value, dimension, digits = 3 }: { value: number; dimension: Dimension; digits?: number }): string {
  if (!Number.isFinite(value)) throw new RangeError(`cannot print ${value} as ${dimension}`);
  if (!Number.isInteger(digits) || digits < 1 || digits > 15) throw new RangeError(`cannot print ${digits} significant digits`);
  if (dimension === 'temperature') return celsius({ value: value - 273.15, digits });
  const [first, ...rest] = steps[dimension] as [Steps[number], ...Steps];
  let [factor, symbol] = value === 0 ? (steps[dimension].find(([size]) => size === 1) ?? first) : first;
  for (const [size, name] of rest) {
    // the next step is taken as soon as the rounded number would read 1 in it
    if (Math.abs(Number((value / size).toPrecision(digits))) >= 1) [factor, symbol] = [size, name];
  }
  const size = Math.abs(value / factor);
  const isBeyond = value !== 0 && (symbol === '%' ? size === Infinity : size >= 1e9 || size < 1e-6);
  const [divisor, unit] = isBeyond ? [1, unitOf(dimension).replace('ohm', 'Ω').replace(/^1$/, '')] : [factor, symbol];
  const number = significant({ value: value / divisor, digits });
  return unit === '' ? number : `${number} ${unit}`;
}

function celsius({ value, digits }: { value: number; digits: number }): string {
  return `${Math.abs(value) < 1e9 ? trimmed(value.toFixed(1)) : significant({ value, digits })} °C`;
}

function significant({ value, digits }: { value: number; digits: number }): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(digits));
  const magnitude = Math.floor(Math.log10(Math.abs(rounded)));
  if (magnitude >= 9 || magnitude < -6) return trimmed(value.toExponential(digits - 1)).replace('e+', 'e');
  if (magnitude >= digits) return value.toFixed(0);
  return trimmed(rounded.toFixed(Math.max(0, digits - 1 - magnitude)));
}

/** Without zeros behind the point, and without a minus before zero. */
function trimmed(text: string): string {
  const short = text.replace(/(\.\d*?)0+(?=e|$)/, '$1').replace(/\.(?=e|$)/, '');
  return short === '-0' ? '0' : short;
}

/**
 * The same text in ASCII, for terminals that show nothing else. A letter loses its accent, a sign that has no word here becomes `?`.
 *
 * @example asciiText('470 Ω, 1.8 µH, −5 %') // '470 ohm, 1.8 uH, -5 %'
 */
export function asciiText(text: string): string {
  const plain: Readonly<Record<string, string>> = {
    µ: 'u',
    μ: 'u',
    Ω: 'ohm',
    '\u2126': 'ohm',
    '°': 'deg',
    '−': '-',
    '–': '-',
    '×': 'x',
    '·': '*',
    π: 'pi',
    ω: 'w',
    ζ: 'zeta',
    Δ: 'd',
    δ: 'delta',
    '√': 'sqrt',
    '²': '2',
    '∞': 'inf',
    '⋅': '*',
    '½': '1/2',
    '’': "'",
    '′': "'",
    '∥': '||',
    '±': '+-',
    '≤': '<=',
    '≥': '>=',
    '…': '...',
    '≈': '~',
    '∝': '~',
    '→': '->',
    '—': '-',
    '‘': "'",
    '“': '"',
    '”': '"',
    '³': '3',
    Σ: 'sum',
    τ: 'tau',
    ρ: 'rho',
  };
  const letter = (char: string): string => plain[char] ?? (char <= '\x7F' ? char : /\p{M}/u.test(char) ? '' : '?');
  return [...text].map((char) => plain[char] ?? [...char.normalize('NFKD')].map(letter).join('')).join('');
}
