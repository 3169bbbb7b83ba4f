import { heaviestLoad, worstStress, withBank } from '../checks/bank-state.ts';
import { mixedStateOf, type MixedState } from '../checks/mixed-state.ts';
import type { Policies } from '../checks/policy.ts';
import { mixedCapacitance, standInFor, type BankMember, type MixedBank } from '../driver/mixed-bank.ts';
import { hopeless, withCoilAsItIs, type BankWish } from '../checks/bank-search.ts';
import type { Capacitor } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import type { Farad, Ratio } from '../units/si.ts';
import { wishOf, type BankRequest } from './bank.ts';

/** So many capacitors of one part that are there. */
export interface Stock {
  readonly capacitor: Capacitor;
  readonly count: number;
}

/** A bank out of the drawer with what its checks say. */
export interface DrawerBank {
  readonly mix: MixedBank;
  readonly state: MixedState;
  readonly count: number;
  readonly capacitance: Farad;
}

/** What the drawer gives for one rated voltage. */
export interface DrawerAnswer {
  readonly parts: readonly string[];
  readonly kind: 'passes' | 'open' | 'none';
  readonly bank?: DrawerBank;
  /** Of those that do not pass, the nearest. */
  readonly nearest?: DrawerBank;
  readonly why?: string;
}

/** Banks of one rated voltage that are judged before the search is given up. */
const mostJudged = 4000;

/**
 * The smallest banks that the capacitors of a drawer make, for each rated dc voltage among them: strings of equal length, each of one
 * part, in parallel.
 *
 * @param design    the project
 * @param policies  levels by check id
 * @param stock     what is there
 * @param request   what to keep
 * @param progress  called after each rated voltage with the share that is done
 */
export function drawerStudy({
  design,
  policies,
  stock,
  request,
  progress,
}: {
  design: Design;
  policies: Policies;
  stock: readonly Stock[];
  request: BankRequest;
  progress: (share: Ratio) => void;
}): readonly DrawerAnswer[] {
  const wish = wishOf({ design, request });
  const voltages = [...new Set(stock.map(({ capacitor }) => capacitor.ratings.voltageDc?.value))];
  return voltages
    .map((voltage, i) => {
      const group = stock.filter(({ capacitor }) => capacitor.ratings.voltageDc?.value === voltage);
      // without a rated voltage nothing stands beside another part
      const groups = voltage === undefined ? group.map((one) => [one]) : [group];
      const answers = groups.map((one) => answerFor({ design, policies, group: one, wish, request }));
      progress((i + 1) / voltages.length);
      return answers;
    })
    .flat();
}

function answerFor({
  design,
  policies,
  group,
  wish,
  request,
}: {
  design: Design;
  policies: Policies;
  group: readonly Stock[];
  wish: BankWish;
  request: BankRequest;
}): DrawerAnswer {
  const parts = group.map(({ capacitor }) => capacitor.name);
  const lacking = group.find(({ capacitor }) => !((capacitor.ratings.capacitance?.value ?? 0) > 0));
  if (lacking !== undefined) return { parts, kind: 'none', why: `${lacking.capacitor.name} gives no capacitance` };
  const rough = withCoilAsItIs(design);
  let nearest: DrawerBank | undefined;
  let judged = 0;
  for (const mix of mixesOf({ group, wish, cooling: design.tank.bank.cooling })) {
    if (++judged > mostJudged) break;
    const judgedAs = (state: MixedState): DrawerBank => ({ mix, state, count: countOf(mix), capacitance: mixedCapacitance(mix) });
    const roughly = judgedAs(mixedStateOf({ design: rough, mix, policies, depth: 'running' }));
    if (heaviestLoad(roughly.state.whole) > hopeless) {
      nearest = nearer(nearest, roughly);
      continue;
    }
    if (wish.holds !== undefined && !wish.holds(withBank({ design, bank: standInFor(mix) }))) continue;
    const found = judgedAs(mixedStateOf({ design, mix, policies, depth: request.depth }));
    const { verdict } = found.state.whole;
    if (verdict === 'pass') return { parts, kind: 'passes', bank: found };
    if (verdict === 'not assessed') return { parts, kind: 'open', bank: found };
    nearest = nearer(nearest, found);
  }
  const kept = request.keep === 'capacitance' ? 'the capacitance' : 'the frequency';
  if (nearest === undefined) return { parts, kind: 'none', why: `no bank of what is there keeps ${kept}` };
  const worst = worstStress(nearest.state.whole);
  const all = judged > mostJudged ? `the ${mostJudged} smallest banks that keep` : 'every bank that keeps';
  return { parts, kind: 'none', nearest, why: `${all} ${kept} ${judged > mostJudged ? 'are' : 'is'} past ${worst?.id}` };
}

function nearer(a: DrawerBank | undefined, b: DrawerBank): DrawerBank {
  return a === undefined || heaviestLoad(b.state.whole) < heaviestLoad(a.state.whole) ? b : a;
}

function countOf({ members, series }: MixedBank): number {
  return series * members.reduce((sum, { strings }) => sum + strings, 0);
}

/** Every mix of a group that has the wished capacitance, by count; of equal counts fewer in series, then fewer parts, first. */
function* mixesOf({
  group,
  wish,
  cooling,
}: {
  group: readonly Stock[];
  wish: BankWish;
  cooling: MixedBank['cooling'];
}): Generator<MixedBank> {
  const ordered = group.toSorted((a, b) => unitOf(b) - unitOf(a));
  const all = Math.min(
    wish.mostCount,
    group.reduce((sum, { count }) => sum + count, 0),
  );
  for (let count = 1; count <= all; count++) {
    for (let series = wish.series ?? 1; series <= (wish.series ?? count); series++) {
      if (count % series !== 0) continue;
      const [least, most] = [wish.least * series * (1 - 1e-9), wish.most * series * (1 + 1e-9)];
      const mixes = [...stringsOf({ left: ordered, series, strings: count / series, least, most })];
      for (const members of mixes.toSorted((a, b) => a.length - b.length)) yield { members, series, cooling };
    }
  }
}

function unitOf({ capacitor }: Stock): Farad {
  return capacitor.ratings.capacitance?.value ?? 0;
}

/** Most mixes of one count that are looked at. */
const mostOfOneCount = 2000;

/** Ways to take so many strings whose capacitances add up to a range. */
function* stringsOf({
  left,
  series,
  strings,
  least,
  most,
  budget = { mixes: mostOfOneCount },
}: {
  left: readonly Stock[];
  series: number;
  strings: number;
  least: Farad;
  most: Farad;
  budget?: { mixes: number };
}): Generator<readonly BankMember[]> {
  const [first, ...rest] = left;
  if (budget.mixes <= 0) return;
  if (strings === 0) {
    if (least <= 0 && most >= 0) {
      budget.mixes--;
      yield [];
    }
    return;
  }
  // the largest come first: nothing that is left adds more than the first, nor less than the last
  if (first === undefined || strings * unitOf(first) < least || strings * unitOf(left.at(-1)!) > most) return;
  const unit = unitOf(first);
  for (let taken = Math.min(strings, Math.floor(first.count / series)); taken >= 0; taken--) {
    const others = stringsOf({
      left: rest,
      series,
      strings: strings - taken,
      least: least - taken * unit,
      most: most - taken * unit,
      budget,
    });
    for (const members of others) yield taken === 0 ? members : [{ capacitor: first.capacitor, strings: taken }, ...members];
  }
}
