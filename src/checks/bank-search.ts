import type { Analysis } from '../driver/analysis.ts';
import { hottestCoil } from '../driver/coil-heat.ts';
import { coilOf } from '../driver/coil.ts';
import type { Capacitor } from '../parts/part.ts';
import type { Bank, Design } from '../project/design.ts';
import type { Farad, Ratio } from '../units/si.ts';
import { bankStateOf, cornerBankState, heaviestLoad, runningBankState, withBank, type BankDepth, type BankState } from './bank-state.ts';
import type { Policies } from './policy.ts';

/** What a bank is to hold: its nominal capacitance between two ends, and what else is asked of it. */
export interface BankWish {
  readonly least: Farad;
  readonly most: Farad;
  /** Asked of a design with the bank in it. */
  readonly holds?: (design: Design) => boolean;
  /** Most capacitors that are looked at. */
  readonly mostCount: number;
  /** So many in series and no other number. */
  readonly series?: number;
}

/** Most capacitors that a bank is searched up to: beyond them nobody solders. */
export const usualMostCount = 500;

/** How far from the present capacitance a bank may be: half of it in frequency, no more than the parts' own tolerances. */
export const usualTolerance: Ratio = 0.1;

/** A bank with what its checks say. */
export interface JudgedBank {
  readonly bank: Bank;
  readonly state: BankState;
}

/** What a search came to. */
export interface BankAnswer {
  /** The smallest bank that passes; undefined where none does. */
  readonly passing?: JudgedBank;
  /** The smallest one that neither fails nor warns, with something that could not be assessed. */
  readonly open?: JudgedBank;
  /** Of those that do not pass, the one that comes nearest. */
  readonly nearest?: JudgedBank;
}

/** Nominal capacitance of a bank. */
export function bankCapacitance({ capacitor, parallel, series }: Bank): Farad {
  return ((capacitor.ratings.capacitance?.value ?? 0) * parallel) / series;
}

/** Capacitors in a bank. */
export function bankCount({ parallel, series }: Bank): number {
  return parallel * series;
}

/** So small a share of a capacitor is rounding. */
const rounding = 1e-9;

/**
 * Every bank of a part whose capacitance is wished for, those of fewer capacitors first, of equal ones those of fewer in series.
 *
 * @param capacitor  its part
 * @param cooling    of the bank
 * @param wish       what it is to hold; what `holds` asks is left to the caller
 */
export function banksFor({
  capacitor,
  cooling,
  wish: { least, most, mostCount, series: only },
}: {
  capacitor: Capacitor;
  cooling: Bank['cooling'];
  wish: BankWish;
}): readonly Bank[] {
  const unit = capacitor.ratings.capacitance?.value;
  if (unit === undefined || !(unit > 0)) return [];
  const banks: Bank[] = [];
  const [first, last] = only === undefined ? [1, mostCount] : [only, only];
  for (let series = first; series <= last; series++) {
    const from = Math.max(1, Math.ceil((least * series) / unit - rounding));
    if (from * series > mostCount) {
      if (only === undefined && least > 0) break;
      continue;
    }
    const to = Math.min(Math.floor(mostCount / series), Math.floor((most * series) / unit + rounding));
    for (let parallel = from; parallel <= to; parallel++) banks.push({ capacitor, parallel, series, cooling });
  }
  return banks.toSorted((a, b) => bankCount(a) - bankCount(b) || a.series - b.series);
}

/** Past its line by so much with the coil taken as it is now, a bank is not computed with the coil at its own frequency. */
export const hopeless: Ratio = 1.1;

/**
 * The smallest bank of a part that holds what is wished for and passes every check of the bank. Every bank is looked at: nothing is
 * taken to grow or fall with the count.
 *
 * @param design    the project; its bank's cooling is kept
 * @param policies  levels by check id
 * @param capacitor the part
 * @param wish      what it is to hold
 * @param depth     of the transients
 * @param near      see bankStateOf
 * @param tellsNearest  false where the nearest of those that do not pass is of no interest, which is quicker
 */
export function searchBank({
  design,
  policies,
  capacitor,
  wish,
  depth,
  near,
  tellsNearest = true,
}: {
  design: Design;
  policies: Policies;
  capacitor: Capacitor;
  wish: BankWish;
  depth: BankDepth;
  near?: Analysis | undefined;
  tellsNearest?: boolean;
}): BankAnswer {
  const rough = withCoilAsItIs(design);
  let nearest: JudgedBank | undefined;
  for (const bank of banksFor({ capacitor, cooling: design.tank.bank.cooling, wish })) {
    const tried = withBank({ design: rough, bank });
    if (!tellsNearest && heaviestLoad(cornerBankState({ design: tried, policies })) > hopeless) continue;
    const roughly = runningBankState({ design: tried, policies });
    if (heaviestLoad(roughly) > hopeless) {
      nearest = nearer(nearest, { bank, state: roughly });
      continue;
    }
    const changed = withBank({ design, bank });
    if (wish.holds !== undefined && !wish.holds(changed)) continue;
    const state = bankStateOf({ design: changed, policies, depth, near, asked: 'pass' });
    if (state.verdict === 'pass') return { passing: { bank, state } };
    // what is open, such as a start that latches, stays open with one capacitor more; what warns beside it may not
    if (state.verdict === 'not assessed' && state.stresses.every(({ verdict }) => verdict !== 'warn')) return { open: { bank, state } };
    nearest = nearer(nearest, { bank, state });
  }
  return nearest === undefined ? {} : { nearest };
}

/** The coil by its values with the present bank: its resistance hardly moves a capacitor's stress, and takes long to compute. */
export function withCoilAsItIs(design: Design): Design {
  const { inductance, tolerance } = coilOf(design);
  const { resistance } = hottestCoil(design);
  return { ...design, tank: { ...design.tank, coil: { inductance, resistance, tolerance } } };
}

function nearer(a: JudgedBank | undefined, b: JudgedBank): JudgedBank {
  return a === undefined || heaviestLoad(b.state) < heaviestLoad(a.state) ? b : a;
}

/**
 * The smallest bank of a part that passes while running with more capacitance than is wished for; undefined where none up to the most
 * capacitors does.
 */
export function searchBeyond({
  design,
  policies,
  capacitor,
  wish,
}: {
  design: Design;
  policies: Policies;
  capacitor: Capacitor;
  wish: BankWish;
}): JudgedBank | undefined {
  const unit = capacitor.ratings.capacitance?.value;
  if (unit === undefined || !Number.isFinite(wish.most)) return undefined;
  const rough = withCoilAsItIs(design);
  const stateOf = (bank: Bank): BankState => runningBankState({ design: withBank({ design: rough, bank }), policies });
  let best: JudgedBank | undefined;
  for (let series = wish.series ?? 1; series <= (wish.series ?? wish.mostCount); series++) {
    const bankOf = (parallel: number): Bank => ({ capacitor, parallel, series, cooling: design.tank.bank.cooling });
    let low = Math.floor((wish.most * series) / unit + rounding);
    const mostHere = best === undefined ? wish.mostCount : bankCount(best.bank) - 1;
    let high = Math.floor(mostHere / series);
    if (high <= low) {
      if (low * series >= mostHere) break;
      continue;
    }
    if (stateOf(bankOf(high)).verdict !== 'pass') continue;
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (stateOf(bankOf(middle)).verdict === 'pass') high = middle;
      else low = middle;
    }
    best = { bank: bankOf(high), state: stateOf(bankOf(high)) };
  }
  return best;
}
