import {
  bankCapacitance,
  bankCount,
  banksFor,
  searchBank,
  searchBeyond,
  withCoilAsItIs,
  type BankWish,
  type JudgedBank,
} from '../checks/bank-search.ts';
import { bankStateOf, withBank, worstStress, type BankDepth, type BankState } from '../checks/bank-state.ts';
import type { Policies } from '../checks/policy.ts';
import { isKnown } from '../driver/known.ts';
import { nominalPoint } from '../driver/operating-point.ts';
import { runningAnalysisOf } from '../driver/analysis.ts';
import { boxVolume } from '../parts/box-volume.ts';
import type { Capacitor } from '../parts/part.ts';
import type { Bank, Design } from '../project/design.ts';
import type { Ampere, CubicMetre, Farad, Hertz, Ratio, Watt } from '../units/si.ts';

/** What the new bank is to keep. */
export interface BankRequest {
  readonly keep: 'capacitance' | 'frequency';
  /** How far it may be off, both ways. */
  readonly within: Ratio;
  /** Wanted in place of the project's own. */
  readonly capacitance?: Farad;
  readonly series?: number;
  readonly mostCount: number;
  readonly depth: BankDepth;
}

/** A bank with its numbers. Stresses are at the worst corner. */
export interface BankOption {
  readonly bank: Bank;
  readonly state: BankState;
  readonly count: number;
  readonly capacitance: Farad;
  /** Nominal, with the first load; null where it does not oscillate. */
  readonly frequency: Hertz | null;
  /** Of the whole bank, at the worst corner. */
  readonly loss: Watt | null;
  /** Of one capacitor at the worst corner, equal sharing. */
  readonly current: Ampere | null;
  /** Boxes of its capacitors. */
  readonly volume: CubicMetre | null;
}

/** Why a bank has the numbers it has: a check of the bank, or what is to be kept. */
export interface SetBy {
  readonly parallel: string;
  /** Absent with one in series. */
  readonly series?: string;
}

/** What a search for one part came to. */
export type PartAnswer = { readonly part: string } & (
  | { readonly kind: 'passes' | 'open'; readonly option: BankOption; readonly setBy: SetBy }
  | { readonly kind: 'none'; readonly why: string; readonly nearest?: BankOption; readonly beyond?: BankOption }
);

/** Answers for all parts beside the project's own bank. */
export interface BankStudy {
  readonly now: BankOption;
  /** Nominal capacitance that is wanted. */
  readonly wanted: Farad;
  readonly request: BankRequest;
  /** Those that pass first. */
  readonly answers: readonly PartAnswer[];
}

/**
 * The numbers of a bank.
 *
 * @param design  the project; of its coil's values alone, what no formula of a geometry reaches at this frequency is there all the same
 * Errors: DesignError, see tankAt.
 */
export function bankOption({ design, bank, state }: { design: Design } & JudgedBank): BankOption {
  const { nominal, corners } = runningAnalysisOf(withBank({ design, bank }));
  const count = bankCount(bank);
  const running = corners.flatMap(({ point }) => point.running ?? []);
  const losses = running.flatMap(({ lossPerCapacitor }) => (isKnown(lossPerCapacitor) ? [lossPerCapacitor * count] : []));
  const volume = boxVolume(bank.capacitor.size);
  return {
    bank,
    state,
    count,
    capacitance: bankCapacitance(bank),
    frequency: nominal[0]?.point.running?.frequency ?? null,
    loss: losses.length === 0 ? null : Math.max(...losses),
    current: running.length === 0 ? null : Math.max(...running.map(({ currentPerCapacitor }) => currentPerCapacitor)),
    volume: volume === undefined ? null : volume * count,
  };
}

/** What a request comes to for a design. */
export function wishOf({ design, request }: { design: Design; request: BankRequest }): BankWish {
  const { keep, within, series, mostCount } = request;
  const wanted = request.capacitance ?? bankCapacitance(design.tank.bank);
  const rest = { mostCount, ...(series === undefined ? {} : { series }) };
  if (keep === 'capacitance') return { least: wanted * (1 - within), most: wanted * (1 + within), ...rest };
  const frequencies = frequenciesOf(design);
  const holds = (changed: Design): boolean =>
    frequenciesOf(changed).every((frequency, i) => Math.abs(frequency / frequencies[i]! - 1) <= within * (1 + 1e-9));
  // the frequency goes with the root of the capacitance, nearly: a little more on both sides, and each bank is asked
  const slack = 1.1;
  return {
    least: wanted / (slack * (1 + within) ** 2),
    most: within < 1 ? (slack * wanted) / (1 - within) ** 2 : Infinity,
    holds,
    ...rest,
  };
}

/** Nominal, load by load; NaN where it does not oscillate, which keeps nothing. */
function frequenciesOf(design: Design): readonly Hertz[] {
  return design.loads.map((load) => nominalPoint({ design, load }).tank.frequency ?? Number.NaN);
}

