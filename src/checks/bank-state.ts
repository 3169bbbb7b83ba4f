import { analysisOf, runningAnalysisOf, type Analysis, type Case } from '../driver/analysis.ts';
import { cornersOf } from '../driver/corner.ts';
import { DesignError } from '../driver/design-error.ts';
import { timedAnalysis } from '../driver/timed-analysis.ts';
import type { Bank, Design } from '../project/design.ts';
import type { Dimension } from '../units/dimension.ts';
import type { Ratio } from '../units/si.ts';
import { bankChecks } from './bank-checks.ts';
import { verdicts, type Verdict } from './judge.ts';
import type { Policies } from './policy.ts';
import { worstJudged } from './worst-result.ts';

/** How switch-on and load removal are found. */
export type BankDepth = 'closed form' | 'time domain';

/** The worst of one check of the bank over loads, corners and moments. SI numbers. */
export interface BankStress {
  readonly id: string;
  readonly dimension: Dimension;
  readonly verdict: Verdict;
  readonly value: number | null;
  readonly limit: number | null;
  /** Value over the line up to which it passes; null without a value. */
  readonly load: Ratio | null;
  /** Why there is no value, or why it is no basis for a pass. */
  readonly reason?: string;
}

/** Peaks of a bank of nearly the same capacitance are taken so many times. */
const nearlySame: Ratio = 1.1;

/** What is asked of a bank: whether it passes, how grave it is, or how far each of its checks is. Transients can be graver than the running driver. */
export type BankQuestion = 'pass' | 'verdict' | 'stresses';

/** Verdicts of the running driver that settle a question before the transients are asked. */
const settledBy: Readonly<Record<BankQuestion, readonly Verdict[]>> = { pass: ['fail', 'warn'], verdict: ['fail'], stresses: [] };

/** A bank as its checks see it. */
export interface BankState {
  readonly verdict: Verdict;
  readonly stresses: readonly BankStress[];
}

/** A design with another bank in the place of its own. */
export function withBank({ design, bank }: { design: Design; bank: Bank }): Design {
  return { ...design, tank: { ...design.tank, bank } };
}

/**
 * What the checks of the bank say of a design.
 *
 * @param design    the project, with the bank in question
 * @param policies  levels by check id
 * @param depth     of its transients; while running it is always in closed form
 * @param near      of the design with a bank of nearly the same capacitance, in the time domain: where its transients pass with a tenth
 *   on top, they are not run again
 * @param asked     see BankQuestion
 * @returns the gravest verdict and each check's worst, of the running driver alone where that settles it
 */
export function bankStateOf({
  design,
  policies,
  depth,
  near,
  asked,
}: {
  design: Design;
  policies: Policies;
  depth: BankDepth;
  near?: Analysis | undefined;
  asked: BankQuestion;
}): BankState {
  const running = runningBankState({ design, policies });
  if (settledBy[asked].includes(running.verdict)) return running;
  return attempted(() => {
    const inClosedForm = analysisOf(design);
    if (near?.starts !== undefined) {
      const taken = stateOf({ analysis: withTransientsOf({ analysis: inClosedForm, near }), policies });
      if (taken.verdict === 'pass') return taken;
    }
    return stateOf({ analysis: depth === 'time domain' ? timedAnalysis(inClosedForm, 'peaks') : inClosedForm, policies });
  });
}

/** An analysis with the transients of another of the same loads and corners, a tenth on top. */
function withTransientsOf({ analysis, near }: { analysis: Analysis; near: Analysis }): Analysis {
  const raised = (transient: Case['switchOn']): Case['switchOn'] =>
    transient === undefined || 'unknown' in transient ? transient : { ...transient, tankPeak: nearlySame * transient.tankPeak };
  const corners = analysis.corners.map((instance, i): Case => {
    const { switchOn, loadRemoval } = near.corners[i]!;
    return { ...instance, switchOn: raised(switchOn), loadRemoval: raised(loadRemoval) };
  });
  return { ...analysis, corners };
}

/** What they say of the running driver alone. */
export function runningBankState({ design, policies }: { design: Design; policies: Policies }): BankState {
  return attempted(() => stateOf({ analysis: runningAnalysisOf(design), policies }));
}

/** The same at one corner, all tolerances up: what is past its line there is no better at the worst. */
export function cornerBankState({ design, policies }: { design: Design; policies: Policies }): BankState {
  return attempted(() => stateOf({ analysis: runningAnalysisOf(design, cornersOf(design).slice(-1)), policies }));
}

/** What they say of an analysis. */
export function stateOf({ analysis, policies }: { analysis: Analysis; policies: Policies }): BankState {
  const stresses = bankChecks.flatMap((check): BankStress | readonly [] => {
    const worst = worstJudged({ check, analysis, policies });
    if (worst === undefined) return [];
    const { verdict, value, limit, target, reason } = worst.judgement;
    const load = value === null || target === null ? null : value / target;
    return { id: check.id, dimension: check.dimension, verdict, value, limit, load, ...(reason === undefined ? {} : { reason }) };
  });
  return { verdict: gravest(stresses.map(({ verdict }) => verdict)), stresses };
}

function gravest(of: readonly Verdict[]): Verdict {
  return verdicts.toReversed().find((verdict) => of.includes(verdict)) ?? 'not assessed';
}

/** A state; where the design's own values contradict each other, such as a loadedQ that this bank's loss does not leave, that is why. */
export function attempted(state: () => BankState): BankState {
  try {
    return state();
  } catch (error) {
    if (!(error instanceof DesignError)) throw error;
    const stress = { id: 'capacitor-current', dimension: 'current', value: null, limit: null, load: null, reason: error.message } as const;
    return { verdict: 'not assessed', stresses: [{ ...stress, verdict: 'not assessed' }] };
  }
}

/** Of two states of one bank, check by check the graver one. */
export function worseState(a: BankState, b: BankState): BankState {
  const stresses = a.stresses.map((stress) => {
    const other = b.stresses.find(({ id }) => id === stress.id);
    return other === undefined || rankOf(stress) >= rankOf(other) ? stress : other;
  });
  return { verdict: gravest(stresses.map(({ verdict }) => verdict)), stresses };
}

function rankOf({ verdict, load }: BankStress): number {
  // a load is a ratio far below this
  return verdicts.indexOf(verdict) * 1e9 + (load ?? 0);
}

/** The gravest stress of a state, of equal ones the one furthest past its line; undefined where all pass. */
export function worstStress({ verdict, stresses }: BankState): BankStress | undefined {
  if (verdict === 'pass') return undefined;
  return stresses
    .filter((stress) => stress.verdict === verdict)
    .reduce<BankStress | undefined>((a, b) => (a === undefined || (b.load ?? 0) > (a.load ?? 0) ? b : a), undefined);
}

/** How far past the lines up to which it passes a bank is: the largest load of its checks. */
export function heaviestLoad({ stresses }: BankState): Ratio {
  return Math.max(0, ...stresses.map(({ load }) => load ?? 0));
}
