import type { Diagnostic } from './diagnostic.ts';
import { didYouMeanHelp } from './did-you-mean.ts';
import type { JsonSchema } from './json-schema.ts';
import type { Location } from './location.ts';
import { quoted } from './quoted.ts';
import type { SourceNode } from './source-tree.ts';
import { exampleText, named } from './structure-sentences.ts';

/** Longest list of allowed keys that helps rather than hides. */
const mostKeysNamed = 16;

/** Where a key belongs that stands in the wrong place. */
function belongsHelp(homes: readonly string[]): string {
  const places = homes.map((home) => (home === '' ? 'the first column' : `\`${home}\``));
  return `it belongs ${homes[0] === '' ? 'in' : 'under'} ${places.length === 1 ? places[0] : `${places.slice(0, -1).join(', ')} or ${places.at(-1)}`}`;
}

/**
 * The problem of a key that the schema does not know.
 *
 * @param key      as written
 * @param parent   dotted path of the mapping
 * @param what     what the file is called
 * @param allowed  keys that the mapping may have
 * @param homes    dotted paths of mappings that the key belongs to
 * @param instead  what to write in its place, where the schema says
 * @param isNamed  whether a name may stand in place of the mapping
 * @param node     the mapping
 * @returns `unknown-key`, at the key
 */
export function unknownKey({
  key,
  parent,
  what,
  allowed,
  homes,
  instead,
  isNamed,
  node,
}: {
  key: string;
  parent: string;
  what: string;
  allowed: readonly string[];
  homes: readonly string[];
  instead: string | undefined;
  isNamed: boolean;
  node: SourceNode | undefined;
}): Diagnostic {
  const at = (node?.kind === 'map' ? node.entries.find((entry) => entry.key === key)?.keyAt : undefined) ?? node?.at;
  const list = allowed.length <= mostKeysNamed ? `known here: ${allowed.join(', ')}` : undefined;
  const value = node?.kind === 'map' ? node.entries.find((entry) => entry.key === key)?.value : undefined;
  const isPartName = isNamed && key === 'name' && value?.kind === 'scalar';
  const help = isPartName
    ? `write the name alone: \`${parent.split('.').at(-1)}: ${value.text}\``
    : (instead ?? (homes.length > 0 ? belongsHelp(homes) : (didYouMeanHelp({ word: key, names: allowed }) ?? list)));
  return {
    id: 'unknown-key',
    message: `${quoted(key)} is not a key of ${parent === '' ? what : named(parent)}`,
    label: 'unknown key',
    ...(help === undefined ? {} : { help }),
    ...(at === undefined ? {} : { at }),
  };
}

/**
 * The problem of a key that must be there.
 *
 * @param key     which
 * @param parent  dotted path of the mapping
 * @param schema  of the key
 * @param at      position of the mapping's key
 * @returns `missing-key`, with an example to add
 */
export function missingKey({ key, parent, schema, at }: { key: string; parent: string; schema: JsonSchema; at: Location }): Diagnostic {
  const example = schema.const === undefined ? exampleText(schema) : JSON.stringify(schema.const);
  return {
    id: 'missing-key',
    message: `\`${parent === '' ? key : `${parent}.${key}`}\` is missing`,
    help: example === undefined ? `add \`${key}\`` : `add \`${key}: ${example}\``,
    at,
  };
}
