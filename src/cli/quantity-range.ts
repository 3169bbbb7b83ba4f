import { InputError } from '../source/diagnostic.ts';
import { exampleOf } from '../units/dimensions-table.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { parsedOption } from './parsed-option.ts';

/** Most values that a range may have. */
const mostValues = 1000;

/** Steps of a range that states none, evenly spread. */
const evenSteps = 12;

interface Asked {
  /** Whose value the text is. */
  readonly option: string;
  /** `from..to` or `from..to:step` */
  readonly text: string;
  readonly dimension: Dimension;
}

interface Ends {
  readonly from: number;
  readonly to: number;
  /** Above zero. */
  readonly step?: number;
}

function refuse({ option, dimension }: Asked, message: string): never {
  const example = exampleOf(dimension);
  const third = example.replace(/^\d+/, (digits) => String(3 * Number(digits)));
  throw new InputError([{ id: 'not-a-range', message: `${option}: ${message}`, help: `write a range such as "${example}..${third}"` }]);
}

function endsOf(asked: Asked): Ends {
  const { option, text, dimension } = asked;
  const match = /^(.+?)\.\.([^:]+)(?::(.+))?$/.exec(text.trim());
  if (match === null) return refuse(asked, `"${text}" is not a range`);
  const [, low = '', high = '', width] = match;
  const [from, to] = [low, high].map((one) => parsedOption({ option, text: one.trim(), dimension })) as [number, number];
  if (!(from < to)) return refuse(asked, 'the range runs backwards or is empty');
  if (width === undefined) return { from, to };
  const step = parsedOption({ option, text: width.trim(), dimension: dimensionOfStep(dimension) });
  return step > 0 ? { from, to, step } : refuse(asked, 'the step must be above zero');
}

/**
 * The values of a range such as `12 V..36 V:1 V`, or of `0 s..10 ms`, where `count` of them are spread: zero, then even factors.
 *
 * @param count  values of a range without a step
 * @returns ascending, SI
 * Errors: InputError that names the option where the text is no range, runs backwards or has too many values.
 */
export function quantityRange({ count, ...asked }: Asked & { count: number }): readonly number[] {
  const { from, to, step } = endsOf(asked);
  if (step === undefined) return spread({ from, to, count });
  const steps = Math.floor((to - from) / step + 1e-9);
  if (steps + 1 > mostValues) return refuse(asked, `the range has more than ${mostValues} values`);
  return Array.from({ length: steps + 1 }, (_, i) => from + i * step);
}

/**
 * The values of a range whose step leads from one end exactly to the other; without a step thirteen even ones, or every whole number.
 *
 * @param isWhole  only whole numbers can be used
 * @param most     values that it may have
 * @returns ascending, SI, both ends among them
 * Errors: InputError that names the option where the text is no such range.
 */
export function exactRange({ isWhole, most, ...asked }: Asked & { isWhole: boolean; most: number }): readonly number[] {
  const { from, to, step: stated } = endsOf(asked);
  const step = stated ?? (isWhole ? 1 : (to - from) / evenSteps);
  if (isWhole && ![from, to, step].every((number) => Number.isInteger(number))) return refuse(asked, 'only whole numbers can stand there');
  const steps = Math.round((to - from) / step);
  if (steps + 1 > most) return refuse(asked, `the range has ${steps + 1} values, and a sweep has at most ${most} points`);
  if (steps < 1 || Math.abs((to - from) / step - steps) > 1e-6) {
    const size = dimensionOfStep(asked.dimension);
    const shown = (value: number, dimension = asked.dimension): string => formatQuantity({ value, dimension, digits: 6 });
    return refuse(asked, `a step of ${shown(step, size)} does not lead from ${shown(from)} to ${shown(to)}`);
  }
  return Array.from({ length: steps + 1 }, (_, i) => Number((from + ((to - from) * i) / steps).toPrecision(12)));
}

/**
 * The ends of a range such as `12 V..36 V`.
 *
 * Errors: InputError that names the option where the text is no range, has a step or runs backwards.
 */
export function quantityEnds(asked: Asked): { readonly from: number; readonly to: number } {
  const { from, to, step } = endsOf(asked);
  return step === undefined ? { from, to } : refuse(asked, 'the range takes no step');
}

function dimensionOfStep(dimension: Dimension): Dimension {
  return dimension === 'temperature' ? 'temperatureRise' : dimension;
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
