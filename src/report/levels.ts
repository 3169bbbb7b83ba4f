import type { CheckDocs } from '../checks/check.ts';
import type { Level, Policy } from '../checks/policy.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/**
 * The levels of a policy in words, with reason and source.
 *
 * @param policy     of the check
 * @param dimension  of its value
 * @param sense      at-most | at-least
 * @param docs       what its shares are taken of, and which parts take the other levels
 */
export function levelsText({
  policy,
  dimension,
  sense,
  docs = {},
}: {
  policy: Policy;
  dimension: Dimension;
  sense: 'at-most' | 'at-least';
  docs?: Pick<CheckDocs, 'rated' | 'others' | 'levels'>;
}): string {
  const side = sense === 'at-most' ? 'above' : 'below';
  const { rated = 'the rating', others = 'other parts' } = docs;
  const words = (level: Level): string => {
    if (level.share !== undefined) return level.share === 1 ? rated : `${level.share} ${level.share > 1 ? 'times' : 'of'} ${rated}`;
    if (level.quantity !== undefined) return formatQuantity({ value: level.quantity, dimension });
    return `${rated} less ${formatQuantity({ value: level.less, dimension: dimension === 'temperature' ? 'temperatureRise' : dimension })}`;
  };
  const pair = ({ warn, fail }: { warn: Level; fail: Level }): string => `warns ${side} ${words(warn)}, fails ${side} ${words(fail)}`;
  const other = policy.other === undefined ? '' : `; ${others}: ${pair(policy.other)}`;
  const note = docs.levels === undefined ? '' : ` ${docs.levels}`;
  return `${pair(policy)}${other}.${note} ${capitalised(policy.reason)} (${policy.source}).`;
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
