import { boundValue, isInside, prefixed } from './bounds.ts';
import type { Judged, QuantityParser } from './bounds.ts';
import type { JsonSchema } from './json-schema.ts';

/** What a text was read as, and what its reader made of it. */
interface Misread {
  readonly text: string;
  readonly problem: { readonly id: string; readonly help?: string };
  readonly schema: JsonSchema;
  readonly parse: QuantityParser;
}

/** Unit of the example of a schema; its prefix left out where it has one. */
function unitOf({ examples = [] }: JsonSchema): { unit: string; isPrefixed: boolean } | undefined {
  const [text] = examples.map(String);
  const plain = prefixed.exec(text ?? '')?.[3];
  const other = /^[-+]?[\d.]+ (\S+)$/.exec(text ?? '')?.[1];
  if (plain !== undefined) return { unit: plain, isPrefixed: true };
  return other === undefined ? undefined : { unit: other, isPrefixed: false };
}

/** A number with the units that make it a value seen in practice, the unit itself first; at most three, none where the schema does not tell. */
function withUnits(asked: Omit<Judged, 'value'>): readonly string[] {
  const { text, dimension, schema, parse } = asked;
  const found = unitOf(schema);
  if (found === undefined) return [];
  const [low, high] = (schema['x-typical'] ?? []).map((bound) => boundValue(bound, { ...asked, value: 0 }));
  const isSeen = (value: number): boolean =>
    low !== undefined && high !== undefined ? value === 0 || (value >= low && value <= high) : true;
  const prefixes = found.isPrefixed && Number(text) !== 0 && low !== undefined ? ['', 'm', 'u', 'n', 'k', 'p', 'M'] : [''];
  return prefixes
    .flatMap((prefix) => {
      const guess = `${text} ${prefix}${found.unit}`;
      const parsed = parse({ text: guess, dimension });
      return parsed.ok && isSeen(parsed.value) && isInside(parsed.value, { ...asked, value: parsed.value }) ? [guess] : [];
    })
    .slice(0, 3);
}

const quotedChoice = (texts: readonly string[]): string => {
  const words = texts.map((text) => `"${text}"`);
  return words.length === 1 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
};

/**
 * What to write instead of a text that is no quantity, made of what is written, where that tells more than an example.
 *
 * @param text     as written
 * @param problem  what the reader of quantities says of it
 * @param schema   of the key
 * @param parse    reads a quantity
 * @returns help; that of the problem where nothing better is known
 */
export function ownHelp({ text, problem: { id, help }, schema, parse }: Misread): string | undefined {
  if (/^(?:none|no|nil|n\/a|-+)$/i.test(text)) return 'leave the key out where there is none';
  const [dimension] = [schema['x-dimension'] ?? []].flat();
  if (dimension === undefined) return help;
  if (id === 'bare-number') {
    const texts = withUnits({ text, dimension, schema, parse });
    return texts.length === 0 ? help : `write ${quotedChoice(texts)}${texts.length > 1 ? ', whichever it is' : ''}`;
  }
  const [, meant] = /^did you mean "([^"]+)"\?$/.exec(help ?? '') ?? [];
  const number = /^[-+]?[\d.]+/.exec(text)?.[0];
  if (id !== 'unknown-unit' || meant === undefined || number === undefined) return help;
  // a prefix in the wrong case may be none at all: `MF` is nobody's millifarad
  const texts = withUnits({ text: number, dimension, schema, parse });
  return texts.length === 0 || texts.includes(meant) ? help : `did you mean ${quotedChoice(texts)}?`;
}
