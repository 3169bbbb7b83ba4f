import type { Location } from '../source/location.ts';
import { present } from '../source/present.ts';
import { entryOf } from '../source/source-tree.ts';
import type { SourceNode } from '../source/source-tree.ts';
import type { PartByKind, PartKind, Rating } from './part.ts';
import { conditionsOf, ratingCurveOf, ratingOf, textUnder } from './rating-of.ts';
import type { RatingReading } from './rating-of.ts';

/** What a part is made of, whatever its kind. */
interface Assembly {
  readonly node: SourceNode;
  readonly reading: RatingReading;
  readonly common: { readonly name: string; readonly where: Location; readonly title?: string; readonly note?: string };
  readonly ratings: Readonly<Record<string, Rating>>;
}

function ratingsOf(node: SourceNode, reading: RatingReading): Readonly<Record<string, Rating>> {
  if (node.kind !== 'map') return {};
  const found = node.entries.flatMap(({ key, value }) => {
    const rating = ratingOf(value, reading);
    return rating === undefined ? [] : [[key, rating] as const];
  });
  return Object.fromEntries(found);
}

function mosfetRatings({ node, reading, ratings }: Assembly): Readonly<Record<string, Rating>> {
  const { onResistance } = ratings;
  const point = conditionsOf(entryOf(node, 'onResistanceAt')?.value, reading.quantities);
  if (!onResistance || !point) return ratings;
  return { ...ratings, onResistance: { ...onResistance, at: { ...onResistance.at, ...point } } };
}

/** A diode's only current is its forward current. */
function diodeRatings({ ratings }: Assembly): Readonly<Record<string, Rating>> {
  const { forwardVoltage } = ratings;
  if (forwardVoltage?.at?.['current'] === undefined) return ratings;
  const { current, ...others } = forwardVoltage.at;
  return { ...ratings, forwardVoltage: { ...forwardVoltage, at: { forwardCurrent: current, ...others } } };
}

function capacitorThermal({ node, reading }: Assembly): { readonly stillAir?: Rating; readonly fan?: Rating } | undefined {
  const thermal = entryOf(node, 'thermalResistance')?.value;
  if (thermal === undefined) return undefined;
  const rating = (key: string): Rating | undefined => ratingOf(entryOf(thermal, key)?.value, reading);
  return present({ stillAir: rating('still air'), fan: rating('fan') });
}

const assemblies: { readonly [K in PartKind]: (assembly: Assembly) => PartByKind[K] } = {
  mosfets: (assembly) => ({
    kind: 'mosfets',
    ...assembly.common,
    ratings: mosfetRatings(assembly),
    ...present({ package: textUnder(assembly.node, 'package') }),
  }),
  diodes: (assembly) => ({ kind: 'diodes', ...assembly.common, ratings: diodeRatings(assembly) }),
  zeners: ({ common, ratings }) => ({ kind: 'zeners', ...common, ratings }),
  capacitors: (assembly) => {
    const { node, reading, common } = assembly;
    const { lossTangent: _curve, ...ratings } = assembly.ratings;
    return {
      kind: 'capacitors',
      ...common,
      ratings,
      ...present({
        dielectric: textUnder(node, 'dielectric'),
        size: textUnder(node, 'size'),
        lossTangent: ratingCurveOf(entryOf(node, 'lossTangent')?.value, reading),
        thermalResistance: capacitorThermal(assembly),
      }),
    };
  },
  chokes: ({ common, ratings }) => ({ kind: 'chokes', ...common, ratings }),
};

/**
 * A part from the tree that describes it. What could not be read is absent, so that contradictions among the rest can still be told.
 *
 * @param node     mapping of ratings
 * @param kind     of part
 * @param name     of its file, or a description
 * @param where    position that names the part
 * @param reading  numbers of the file and default source
 * @returns the part
 */
export function assemblePart<K extends PartKind>({
  node,
  kind,
  name,
  where,
  reading,
}: {
  node: SourceNode;
  kind: K;
  name: string;
  where: Location;
  reading: RatingReading;
}): PartByKind[K] {
  const common = { name, where, ...present({ title: textUnder(node, 'title'), note: textUnder(node, 'note') }) };
  return assemblies[kind]({ node, reading, common, ratings: ratingsOf(node, reading) });
}
