import type { Level, Policy } from '../checks/policy.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** The levels of a policy in words, with reason and source. */
export function levelsText({ policy, dimension, sense }: { policy: Policy; dimension: Dimension; sense: 'at-most' | 'at-least' }): string {
  const side = sense === 'at-most' ? 'above' : 'below';
  const words = (level: Level): string => {
    if ('share' in level) return `${level.share} of the rating`;
    if ('quantity' in level) return formatQuantity({ value: level.quantity, dimension });
    return `the rating less ${formatQuantity({ value: level.less, dimension: dimension === 'temperature' ? 'temperatureRise' : dimension })}`;
  };
  const other = policy.other === undefined ? '' : `; other parts: ${words(policy.other.warn)} and ${words(policy.other.fail)}`;
  return `warns ${side} ${words(policy.warn)}, fails ${side} ${words(policy.fail)}${other}. ${capitalised(policy.reason)} (${policy.source}).`;
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
