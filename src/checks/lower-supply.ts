import { addedResistance } from '../driver/operating-point.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ratio } from '../units/si.ts';
import { noMoreThan } from './words.ts';

/**
 * A lower supply voltage as words of a remedy. A load that is given by its power is taken at the supply's voltage, so that it would
 * grow with every volt less: the resistance of each is named with it.
 *
 * @param design  the project
 * @param share   of the present voltage that is enough
 */
export function lowerSupplyWords({ design, share }: { design: Design; share: Ratio }): string {
  const voltage = `a supply of ${noMoreThan({ value: design.supply.voltage * share, dimension: 'voltage' })} or less`;
  const held = design.loads.flatMap((load) => {
    if (load.power === undefined || load.power === 0) return [];
    const resistance = formatQuantity({ value: addedResistance({ design, load }), dimension: 'resistance' });
    return [`"${load.name}" stated as parallelResistance: ${resistance} in place of its power`];
  });
  return held.length === 0 ? voltage : `${voltage} with ${held.join(' and ')}`;
}
