import { ratingsOverVoltage } from './part.ts';
import type { Mosfet, Part, Rating } from './part.ts';

/** A rating under the name that a reader knows it by. */
export interface NamedRating {
  readonly key: string;
  readonly rating: Rating;
  /** Frequency, drain voltage or cooling that it holds at, where the part gives several. */
  readonly of?: { readonly frequency: number } | { readonly drainVoltage: number } | { readonly cooling: 'still air' | 'fan' };
}

/** Every rating of a part, curves and coolings included, in the order of its file. */
export function ratingsIn(part: Part): readonly NamedRating[] {
  const plain = Object.entries<Rating | undefined>(part.ratings).flatMap(([key, rating]) =>
    rating === undefined ? [] : [{ key, rating }],
  );
  if (part.kind === 'mosfets') return plain.flatMap((one) => pointsIn(part, one));
  if (part.kind !== 'capacitors') return plain;
  const points = part.lossTangent?.points ?? [];
  const { stillAir, fan } = part.thermalResistance ?? {};
  return [
    ...plain,
    ...points.map(({ frequency, rating }): NamedRating => ({
      key: 'lossTangent',
      rating,
      ...(frequency > 0 ? { of: { frequency } } : {}),
    })),
    ...(stillAir === undefined ? [] : [{ key: 'thermalResistance', rating: stillAir, of: { cooling: 'still air' as const } }]),
    ...(fan === undefined ? [] : [{ key: 'thermalResistance', rating: fan, of: { cooling: 'fan' as const } }]),
  ];
}

/** A rating of a MOSFET, or its points where the part gives it over drain voltage. */
function pointsIn({ overVoltage }: Mosfet, named: NamedRating): readonly NamedRating[] {
  const key = ratingsOverVoltage.find((one) => one === named.key);
  const points = key && overVoltage?.[key]?.points;
  return points?.map(({ voltage, rating }) => ({ key: named.key, rating, of: { drainVoltage: voltage } })) ?? [named];
}
