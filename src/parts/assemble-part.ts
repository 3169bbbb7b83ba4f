import type { Location } from '../source/location.ts';
import { present } from '../source/present.ts';
import { entryOf } from '../source/source-tree.ts';
import type { SourceNode } from '../source/source-tree.ts';
import { ratingsOverVoltage } from './part.ts';
import type { Mosfet, PartByKind, PartKind, Rating, VoltageCurve } from './part.ts';
import { conditionsOf, ratingCurveOf, ratingOf, textUnder, voltageCurveOf } from './rating-of.ts';
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

/** Drain voltage at which data sheets print a capacitance that they give once. */
const catalogueVoltage = 25;

/** The point of a curve at or nearest the voltage of a catalogue; the lower one of two as near. */
function figureOf({ points }: VoltageCurve): Rating {
  const distance = ({ voltage }: { voltage: number }): number => Math.abs(voltage - catalogueVoltage);
  const { voltage, rating } = points.reduce((nearest, point) => (distance(point) < distance(nearest) ? point : nearest));
  return { ...rating, at: { ...rating.at, drainVoltage: voltage } };
}

function mosfetOf(assembly: Assembly): Mosfet {
  const { node, reading, common } = assembly;
  const curves = ratingsOverVoltage.flatMap((key) => {
    const curve = voltageCurveOf(entryOf(node, key)?.value, reading);
    return curve === undefined ? [] : [[key, curve] as const];
  });
  const figures = Object.fromEntries(curves.map(([key, curve]) => [key, figureOf(curve)]));
  return {
    kind: 'mosfets',
    ...common,
    ratings: inOrderOf(node, { ...mosfetRatings(assembly), ...figures }),
    ...present({ package: textUnder(node, 'package'), overVoltage: curves.length === 0 ? undefined : Object.fromEntries(curves) }),
  };
}

function inOrderOf(node: SourceNode, ratings: Readonly<Record<string, Rating>>): Readonly<Record<string, Rating>> {
  const keys = node.kind === 'map' ? node.entries.map(({ key }) => key) : [];
  return Object.fromEntries(keys.flatMap((key) => (ratings[key] === undefined ? [] : [[key, ratings[key]]])));
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
  mosfets: mosfetOf,
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
