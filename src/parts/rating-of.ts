import type { Quantities } from '../source/quantities.ts';
import { entryOf } from '../source/source-tree.ts';
import type { MapEntry, SourceNode } from '../source/source-tree.ts';
import { present } from '../source/present.ts';
import { ratingSources } from './part.ts';
import type { Rating, RatingCurve, RatingSource, VoltageCurve } from './part.ts';

/** What a rating is read with: the numbers of its file, and the source of a rating that states none. */
export interface RatingReading {
  readonly quantities: Quantities;
  readonly source: RatingSource;
  readonly note?: string;
  readonly at?: Readonly<Record<string, number>>;
}

/** Keys of a curve that are not frequencies or voltages. */
const besidePoints: ReadonlySet<string> = new Set(['value', 'source', 'at', 'note']);

/**
 * The text under a key of a mapping.
 *
 * @param node  a mapping, or anything else
 * @param key   the key
 * @returns the text; undefined where there is none
 */
export function textUnder(node: SourceNode | undefined, key: string): string | undefined {
  const value = entryOf(node, key)?.value;
  return value?.kind === 'scalar' && typeof value.value === 'string' ? value.value : undefined;
}

function sourceUnder(node: SourceNode): RatingSource | undefined {
  const text = textUnder(node, 'source');
  return ratingSources.find((source) => source === text);
}

/**
 * Conditions of a rating in SI units.
 *
 * @param node        a mapping of quantities, or one current
 * @param quantities  numbers of the file
 * @returns numbers by key; a single quantity is the forward current
 */
export function conditionsOf(node: SourceNode | undefined, quantities: Quantities): Readonly<Record<string, number>> | undefined {
  if (node?.kind === 'scalar') {
    const forwardCurrent = quantities.get(node);
    return forwardCurrent === undefined ? undefined : { forwardCurrent };
  }
  if (node?.kind !== 'map') return undefined;
  const conditions = node.entries.flatMap(({ key, value }) => {
    const number = quantities.get(value);
    return number === undefined ? [] : [[key, number] as const];
  });
  return Object.fromEntries(conditions);
}

/**
 * One rating.
 *
 * @param node     a quantity, or a mapping with value, source, at and note
 * @param reading  numbers of the file and default source
 * @returns the rating; undefined where its value could not be read
 */
export function ratingOf(node: SourceNode | undefined, { quantities, source, note, at }: RatingReading): Rating | undefined {
  if (node?.kind === 'scalar') {
    const value = quantities.get(node);
    return value === undefined ? undefined : { value, source, where: node.at, ...present({ note, at }) };
  }
  const written = entryOf(node, 'value')?.value;
  const value = written && quantities.get(written);
  if (node === undefined || written === undefined || value === undefined) return undefined;
  return {
    value,
    source: sourceUnder(node) ?? source,
    where: written.at,
    ...present({ note: textUnder(node, 'note') ?? note, at: conditionsOf(entryOf(node, 'at')?.value, quantities) ?? at }),
  };
}

/**
 * The entries of a curve whose keys are frequencies or voltages.
 *
 * @param node  the mapping
 * @returns entries, in file order
 */
export function pointEntries(node: SourceNode | undefined): readonly MapEntry[] {
  return node?.kind === 'map' ? node.entries.filter(({ key }) => !besidePoints.has(key)) : [];
}

/** Points of a mapping of quantities to ratings, ascending; its source, conditions and note hold for all of them. */
function pointsOf(node: SourceNode, reading: RatingReading): readonly { readonly key: number; readonly rating: Rating }[] {
  const [note, at] = [textUnder(node, 'note'), conditionsOf(entryOf(node, 'at')?.value, reading.quantities)];
  const shared: RatingReading = { ...reading, source: sourceUnder(node) ?? reading.source, ...present({ note, at }) };
  return pointEntries(node)
    .flatMap((entry) => {
      const key = reading.quantities.get(entry);
      const rating = ratingOf(entry.value, shared);
      return key === undefined || rating === undefined ? [] : [{ key, rating }];
    })
    .toSorted((a, b) => a.key - b.key);
}

/**
 * A rating over frequency.
 *
 * @param node     one rating, or a mapping of frequency to rating with source, conditions and note for all of them
 * @param reading  numbers of the file and default source
 * @returns points, ascending; a single rating is one point at frequency 0; undefined where nothing could be read
 */
export function ratingCurveOf(node: SourceNode | undefined, reading: RatingReading): RatingCurve | undefined {
  const single = ratingOf(node, reading);
  if (single) return { points: [{ frequency: 0, rating: single }] };
  if (node === undefined) return undefined;
  const points = pointsOf(node, reading).map(({ key, rating }) => ({ frequency: key, rating }));
  return points.length === 0 ? undefined : { points };
}

/**
 * A rating over drain voltage.
 *
 * @param node     a mapping of drain voltage to rating with source, conditions and note for all of them
 * @param reading  numbers of the file and default source
 * @returns points, ascending; undefined for one rating, and where nothing could be read
 */
export function voltageCurveOf(node: SourceNode | undefined, reading: RatingReading): VoltageCurve | undefined {
  if (node === undefined || entryOf(node, 'value') !== undefined) return undefined;
  const points = pointsOf(node, reading).map(({ key, rating }) => ({ voltage: key, rating }));
  return points.length === 0 ? undefined : { points };
}
