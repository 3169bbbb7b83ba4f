import type { Analysis } from '../driver/analysis.ts';
import { lacks, type Unknown } from '../driver/known.ts';
import type { Rating } from '../parts/part.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Finding, Measured, Unassessed } from './check.ts';

/** A rating as a statement of a result's basis: `rated 200 V (data sheet)`. */
export function ratedBasis({ what, rating, dimension }: { what: string; rating: Rating; dimension: Dimension }): string {
  const note = rating.note === undefined ? '' : `; ${rating.note}`;
  return `${what} ${formatQuantity({ value: rating.value, dimension })} (${rating.source}${note})`;
}

/** A finding with a value. What is not given is there as undefined: findings that are all alike are quick to judge. */
export function measured({
  value,
  rating,
  levels,
  other,
  strictness,
  timed,
  doubt,
  moment,
  path,
  basis,
  remedy,
}: Omit<Measured & Finding, 'kind'>): Measured & Finding {
  return { kind: 'measured', value, rating, levels, other, strictness, timed, doubt, moment, path, basis, remedy };
}

/** A finding that says why nothing could be assessed. */
export function unassessed({ unknown, path, moment }: Unknown & { path: string; moment?: string }): Unassessed & Finding {
  return { kind: 'unassessed', reason: unknown, path, moment };
}

/** What rounding to so many digits can take off or add. */
function rounding(digits: number): number {
  return 0.5 * 10 ** (1 - digits);
}

/** A quantity for `… or less` in a remedy: rounded down, so that what is written there is enough. */
export function noMoreThan({ value, dimension, digits = 3 }: { value: number; dimension: Dimension; digits?: number }): string {
  return formatQuantity({ value: value * (1 - rounding(digits)), dimension, digits });
}

/** A quantity for `… or more` in a remedy: rounded up, so that what is written there is enough. */
export function noLessThan({ value, dimension, digits = 3 }: { value: number; dimension: Dimension; digits?: number }): string {
  return formatQuantity({ value: value * (1 + rounding(digits)), dimension, digits });
}

/** A finding that says what a part lacks. */
export function lacking({ part, key, path }: { part: string; key: string; path: string }): Unassessed & Finding {
  return unassessed({ unknown: lacks({ part, key }).unknown, path });
}

export const notOscillating: Unknown = { unknown: 'it does not oscillate with this load' };

/** The parts of a design in words. */
export const subjects = {
  switch: ({ design }: Analysis): string => `switch ${design.switches.mosfet.name}`,
  crossDiode: ({ design }: Analysis): string => `cross diode ${design.gates.crossDiode.name}`,
  clamp: ({ design }: Analysis): string => `clamp ${design.gates.clamp?.name ?? 'none'}`,
  pullUp: ({ design }: Analysis): string => `pull-up ${formatQuantity({ value: design.gates.pullUp.resistance, dimension: 'resistance' })}`,
  capacitor: ({ design }: Analysis): string => {
    const { capacitor, parallel, series } = design.tank.bank;
    return `bank ${parallel} × ${capacitor.name}${series > 1 ? `, ${series} in series` : ''}`;
  },
  choke: ({ design }: Analysis): string => `choke ${design.chokes.choke.name}`,
  supply: (): string => 'supply',
  tank: (): string => 'tank',
  coil: ({ design: { tank } }: Analysis): string => `coil${tank.coil.geometry === undefined ? '' : `, ${tank.coil.geometry.shape}`}`,
  pair: (): string => 'switch pair',
} as const;

/** What a coil that is too thin needs, by the kind of its conductor. */
export function thickerWords(shape: 'tube' | 'wire' | 'litz' | undefined): string {
  return shape === 'litz' ? 'more strands' : 'a thicker conductor, or litz wire';
}
