import { InputError } from '../source/diagnostic.ts';
import { exampleOf } from '../units/dimensions-table.ts';
import type { Dimension } from '../units/dimension.ts';
import { parsedOption } from './parsed-option.ts';

/** Most values that a range may have. */
const mostValues = 1000;

/**
 * The values of a range such as `12 V..36 V:1 V`, or of `0 s..10 ms`, where `count` of them are spread: zero, then even factors.
 *
 * @param option     whose value the text is
 * @param text       `from..to` or `from..to:step`
 * @param dimension  of the quantities
 * @param count      values of a range without a step
 * @returns ascending, SI
 * Errors: InputError that names the option where the text is no range, runs backwards or has too many values.
 */
export function quantityRange({
  option,
  text,
  dimension,
  count,
}: {
  option: string;
  text: string;
  dimension: Dimension;
  count: number;
}): readonly number[] {
  const { from, to, width } = rangeOf({ option, text, dimension });
  const refuse = refusal({ option, dimension });
  if (width === undefined) return spread({ from, to, count });
  const step = parsedOption({ option, text: width.trim(), dimension });
  if (!(step > 0)) return refuse('the step must be above zero');
  const steps = Math.floor((to - from) / step + 1e-9);
  if (steps + 1 > mostValues) return refuse(`the range has more than ${mostValues} values`);
  return Array.from({ length: steps + 1 }, (_, i) => from + i * step);
}

/**
 * The ends of a range such as `12 V..36 V`.
 *
 * Errors: InputError that names the option where the text is no range, has a step or runs backwards.
 */
export function quantityEnds({ option, text, dimension }: { option: string; text: string; dimension: Dimension }): {
  from: number;
  to: number;
} {
  const { from, to, width } = rangeOf({ option, text, dimension });
  if (width !== undefined) return refusal({ option, dimension })('the range takes no step');
  return { from, to };
}

function refusal({ option, dimension }: { option: string; dimension: Dimension }): (message: string) => never {
  const help = `write a range such as "${exampleOf(dimension)}..${exampleOf(dimension).replace(/^\d+/, (digits) => String(3 * Number(digits)))}"`;
  return (message) => {
    throw new InputError([{ id: 'not-a-range', message: `${option}: ${message}`, help }]);
  };
}

function rangeOf({ option, text, dimension }: { option: string; text: string; dimension: Dimension }): {
  from: number;
  to: number;
  width: string | undefined;
} {
  const refuse = refusal({ option, dimension });
  const match = /^(.+?)\.\.([^:]+)(?::(.+))?$/.exec(text.trim());
  if (match === null) return refuse(`"${text}" is not a range`);
  const [, low = '', high = '', width] = match;
  const [from, to] = [low, high].map((one) => parsedOption({ option, text: one.trim(), dimension })) as [number, number];
  if (!(from < to)) return refuse('the range runs backwards or is empty');
  return { from, to, width };
}

/** From zero on, zero and then a thousandth of the end up in even factors; else in even factors from the beginning. */
function spread({ from, to, count }: { from: number; to: number; count: number }): readonly number[] {
  const start = from > 0 ? from : to / 1000;
  const many = from > 0 ? count : count - 1;
  const values = Array.from({ length: many }, (_, i) => start * (to / start) ** (i / (many - 1)));
  return from > 0 ? values : [0, ...values];
}

/**
 * The counts of a range such as `8..40` or `8..40:4`.
 *
 * @returns ascending whole numbers, one or more
 * Errors: InputError that names the option where the text is no such range.
 */
export function countRange({ option, text, most }: { option: string; text: string; most: number }): readonly number[] {
  const match = /^\s*(\d+)\s*\.\.\s*(\d+)\s*(?::\s*(\d+)\s*)?$/.exec(text);
  const [from, to, step] = [match?.[1] ?? 0, match?.[2] ?? 0, match?.[3] ?? 1].map(Number) as [number, number, number];
  const problem =
    match === null
      ? `"${text}" is not a range of counts`
      : from < 1 || step < 1
        ? 'counts and their step begin at 1'
        : to < from
          ? 'the range runs backwards'
          : to > most
            ? `the range goes past ${most}`
            : (to - from) / step >= 200
              ? 'the range has more than 200 counts'
              : undefined;
  if (problem !== undefined)
    throw new InputError([{ id: 'not-a-range', message: `${option}: ${problem}`, help: 'write a range such as 8..40, or 8..40:4' }]);
  return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);
}

/**
 * A whole number of an option.
 *
 * Errors: InputError that names the option where it is none, or lies outside.
 */
export function wholeOption({ option, text, least, most }: { option: string; text: string; least: number; most: number }): number {
  const value = /^\d+$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw new InputError([
    {
      id: 'out-of-range',
      message: `${option}: "${text}" is no whole number from ${least} to ${most}`,
      help: `write one, such as ${least}`,
    },
  ]);
}
