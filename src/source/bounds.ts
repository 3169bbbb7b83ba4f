import type { JsonSchema } from './json-schema.ts';

/** What a parser of quantities answers; the numbers are SI. */
export type ParsedText =
  | { readonly ok: true; readonly value: number }
  | {
      readonly ok: false;
      readonly problem: { readonly id: string; readonly message: string; readonly label?: string; readonly help?: string };
    };

/** Reads a quantity of a dimension; handed in, since the layer of sources knows nothing of units. */
export type QuantityParser = (argument: { text: string; dimension: string }) => ParsedText;

/** A value and what its schema says of it. */
export interface Judged {
  readonly text: string;
  readonly value: number;
  readonly dimension: string;
  readonly schema: JsonSchema;
  readonly parse: QuantityParser;
}

/** Bounds read so far, by dimension and text: a schema states the same few again and again. */
const bounds = new Map<string, number>();

/** A bound of a schema in SI. */
export function boundValue(text: string | undefined, { dimension, parse }: Judged): number | undefined {
  if (text === undefined) return undefined;
  const key = `${dimension} ${text}`;
  const known = bounds.get(key);
  if (known !== undefined) return known;
  const parsed = parse({ text, dimension });
  if (!parsed.ok) throw new RangeError(`the schema states the bound ${text}, which is no ${dimension}`);
  bounds.set(key, parsed.value);
  return parsed.value;
}

/** Whether a value lies within the bounds of its schema. */
export function isInside(value: number, judged: Judged): boolean {
  const { schema } = judged;
  const above = boundValue(schema['x-above'], judged);
  const atLeast = boundValue(schema['x-atLeast'], judged);
  const below = boundValue(schema['x-below'], judged);
  const atMost = boundValue(schema['x-atMost'], judged);
  return (
    (above === undefined || value > above) &&
    (atLeast === undefined || value >= atLeast) &&
    (below === undefined || value < below) &&
    (atMost === undefined || value <= atMost)
  );
}

/** The range in words: `above 1 nH and below 1 H`. */
function rangeText(schema: JsonSchema): string {
  const { 'x-above': above, 'x-atLeast': atLeast, 'x-below': below, 'x-atMost': atMost } = schema;
  const lower = above !== undefined ? `above ${above}` : atLeast !== undefined ? `at least ${atLeast}` : undefined;
  const upper = below !== undefined ? `below ${below}` : atMost !== undefined ? `at most ${atMost}` : undefined;
  return [lower, upper].filter((text) => text !== undefined).join(' and ');
}

/** Number, prefix and unit of a quantity in its plain form. */
export const prefixed = /^([-+]?[\d.]+(?:[eE][-+]?\d+)?)\s*([pnuµμmkMG]?)(V|A|ohm|Ω|\u2126|H|F|Hz|s|S|W|C|J|m)$/;

/** A prefix is missed by two steps at most, unless it was left out, or is a matter of the shift key: `M` for `m`. */
const farthestSlip = 1.001e6;
const isShiftKey = (written: string, meant: string): boolean => written !== meant && written.toLowerCase() === meant.toLowerCase();

/** The same number with another prefix, where that is a value seen in practice; the nearest prefix first. */
function prefixGuesses(judged: Judged): readonly string[] {
  const { text, value, dimension, schema, parse } = judged;
  const [lowest, highest] = schema['x-typical'] ?? [];
  const written = prefixed.exec(text.trim());
  const [low, high] = [boundValue(lowest, judged), boundValue(highest, judged)];
  if (!written || low === undefined || high === undefined || value === 0) return [];
  const [, number = '', from = '', unit = ''] = written;
  return ['p', 'n', 'u', 'm', '', 'k', 'M']
    .flatMap((prefix) => {
      const guess = `${number} ${prefix}${unit}`;
      const parsed = parse({ text: guess, dimension });
      if (!parsed.ok || parsed.value < low || parsed.value > high) return [];
      const steps = isShiftKey(from, prefix) ? 0 : Math.abs(Math.log(parsed.value / value));
      return from === '' || steps <= Math.log(farthestSlip) ? [{ guess, steps }] : [];
    })
    .sort((a, b) => a.steps - b.steps)
    .slice(0, 2)
    .map(({ guess }) => guess);
}

function percentGuess(judged: Judged): string | undefined {
  const { text, value, schema } = judged;
  if (schema['x-percent'] !== true || text.includes('%') || !isInside(value / 100, judged)) return undefined;
  return `did you mean "${text.trim()} %"?`;
}

/**
 * What is wrong with a value that lies outside the bounds of its schema.
 *
 * @param judged  text as written, value in SI, dimension, schema with bounds, parser for the bounds
 * @returns id (`out-of-range`, `over-hundred-percent`), what it must be, and a guess where one is plausible; undefined inside the bounds
 */
export function boundsProblem(judged: Judged): { id: string; message: string; help?: string } | undefined {
  const { value, schema } = judged;
  if (isInside(value, judged)) return undefined;
  const guesses = prefixGuesses(judged).map((guess) => `"${guess}"`);
  const help = percentGuess(judged) ?? (guesses.length > 0 ? `did you mean ${guesses.join(' or ')}?` : undefined);
  const highest = boundValue(schema['x-below'] ?? schema['x-atMost'], judged);
  const tooMuch = schema['x-percent'] === true && highest !== undefined && highest < 1 && value >= 1;
  const because = schema['x-because'];
  return {
    id: tooMuch ? 'over-hundred-percent' : 'out-of-range',
    message: `must be ${rangeText(schema)}${because === undefined ? '' : `: ${because}`}`,
    ...(help === undefined ? {} : { help }),
  };
}
