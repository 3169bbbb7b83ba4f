import { InputError } from '../source/diagnostic.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ratio } from '../units/si.ts';
import { parseQuantity } from '../units/parse-quantity.ts';

/**
 * The value of an option that is a quantity.
 *
 * Errors: InputError that names the option.
 */
export function parsedOption({ option, text, dimension }: { option: string; text: string; dimension: Dimension }): number {
  const parsed = parseQuantity({ text, dimension });
  if (parsed.ok) return parsed.value;
  const { id, message, help } = parsed.problem;
  throw new InputError([{ id, message: `${option}: ${message}`, ...(help === undefined ? {} : { help }) }]);
}

/**
 * The value of an option that is a share.
 *
 * @param most     largest that it may be
 * @param example  how it is written
 * Errors: InputError that names the option; with the share in percent where the number alone is one.
 */
export function parsedShare({ option, text, most, example }: { option: string; text: string; most: Ratio; example: string }): Ratio {
  const value = parsedOption({ option, text, dimension: 'ratio' });
  if (value >= 0 && value <= most) return value;
  const isPercent = /^[\d.]+$/.test(text.trim()) && value / 100 <= most;
  const help = isPercent ? `did you mean "${text.trim()} %"?` : `write a ratio such as "${example}"`;
  const message = `${option} must lie between 0 and ${formatQuantity({ value: most, dimension: 'ratio' })}`;
  throw new InputError([{ id: 'out-of-range', message, help }]);
}
