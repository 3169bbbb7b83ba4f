import { schemaUnder } from '../source/json-schema.ts';
import { dimensions } from '../units/dimensions-table.ts';
import type { Dimension } from '../units/dimension.ts';
import { partSchema } from './part-schema.ts';
import type { PartKind } from './part.ts';

/**
 * The dimension of a rating.
 *
 * @param kind  of part
 * @param key   of the rating
 * @returns what the schema of part files says; `ratio` for a key without a dimension of its own
 *
 * @example ratingDimension({ kind: 'mosfets', key: 'gateCharge' }) // 'charge'
 */
export function ratingDimension({ kind, key }: { kind: PartKind; key: string }): Dimension {
  // a factor above 1 does not read as a percentage
  if (key === 'onResistanceFactor') return 'count';
  if (key === 'thermalResistance') return key;
  const place = schemaUnder(partSchema(kind), key);
  return dimensions.find((dimension) => dimension === place?.schema['x-dimension']) ?? 'ratio';
}

/**
 * The dimension of a condition that a rating holds at.
 *
 * @param key  such as `gateVoltage`
 *
 * @example conditionDimension('caseTemperature') // 'temperature'
 */
export function conditionDimension(key: string): Dimension {
  const { documents } = partSchema('mosfets');
  const place = schemaUnder({ documents, base: 'part.schema.json', schema: { $ref: '#/$defs/conditions' } }, key);
  return dimensions.find((dimension) => dimension === place?.schema['x-dimension']) ?? 'ratio';
}
