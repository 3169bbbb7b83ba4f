import { InputError } from '../source/diagnostic.ts';
import type { Dimension } from '../units/dimension.ts';
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
