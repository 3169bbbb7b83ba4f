import type { BankState, BankStress } from '../checks/bank-state.ts';
import type { BankOption } from '../studies/bank.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { CubicMetre, Ratio } from '../units/si.ts';
import { openReasons } from './open-reasons.ts';

/** A bank as it is written into the project file; a part given inline stays as it stands there. */
export function bankLine({ capacitor, series, parallel, cooling }: BankOption['bank']): string {
  const isNamed = /^[\w.-]+$/.test(capacitor.name);
  const part = isNamed ? `part: ${capacitor.name}, ` : '';
  return `bank: {${part}series: ${series}, parallel: ${parallel}${cooling === 'fan' ? ', cooling: fan' : ''}}${isNamed ? '' : ' with the part as it stands'}`;
}

/** Short names of the checks of the bank, in the order in which they are told. */
const names: readonly (readonly [string, string])[] = [
  ['capacitor-current', 'current'],
  ['capacitor-ac-voltage', 'ac voltage'],
  ['capacitor-self-heating', 'rise'],
  ['capacitor-temperature', 'temperature'],
  ['capacitor-peak-voltage', 'peak voltage'],
  ['capacitor-voltage-slope', 'slope'],
];

/** How much of each limit a bank uses; a temperature with its degrees, since a share of kelvins says nothing. */
export function usesWords({ stresses }: BankState): string {
  return names
    .flatMap(([id, name]) => {
      const stress = stresses.find((one) => one.id === id);
      return stress === undefined ? [] : [`${name} ${useWords(stress)}`];
    })
    .join(', ');
}

function useWords({ verdict, value, limit, dimension }: BankStress): string {
  if (value === null || limit === null) return verdict === 'not assessed' ? 'not assessed' : verdict;
  if (dimension === 'temperature') return `${formatQuantity({ value, dimension })} of ${formatQuantity({ value: limit, dimension })}`;
  return percentWords(value / limit);
}

/** A share as whole percent. */
export function percentWords(share: Ratio): string {
  return formatQuantity({ value: share, dimension: 'ratio', digits: 2 });
}

/** Checks of a bank that do not pass, with value and limit: those that fail, then those that warn. */
export function pastWords({ stresses }: BankState): string {
  return (['fail', 'warn'] as const)
    .flatMap((verdict) => {
      const past = stresses.filter((stress) => stress.verdict === verdict).map(limitWords);
      return past.length === 0 ? [] : [`${verdict}s ${past.join(', ')}`];
    })
    .join('; ');
}

function limitWords({ id, value, limit, dimension }: BankStress): string {
  if (value === null || limit === null) return id;
  return `${id} (${formatQuantity({ value, dimension })} of ${formatQuantity({ value: limit, dimension })})`;
}

/** Why checks of a bank were not assessed, each reason once; without those that are told elsewhere. */
export function openWords(state: BankState, toldElsewhere: readonly string[] = []): string {
  return openSentences(state)
    .filter((reason) => !toldElsewhere.includes(reason))
    .join('; ');
}

/** Each reason with the checks that it leaves open. */
export function openSentences({ stresses }: BankState): readonly string[] {
  return openReasons(stresses).map(({ ids, reason }) => `${ids.join(', ')}: ${reason}`);
}

/** Volume of boxes, in cm³. */
export function volumeWords(volume: CubicMetre | null): string {
  return volume === null ? '-' : `${formatQuantity({ value: volume * 1e6, dimension: 'count' })} cm³`;
}

/** The rise of the most loaded capacitor, from its check. */
export function riseOf({ stresses }: BankState): number | null {
  return stresses.find(({ id }) => id === 'capacitor-self-heating')?.value ?? null;
}
