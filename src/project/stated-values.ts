import { quantityParser } from '../parts/quantity-parser.ts';
import type { Outcome } from '../source/diagnostic.ts';
import type { Location } from '../source/location.ts';
import { readQuantities, type Quantities } from '../source/quantities.ts';
import type { SourceNode } from '../source/source-tree.ts';
import { parseYaml } from '../source/yaml-source.ts';
import { loadName } from './project-contradictions.ts';
import { projectLists, projectSchema } from './project-schema.ts';

/** One value that a project file states, where it states it. */
export interface StatedValue {
  /** Keys from the root of the file, the name of a load in place of its index. */
  readonly name: string;
  /** Index of the load that it belongs to, from 0, with the keys within that load. */
  readonly load?: { readonly index: number; readonly key: string };
  /** As it is written. */
  readonly text: string;
  /** In SI, where it is a quantity. */
  readonly number?: number;
  /** Of the value. */
  readonly at: Location;
}

/**
 * Every value that a project file states, in the order of the file; a key without a value counts as an empty one.
 *
 * @param text  of the file, decoded
 * @param path  of the file, for positions
 * @returns the values; or what keeps the text from being read as YAML
 */
export function statedValues({ text, path }: { text: string; path: string }): Outcome<readonly StatedValue[]> {
  const parsed = parseYaml({ text, path, lists: projectLists });
  if (!parsed.ok) return parsed;
  const { root } = parsed.value;
  const { values } = readQuantities({ root, place: projectSchema, parse: quantityParser });
  return { ok: true, value: valuesIn({ node: root, name: '', quantities: values }) };
}

function valuesIn({ node, name, quantities }: { node: SourceNode; name: string; quantities: Quantities }): readonly StatedValue[] {
  const under = (key: string): string => (name === '' ? key : `${name}.${key}`);
  if (node.kind === 'map') return node.entries.flatMap(({ key, value }) => valuesIn({ node: value, name: under(key), quantities }));
  if (node.kind === 'list') return node.items.flatMap((item, index) => itemValues({ item, index, name, quantities }));
  const number = quantities.get(node);
  const text = node.kind === 'scalar' ? node.text : '';
  return [{ name, text, at: node.at, ...(number === undefined ? {} : { number }) }];
}

function itemValues({
  item,
  index,
  name,
  quantities,
}: {
  item: SourceNode;
  index: number;
  name: string;
  quantities: Quantities;
}): readonly StatedValue[] {
  if (name !== 'loads') return valuesIn({ node: item, name: `${name}[${index}]`, quantities });
  const load = loadName({ node: item, index });
  return valuesIn({ node: item, name: '', quantities }).map((value) => ({
    ...value,
    name: `${name}.${load}.${value.name}`,
    load: { index, key: value.name },
  }));
}
