import type { PartKind } from './part.ts';

const names: Readonly<Record<PartKind, string>> = {
  mosfets: 'MOSFET',
  diodes: 'diode',
  zeners: 'zener diode',
  capacitors: 'capacitor',
  chokes: 'choke',
};

/**
 * What one part of a kind is called.
 *
 * @param kind  of part
 * @returns the trade's word, singular
 *
 * @example kindName('mosfets') // 'MOSFET'
 */
export function kindName(kind: PartKind): string {
  return names[kind];
}
