import type { Quantity } from '../driver/quantities.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { hanging } from './wrap.ts';

/** What the nominal driver does with each load, in one sentence a load. */
export function operatingLines({ quantities, width }: { quantities: readonly Quantity[]; width: number }): readonly string[] {
  const loads = [...new Set(quantities.map(({ case: load }) => load))];
  return [
    '  nominal',
    ...loads.flatMap((load) =>
      hanging({ text: sentence(quantities.filter((quantity) => quantity.case === load)), first: `    ${load}: `, indent: 6, width }),
    ),
  ];
}

function sentence(quantities: readonly Quantity[]): string {
  const text = (id: string): string => {
    const quantity = quantities.find((candidate) => candidate.id === id);
    if (quantity === undefined || quantity.value === null) return 'not assessed';
    return formatQuantity({ value: quantity.value, dimension: quantity.dimension });
  };
  /** A peak, or in a word why there is none. */
  const peak = (id: string, when: string): string => {
    const quantity = quantities.find((candidate) => candidate.id === id);
    return quantity?.value === null && quantity.reason?.startsWith('it ') === true ? `${when}: ${quantity.reason}` : `${when} ${text(id)}`;
  };
  const frequency = quantities.find(({ id }) => id === 'tank.frequency');
  if (frequency?.value === null)
    return `resonance ${text('tank.resonance')}, Q ${text('tank.quality')}: ${frequency.reason ?? 'does not oscillate'}`;
  return (
    `${text('tank.frequency')}, Q ${text('tank.quality')}; drain ${text('drain.peak')} peak (${peak('drain.peakAtSwitchOn', 'switch-on')}, ` +
    `${peak('drain.peakAtLoadRemoval', 'load removal')}); coil ${text('tank.currentRms')} rms; supply ${text('supply.current')}, ${text('supply.power')}; ` +
    `capacitor ${text('bank.currentPerCapacitor')} rms, +${text('bank.rise')}; junction ${text('switch.temperature')}`
  );
}
