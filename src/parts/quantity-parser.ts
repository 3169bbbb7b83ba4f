import type { ParsedText, QuantityParser } from '../source/bounds.ts';
import type { Dimension } from '../units/dimension.ts';
import { parseQuantity } from '../units/parse-quantity.ts';

/**
 * Reads one quantity of a dimension that a schema names.
 *
 * @param text       as written
 * @param dimension  one of the dimensions of the units layer; a test compares the schemas with them
 * @returns the value in SI, or what is wrong with the text
 *
 * @example quantityParser({ text: '18 V', dimension: 'voltage' }) // { ok: true, value: 18 }
 */
export const quantityParser: QuantityParser = ({ text, dimension }): ParsedText =>
  parseQuantity({ text, dimension: dimension as Dimension });
