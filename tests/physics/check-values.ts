import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';

/** One published or computed value to test against, from shared/references/check-values.yaml. */
export interface CheckValue {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, { value: number | number[]; unit: string }>>;
  readonly expected: Readonly<Record<string, { value: number | number[]; unit: string }>>;
  readonly tolerance: { kind: string; value?: number };
  readonly source: string;
  readonly known: string;
}

const path = join(import.meta.dirname, '..', '..', 'shared', 'references', 'check-values.yaml');
export const checkValues = (parse(readFileSync(path, 'utf8')) as { rows: CheckValue[] }).rows;

/** Factors of the units that the file uses. */
const units: Readonly<Record<string, number>> = {
  '1': 1,
  '%': 0.01,
  '0.0001': 1e-4,
  V: 1,
  A: 1,
  W: 1,
  J: 1,
  mJ: 1e-3,
  ohm: 1,
  mohm: 1e-3,
  Hz: 1,
  kHz: 1e3,
  H: 1,
  mH: 1e-3,
  uH: 1e-6,
  F: 1,
  uF: 1e-6,
  nF: 1e-9,
  s: 1,
  us: 1e-6,
  ns: 1e-9,
  'V/us': 1e6,
  'A/us': 1e6,
  'rad/s': 1,
  var: 1,
  K: 1,
  'K/W': 1,
  C: 1,
  nC: 1e-9,
  cm2: 1e-4,
  m: 1,
  cm: 1e-2,
  mm: 1e-3,
  in: 0.0254,
  m2: 1,
  '1e-6 m2/s': 1e-6,
  'm2/s': 1,
  'm/s2': 1,
  '1/K': 1,
  'W/m': 1,
  'W/mK': 1,
  'mW/mK': 1e-3,
  'W/m2K': 1,
  '1e-8 W/m2K4': 1e-8,
  'mohm/m': 1e-3,
  MHz: 1e6,
  'A turn': 1,
  'A turns': 1,
  'A/m': 1,
  T: 1,
  uT: 1e-6,
  '1e-7 T': 1e-7,
  nH: 1e-9,
  side: 1,
  deg: Math.PI / 180,
  turns: 1,
  AWG: 1,
  'H/m': 1,
  'uH/m': 1e-6,
  'nH/m': 1e-9,
  'ohm m': 1,
  '1e-8 ohm m': 1e-8,
  'MS/m': 1e6,
  mT: 1e-3,
  'mW/m': 1e-3,
  cycles: 1,
};

/** A row by id. */
export function row(id: string): CheckValue {
  const found = checkValues.find((candidate) => candidate.id === id);
  if (found === undefined) throw new Error(`no row ${id}`);
  return found;
}

/** A quantity of a row in SI; °C becomes K. */
export function si({ value, unit }: { value: number | number[]; unit: string }): number {
  if (typeof value !== 'number') throw new Error('a list; use siList');
  if (unit === 'degC') return value + 273.15;
  const factor = units[unit];
  if (factor === undefined) throw new Error(`unit ${unit} is not in the table`);
  return value * factor;
}

/** A list of a row in SI. */
export function siList({ value, unit }: { value: number | number[]; unit: string }): number[] {
  if (typeof value === 'number') throw new Error('a single value; use si');
  return value.map((one) => si({ value: one, unit }));
}

/** An input of a row in SI. */
export function input(id: string, name: string): number {
  return si(row(id).inputs[name]!);
}

/** An expected value of a row in SI. */
export function expected(id: string, name: string): number {
  return si(row(id).expected[name]!);
}
