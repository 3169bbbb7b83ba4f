import type { Analysis } from '../driver/analysis.ts';
import type { Bank } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { bankCapacitance, bankCount, searchBank, usualMostCount, usualTolerance } from './bank-search.ts';
import { bankStateOf, withBank, type BankDepth } from './bank-state.ts';
import type { Policies } from './policy.ts';

/**
 * The smallest bank of the same part that keeps the capacitance and passes every check of the bank at once, as words of a remedy; that
 * this part cannot, where there is none. Moving air only where the part has a figure for it and nothing else need change.
 */
export function bankRemedy({ analysis, policies }: { analysis: Analysis; policies: Policies }): string {
  const { design, starts } = analysis;
  const { bank } = design.tank;
  const depth: BankDepth = starts === undefined ? 'closed form' : 'time domain';
  const capacitance = bankCapacitance(bank);
  const wish = {
    least: capacitance * (1 - usualTolerance),
    most: capacitance * (1 + usualTolerance),
    mostCount: usualMostCount,
  };
  const { passing, open } = searchBank({ design, policies, capacitor: bank.capacitor, wish, depth, near: analysis, tellsNearest: false });
  const found = passing ?? open;
  const fan = fanWords({ analysis, policies, depth });
  const other = `tankproof bank ${design.locate('tank.bank').path}`;
  if (found === undefined)
    return [
      `no bank of up to ${usualMostCount} of this part holds ${capacitanceWords(bank)} and passes: ${other} looks for another part`,
      ...fan,
    ].join('; or ');
  const { series, parallel } = found.bank;
  const result =
    passing === undefined ? ', as far as they can be assessed' : depth === 'closed form' ? '' : ', if it starts as the present one does';
  const words = `tank.bank: series: ${series}, parallel: ${parallel} (${bankCount(found.bank)} of this part, ${capacitanceWords(found.bank)}) passes every check of the bank${result}`;
  return [words, ...fan, `another part: ${other}`].join('; or ');
}

function capacitanceWords(bank: Bank): string {
  return formatQuantity({ value: bankCapacitance(bank), dimension: 'capacitance' });
}

function fanWords({ analysis, policies, depth }: { analysis: Analysis; policies: Policies; depth: BankDepth }): readonly string[] {
  const { design } = analysis;
  const { bank } = design.tank;
  if (bank.cooling === 'fan' || bank.capacitor.thermalResistance?.fan === undefined) return [];
  const cooled = withBank({ design, bank: { ...bank, cooling: 'fan' } });
  return bankStateOf({ design: cooled, policies, depth, near: analysis, asked: 'pass' }).verdict === 'pass'
    ? ['moving air as it is (tank.bank.cooling: fan)']
    : [];
}