/**
 * The smallest bank of each part that keeps what is asked for and passes every check of the bank, beside the project's own.
 *
 * @param design    the project
 * @param policies  levels by check id
 * @param parts     to look at
 * @param request   what to keep
 * @param progress  called after each part with the share that is done
 */
export function bankStudy({
  design,
  policies,
  parts,
  request,
  progress,
}: {
  design: Design;
  policies: Policies;
  parts: readonly Capacitor[];
  request: BankRequest;
  progress: (share: Ratio) => void;
}): BankStudy {
  const { depth } = request;
  const own = design.tank.bank;
  const now = bankOption({ design, bank: own, state: bankStateOf({ design, policies, depth, asked: 'stresses' }) });
  const wish = wishOf({ design, request });
  const answers = parts.map((capacitor, i) => {
    const answer = answerFor({ design, policies, capacitor, wish, request });
    progress((i + 1) / parts.length);
    return answer;
  });
  return { now, wanted: request.capacitance ?? bankCapacitance(own), request, answers };
}

function answerFor(of: { design: Design; policies: Policies; capacitor: Capacitor; wish: BankWish; request: BankRequest }): PartAnswer {
  const { design, policies, capacitor, wish, request } = of;
  const part = capacitor.name;
  if (capacitor.ratings.capacitance === undefined) return { part, kind: 'none', why: `${part} gives no capacitance` };
  const { depth } = request;
  const { passing, open, nearest: running } = searchBank({ design, policies, capacitor, wish, depth });
  const found = passing ?? open;
  if (found !== undefined) {
    const option = bankOption({ design: passing === undefined ? withCoilAsItIs(design) : design, ...found });
    return { part, kind: passing === undefined ? 'open' : 'passes', option, setBy: setBy({ ...of, bank: found.bank }) };
  }
  const rough = withCoilAsItIs(design);
  const beyond = searchBeyond({ design, policies, capacitor, wish });
  const held = request.keep === 'capacitance' ? 'the capacitance' : 'the frequency';
  // what warns while running may fail at switch-on; of a bank that is not offered the closed form is enough to tell
  const nearest =
    running?.state.verdict === 'warn'
      ? {
          ...running,
          state: bankStateOf({ design: withBank({ design, bank: running.bank }), policies, depth: 'closed form', asked: 'stresses' }),
        }
      : running;
  const worst = nearest && worstStress(nearest.state);
  return {
    part,
    kind: 'none',
    why:
      nearest === undefined ? `no bank of up to ${request.mostCount} keeps ${held}` : `every bank that keeps ${held} is past ${worst?.id}`,
    ...(nearest === undefined ? {} : { nearest: bankOption({ design: rough, ...nearest }) }),
    ...(beyond === undefined ? {} : { beyond: bankOption({ design: rough, ...beyond }) }),
  };
}

/** What a bank with one string less, and one with a capacitor less in each string, run into. */
function setBy({
  design,
  policies,
  capacitor,
  bank,
  wish,
  request,
}: {
  design: Design;
  policies: Policies;
  capacitor: Capacitor;
  bank: Bank;
  wish: BankWish;
  request: BankRequest;
}): SetBy {
  const { series: _series, ...anySeries } = wish;
  const holding = banksFor({ capacitor, cooling: bank.cooling, wish: anySeries }).filter(
    (other) => wish.holds === undefined || (isNear(other, bank) && wish.holds(withBank({ design, bank: other }))),
  );
  const limitOf = (other: Bank | undefined): string => {
    if (other === undefined) return request.keep;
    const state = bankStateOf({ design: withBank({ design, bank: other }), policies, depth: request.depth, asked: 'pass' });
    return worstStress(state)?.id ?? request.keep;
  };
  const parallel = limitOf(holding.find((other) => other.series === bank.series && other.parallel === bank.parallel - 1));
  if (bank.series === 1) return { parallel };
  if (request.series !== undefined) return { parallel, series: '--series' };
  return { parallel, series: limitOf(holding.findLast(({ series }) => series === bank.series - 1)) };
}

function isNear(a: Bank, b: Bank): boolean {
  return (a.series === b.series && a.parallel === b.parallel - 1) || a.series === b.series - 1;
}

/** The bank of one part with every count of a range in parallel. */
export function bankCurve({
  design,
  policies,
  capacitor,
  series,
  counts,
  depth,
  progress,
}: {
  design: Design;
  policies: Policies;
  capacitor: Capacitor;
  series: number;
  counts: readonly number[];
  depth: BankDepth;
  progress: (share: Ratio) => void;
}): readonly BankOption[] {
  return counts.map((parallel, i) => {
    const bank: Bank = { capacitor, parallel, series, cooling: design.tank.bank.cooling };
    const state = bankStateOf({ design: withBank({ design, bank }), policies, depth, asked: 'verdict' });
    progress((i + 1) / counts.length);
    return bankOption({ design: withCoilAsItIs(design), bank, state });
  });
}
