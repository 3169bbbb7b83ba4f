import type { Location } from './location.ts';

export interface MapEntry {
  readonly key: string;
  readonly keyAt: Location;
  readonly value: SourceNode;
}
export interface MapNode {
  readonly kind: 'map';
  readonly entries: readonly MapEntry[];
  readonly at: Location;
}
export interface ListNode {
  readonly kind: 'list';
  readonly items: readonly SourceNode[];
  readonly at: Location;
}
/** `text` is the value as written, without quotes. */
export interface ScalarNode {
  readonly kind: 'scalar';
  readonly value: string | number | boolean;
  readonly text: string;
  readonly at: Location;
}
/** A key or list item without a value; `at` is the place of the key. */
export interface NothingNode {
  readonly kind: 'nothing';
  readonly at: Location;
}
export type SourceNode = MapNode | ListNode | ScalarNode | NothingNode;

/**
 * The entry of a mapping.
 *
 * @param node  any node, or none
 * @param key   the key
 * @returns the entry, or undefined where the node is no mapping or lacks the key
 */
export function entryOf(node: SourceNode | undefined, key: string): MapEntry | undefined {
  return node?.kind === 'map' ? node.entries.find((entry) => entry.key === key) : undefined;
}

/**
 * The node under a chain of keys and list indexes.
 *
 * @param node      where to begin
 * @param segments  keys, and indexes counted from 0 as text
 * @returns the node, or undefined
 */
export function nodeAt(node: SourceNode | undefined, segments: readonly string[]): SourceNode | undefined {
  return segments.reduce<SourceNode | undefined>(
    (found, segment) => (found?.kind === 'list' ? found.items[Number(segment)] : entryOf(found, segment)?.value),
    node,
  );
}

/** Key (or list item) and value under the longest prefix of a dotted path that exists; a key may itself contain dots. */
function nearest({ root, path }: { root: SourceNode; path: string }): { value: SourceNode; key: Location; whole: boolean } {
  let [value, key, rest] = [root, root.at, path === '' ? [] : path.split('.')];
  while (rest.length > 0) {
    const step = longestStep(value, rest);
    if (step === undefined) return { value, key, whole: false };
    value = step.value;
    key = step.key;
    rest = rest.slice(step.taken);
  }
  return { value, key, whole: true };
}

function longestStep(node: SourceNode, rest: readonly string[]): { value: SourceNode; key: Location; taken: number } | undefined {
  if (node.kind === 'list') {
    const item = node.items[Number(rest[0])];
    return item && { value: item, key: item.at, taken: 1 };
  }
  for (let taken = 1; taken <= rest.length; taken++) {
    const entry = entryOf(node, rest.slice(0, taken).join('.'));
    if (entry) return { value: entry.value, key: entry.keyAt, taken };
  }
  return undefined;
}

/**
 * Position of a dotted path such as `supply.voltage` or `loads.1.power`.
 *
 * @param root  the whole file
 * @param path  keys and indexes from 0, joined by dots
 * @returns position of the value; where the key is absent, of the key of the nearest parent that exists
 */
export function locate({ root, path }: { root: SourceNode; path: string }): Location {
  const { value, key, whole } = nearest({ root, path });
  return whole ? value.at : key;
}

/**
 * Position of the key under a dotted path.
 *
 * @param root  the whole file
 * @param path  keys and indexes from 0, joined by dots
 * @returns position of the key; where it is absent, of the key of the nearest parent that exists
 */
export function locateKey({ root, path }: { root: SourceNode; path: string }): Location {
  return nearest({ root, path }).key;
}

/** A tree as plain values, as JSON Schema sees it: `null` where a value is missing. */
export type PlainValue = string | number | boolean | null | readonly PlainValue[] | { readonly [key: string]: PlainValue };

/**
 * The tree as plain values.
 *
 * @param node  any
 * @returns objects without a prototype, so that a key such as `__proto__` is only a key
 */
export function plainValue(node: SourceNode): PlainValue {
  if (node.kind === 'nothing') return null;
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'list') return node.items.map(plainValue);
  const plain = Object.create(null) as Record<string, PlainValue>;
  for (const { key, value } of node.entries) plain[key] = plainValue(value);
  return plain;
}
