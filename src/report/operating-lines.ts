import type { Result } from '../checks/result.ts';
import type { Quantity } from '../driver/quantities.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { hanging } from './wrap.ts';

/** What the nominal driver does with each load, in one sentence a load. */
export function operatingLines({
  quantities,
  results,
  width,
}: {
  quantities: readonly Quantity[];
  results: readonly Result[];
  width: number;
}): readonly string[] {
  const sentences = operatingSentences({ quantities, results });
  return ['  nominal', ...sentences.flatMap(({ load, words }) => hanging({ text: words, first: `    ${load}: `, indent: 6, width }))];
}

/** The same, without a layout. */
export function operatingSentences({ quantities, results }: { quantities: readonly Quantity[]; results: readonly Result[] }): readonly {
  readonly load: string;
  readonly words: string;
}[] {
  const isDoubtful = results.some(({ id, verdict }) => id === 'switch-temperature' && verdict === 'not assessed');
  const loads = [...new Set(quantities.map(({ case: load }) => load))];
  return loads.map((load) => ({
    load,
    words: sentence({ quantities: quantities.filter((quantity) => quantity.case === load), isDoubtful }),
  }));
}

/** A junction whose temperature no check stands for is told as a guess. */
function sentence({ quantities, isDoubtful }: { quantities: readonly Quantity[]; isDoubtful: boolean }): string {
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
  const junction = text('switch.temperature');
  const warmth = isDoubtful && junction !== 'not assessed' ? `not assessed, would be about ${junction}` : junction;
  return (
    `${text('tank.frequency')}, Q ${text('tank.quality')}; drain ${text('drain.peak')} peak (${peak('drain.peakAtSwitchOn', 'switch-on')}, ` +
    `${peak('drain.peakAtLoadRemoval', 'load removal')}); coil ${text('tank.currentRms')} rms; supply ${text('supply.current')}, ${text('supply.power')}; ` +
    `capacitor ${text('bank.currentPerCapacitor')} rms, +${text('bank.rise')}; junction ${warmth}`
  );
}
