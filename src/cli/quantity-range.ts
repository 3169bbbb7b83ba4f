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
  const refuse = (message: string): never => {
    const help = `write a range such as "${exampleOf(dimension)}..${exampleOf(dimension).replace(/^\d+/, (digits) => String(3 * Number(digits)))}"`;
    throw new InputError([{ id: 'not-a-range', message: `${option}: ${message}`, help }]);
  };
  const match = /^(.+?)\.\.([^:]+)(?::(.+))?$/.exec(text.trim());
  if (match === null) return refuse(`"${text}" is not a range`);
  const [, low = '', high = '', width] = match;
  const [from, to] = [low, high].map((one) => parsedOption({ option, text: one.trim(), dimension })) as [number, number];
  if (!(from < to)) return refuse('the range runs backwards or is empty');
  if (width === undefined) return spread({ from, to, count });
  const step = parsedOption({ option, text: width.trim(), dimension });
  if (!(step > 0)) return refuse('the step must be above zero');
  const steps = Math.floor((to - from) / step + 1e-9);
  if (steps + 1 > mostValues) return refuse(`the range has more than ${mostValues} values`);
  return Array.from({ length: steps + 1 }, (_, i) => from + i * step);
}

/** From zero on, zero and then a thousandth of the end up in even factors; else in even factors from the beginning. */
function spread({ from, to, count }: { from: number; to: number; count: number }): readonly number[] {
  const start = from > 0 ? from : to / 1000;
  const many = from > 0 ? count : count - 1;
  const values = Array.from({ length: many }, (_, i) => start * (to / start) ** (i / (many - 1)));
  return from > 0 ? values : [0, ...values];
}
