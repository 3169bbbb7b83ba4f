import { kindName } from '../parts/kind-name.ts';
import type { Part, PartKind } from '../parts/part.ts';
import { conditionDimension, ratingDimension } from '../parts/rating-dimension.ts';
import { ratingsIn, type NamedRating } from '../parts/ratings-in.ts';
import { sourceWords } from '../parts/source-words.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { unitOf } from '../units/dimensions-table.ts';
import { hanging } from './wrap.ts';

/** What `parts list` prints: name and title, by kind. */
export function partsListText({ parts, width }: { parts: readonly Part[]; width: number }): string {
  const longest = Math.max(0, ...parts.map(({ name }) => name.length));
  const kinds = [...new Set(parts.map(({ kind }) => kind))];
  return kinds
    .flatMap((kind) => [
      kind,
      ...parts
        .filter((part) => part.kind === kind)
        .flatMap(({ name, title }) => hanging({ text: title ?? '', first: `  ${name.padEnd(longest)}  `, width })),
    ])
    .join('\n');
}

/** What `parts show NAME` prints: every rating with its unit, condition, source and note. */
export function partText({ part, path, width }: { part: Part; path: string; width: number }): string {
  const rows = ratingsIn(part).map((named) => ({ key: keyWords(named), value: valueWords({ kind: part.kind, named }), named }));
  const [keys, values] = [Math.max(...rows.map(({ key }) => key.length)), Math.max(...rows.map(({ value }) => value.length))];
  const others = [
    ...(part.kind === 'mosfets' && part.package !== undefined ? [`package ${part.package}`] : []),
    ...(part.kind === 'capacitors' && part.dielectric !== undefined ? [`dielectric ${part.dielectric}`] : []),
    ...(part.kind === 'capacitors' && part.size !== undefined ? [`size ${part.size}`] : []),
  ];
  return [
    `${part.name}  (${kindName(part.kind)}, ${path})`,
    ...(part.title === undefined ? [] : hanging({ text: part.title, first: '  ', width })),
    ...(part.note === undefined ? [] : hanging({ text: part.note, first: '  note: ', width })),
    ...others.map((text) => `  ${text}`),
    '',
    ...rows.flatMap(({ key, value, named }) =>
      hanging({ text: provenance(named), first: `  ${key.padEnd(keys)}  ${value.padStart(values)}  `, width }),
    ),
    '',
    ...hanging({ text: sourceWords(rows.map(({ named }) => named.rating.source)), first: '  ', width }),
    ...hanging({ text: 'Confirm every rating against the data sheet of the part in hand.', first: '  ', width }),
  ].join('\n');
}

/** A part as a JSON document. */
export function partJson({ part, path }: { part: Part; path: string }): object {
  return {
    name: part.name,
    kind: part.kind,
    file: path,
    title: part.title ?? null,
    note: part.note ?? null,
    ratings: ratingsIn(part).map(({ key, rating, of }) => ({
      key,
      value: rating.value,
      unit: unitOf(ratingDimension({ kind: part.kind, key })),
      source: rating.source,
      ...(rating.at === undefined && of === undefined ? {} : { at: { ...rating.at, ...of } }),
      ...(rating.note === undefined ? {} : { note: rating.note }),
    })),
  };
}

function keyWords({ key, of }: NamedRating): string {
  if (of === undefined) return key;
  if ('cooling' in of) return `${key} in ${of.cooling}`;
  const [value, dimension] = 'frequency' in of ? ([of.frequency, 'frequency'] as const) : ([of.drainVoltage, 'voltage'] as const);
  return `${key} at ${formatQuantity({ value, dimension })}`;
}

function valueWords({ kind, named: { key, rating } }: { kind: PartKind; named: NamedRating }): string {
  return formatQuantity({ value: rating.value, dimension: ratingDimension({ kind, key }), digits: 4 });
}

function provenance({ rating: { source, at, note } }: NamedRating): string {
  const conditions = Object.entries(at ?? {}).map(
    ([key, value]) => `${key} ${formatQuantity({ value, dimension: conditionDimension(key), digits: 4 })}`,
  );
  return [source, ...(conditions.length === 0 ? [] : [`at ${conditions.join(', ')}`]), ...(note === undefined ? [] : [note])].join('; ');
}
