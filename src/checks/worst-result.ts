import type { Analysis, Case } from '../driver/analysis.ts';
import { cornerKeys, cornerName, type Corner } from '../driver/corner.ts';
import { wideAllowance } from '../driver/model-range.ts';
import type { Ratio } from '../units/si.ts';
import type { Check, Finding, RemedyInput } from './check.ts';
import { judge, verdicts, type Judgement } from './judge.ts';
import type { Policies, Policy } from './policy.ts';
import type { Result } from './result.ts';

/** Levels for checks whose limits come from the circuit. */
const circuitPolicy: Policy = {
  warn: { share: 1 },
  fail: { share: 1 },
  isRated: true,
  reason: 'limits come from the circuit itself',
  source: 'see explain',
};

/** A finding of one case with what it came to. */
export interface Judged {
  readonly finding: Finding;
  readonly instance: Case;
  /** Share that was added to its value. */
  readonly allowance: Ratio;
  readonly judgement: Judgement;
}

/**
 * The worst of one check over every load and corner as a result; undefined where the design has no such part.
 *
 * @param policies     levels by check id
 * @param passingBank  see RemedyInput
 */
export function worstResult({
  check,
  analysis,
  policies,
  passingBank,
}: {
  check: Check;
  analysis: Analysis;
  policies: Policies;
  passingBank: RemedyInput['passingBank'];
}): Result | undefined {
  const policy = policies.get(check.id) ?? circuitPolicy;
  const judged = judgedCases({ check, analysis, policy });
  const worst = worstOf(judged);
  if (worst === undefined) return undefined;
  return resultOf({ check, analysis, policy, passingBank, decisive: decisiveTolerances({ judged, worst }), ...worst });
}

/** The worst of one check over every load and corner, without its words. */
export function worstJudged({ check, analysis, policies }: { check: Check; analysis: Analysis; policies: Policies }): Judged | undefined {
  const policy = policies.get(check.id) ?? circuitPolicy;
  let worst: Judged | undefined;
  for (const instance of analysis.corners)
    for (const finding of check.run({ analysis, instance })) {
      const judged = judgedInRange({ check, finding, instance, policy });
      if (worst === undefined || isWorse(judged, worst)) worst = judged;
    }
  return worst;
}

function judgedCases({ check, analysis, policy }: { check: Check; analysis: Analysis; policy: Policy }): readonly Judged[] {
  const judged: Judged[] = [];
  for (const instance of analysis.corners)
    for (const finding of check.run({ analysis, instance })) judged.push(judgedInRange({ check, finding, instance, policy }));
  return judged;
}

function worstOf(judged: readonly Judged[]): Judged | undefined {
  const [first] = judged;
  return first && judged.reduce((a, b) => (isWorse(b, a) ? b : a), first);
}

/**
 * Judges a finding. Near the range of its model an allowance is added to what holds while running; outside it, for a transient near
 * it, and where the finding itself is in doubt, the value is no basis for anything but a fail.
 */
function judgedInRange({ check, finding, instance, policy }: { check: Check; finding: Finding; instance: Case; policy: Policy }): Judged {
  const { range } = instance.point;
  const isNear = check.model !== 'none' && range.kind !== 'inside' && finding.kind === 'measured' && finding.timed !== true;
  const allowance = isNear ? wideAllowance : 0;
  const judgement = judge({ finding, policy, sense: check.sense, allowance });
  if (finding.kind !== 'measured' || judgement.verdict === 'fail') return { finding, instance, allowance, judgement };
  const isOutside = isNear && (range.kind === 'outside' || finding.moment !== undefined);
  const reason = finding.doubt ?? (isOutside ? `${range.note}: no basis for a pass; see choke-ratio and loaded-q` : undefined);
  if (reason === undefined) return { finding, instance, allowance, judgement };
  return { finding, instance, allowance, judgement: { ...judgement, verdict: 'not assessed', value: null, margin: null, reason } };
}

function isWorse(a: Judged, b: Judged): boolean {
  const rank = verdicts.indexOf(a.judgement.verdict) - verdicts.indexOf(b.judgement.verdict);
  if (rank !== 0) return rank > 0;
  return (a.judgement.margin ?? Infinity) < (b.judgement.margin ?? Infinity);
}

/** The tolerances that made a difference to the worst value: turning one of the others round gives the same value. */
function decisiveTolerances({ judged, worst }: { judged: readonly Judged[]; worst: Judged }): readonly (keyof Corner)[] {
  const value = ({ finding, allowance }: Judged): number | undefined =>
    finding.kind === 'measured' ? finding.value * (1 + allowance) : undefined;
  const { corner, load } = worst.instance.point;
  const turned = (key: keyof Corner): Judged | undefined =>
    judged.find(
      ({ finding, instance: { point } }) =>
        point.load === load &&
        finding.moment === worst.finding.moment &&
        cornerKeys.every((other) => (point.corner[other] === corner[other]) === (other !== key)),
    );
  return cornerKeys.filter((key) => {
    const other = turned(key);
    return other === undefined || value(other) !== value(worst);
  });
}

function resultOf({
  check,
  analysis,
  policy,
  passingBank,
  decisive,
  finding,
  instance,
  allowance,
  judgement,
}: {
  check: Check;
  analysis: Analysis;
  policy: Policy;
  passingBank: RemedyInput['passingBank'];
  decisive: readonly (keyof Corner)[];
} & Judged): Result {
  const { verdict, value, limit, warnAt, margin, reason } = judgement;
  const { range } = instance.point;
  let basis: readonly string[] | undefined;
  let remedy: { readonly words: string | undefined } | undefined;
  return {
    id: check.id,
    part: check.part,
    title: check.title,
    subject: check.subject(analysis),
    case: caseName({ instance, moment: finding.moment, keys: decisive }),
    verdict,
    value,
    limit,
    warnAt,
    dimension: check.dimension,
    sense: check.sense,
    margin,
    at: analysis.design.locate(finding.path),
    // what is shown of few results, and of some takes long to make
    get basis() {
      return (basis ??= [
        ...(finding.basis?.() ?? []),
        ...(allowance === 0 || range.kind === 'inside' ? [] : [`${range.note}; ${allowance * 100} % added`]),
        ...(policy.overriddenAt === undefined ? [] : [`levels from ${policy.overriddenAt}, not the default policy`]),
      ]);
    },
    get remedy() {
      return (remedy ??= { words: remedyOf({ finding, allowance, judgement, passingBank }) }).words;
    },
    ...(reason === undefined ? {} : { reason }),
    ...(policy.overriddenAt === undefined ? {} : { levelsFrom: policy.overriddenAt }),
  };
}

function remedyOf({
  finding,
  allowance,
  judgement: { verdict, limit, target },
  passingBank,
}: Pick<Judged, 'finding' | 'allowance' | 'judgement'> & Pick<RemedyInput, 'passingBank'>): string | undefined {
  if (verdict === 'pass' || verdict === 'not assessed') return undefined;
  // a remedy computes with the value itself, so its levels are drawn in by the allowance
  const drawnIn = (level: number): number => level / (1 + allowance);
  return finding.remedy?.({ warnAt: drawnIn(target ?? 0), limit: drawnIn(limit ?? 0), passingBank });
}

/** `lantern on the pad, at switch-on, supply +5 %`. */
function caseName({ instance, moment, keys }: { instance: Case; moment: string | undefined; keys: readonly (keyof Corner)[] }): string {
  const corner = cornerName({ corner: instance.point.corner, keys });
  return [instance.point.load.name, moment ?? '', corner].filter((words) => words !== '').join(', ');
}
