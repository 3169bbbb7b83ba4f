import type { Analysis, Case } from '../driver/analysis.ts';
import { cornerName } from '../driver/corner.ts';
import { wideAllowance } from '../driver/model-range.ts';
import type { Check, Finding } from './check.ts';
import { judge, verdicts, type Judgement } from './judge.ts';
import { latchUp } from './latch-up.ts';
import type { Policies, Policy } from './policy.ts';
import { checks } from './registry.ts';
import type { Result } from './result.ts';

/** Levels for checks whose limits come from the circuit. */
const circuitPolicy: Policy = {
  warn: { share: 1 },
  fail: { share: 1 },
  reason: 'limits come from the circuit itself',
  source: 'see explain',
};

/**
 * Every check over every load and corner of an analysis, the worst of each, in the order of the registry; the summary last.
 *
 * @param policies  levels by check id, overrides of the project merged in
 */
export function reviewOf({ analysis, policies }: { analysis: Analysis; policies: Policies }): readonly Result[] {
  const results = checks.flatMap((check) => worstOf({ check, analysis, policy: policies.get(check.id) ?? circuitPolicy }) ?? []);
  return [...results, latchUp.run({ analysis, results })];
}

interface Judged {
  readonly finding: Finding;
  readonly instance: Case;
  readonly judgement: Judgement;
}

function worstOf({ check, analysis, policy }: { check: Check; analysis: Analysis; policy: Policy }): Result | undefined {
  const judged = analysis.corners.flatMap((instance) =>
    check.run({ analysis, instance }).map((finding): Judged => judgedInRange({ check, finding, instance, policy })),
  );
  const first = judged[0];
  if (first === undefined) return undefined;
  const worst = judged.reduce((a, b) => (isWorse(b, a) ? b : a), first);
  return resultOf({ check, analysis, policy, ...worst });
}

/**
 * Judges a finding. Outside the range of its model a value is no basis for a pass; near it an allowance is added to what holds while
 * running, while the envelope of a transient is not relied upon at all.
 */
function judgedInRange({ check, finding, instance, policy }: { check: Check; finding: Finding; instance: Case; policy: Policy }): Judged {
  const { range } = instance.point;
  if (check.model === 'none' || range.kind === 'inside' || finding.kind !== 'measured') {
    return { finding, instance, judgement: judge({ finding, policy, sense: check.sense }) };
  }
  const noted: Finding = { ...finding, value: finding.value * (1 + wideAllowance), basis: [...finding.basis, range.note] };
  const judgement = judge({ finding: noted, policy, sense: check.sense });
  if (judgement.verdict === 'fail' || (range.kind === 'wide' && finding.moment === undefined))
    return { finding: noted, instance, judgement };
  return { finding: noted, instance, judgement: { ...judgement, verdict: 'not assessed', value: null, margin: null, reason: range.note } };
}

function isWorse(a: Judged, b: Judged): boolean {
  const rank = verdicts.indexOf(a.judgement.verdict) - verdicts.indexOf(b.judgement.verdict);
  if (rank !== 0) return rank > 0;
  return (a.judgement.margin ?? Infinity) < (b.judgement.margin ?? Infinity);
}

function resultOf({
  check,
  analysis,
  policy,
  finding,
  instance,
  judgement,
}: { check: Check; analysis: Analysis; policy: Policy } & Judged): Result {
  const { verdict, value, limit, warnAt, margin, reason } = judgement;
  const remedy = remedyOf({ finding, judgement });
  return {
    id: check.id,
    part: check.part,
    title: check.title,
    subject: check.subject(analysis),
    case: caseName({ instance, moment: finding.moment }),
    verdict,
    value,
    limit,
    warnAt,
    dimension: check.dimension,
    sense: check.sense,
    margin,
    at: analysis.design.locate(finding.path),
    basis: [...finding.basis, ...(policy.overriddenAt === undefined ? [] : [`levels from ${policy.overriddenAt}, not the default policy`])],
    ...(reason === undefined ? {} : { reason }),
    ...(remedy === undefined ? {} : { remedy }),
  };
}

function remedyOf({ finding, judgement: { verdict, warnAt, limit } }: { finding: Finding; judgement: Judgement }): string | undefined {
  if (verdict === 'pass' || verdict === 'not assessed') return undefined;
  return finding.remedy?.({ warnAt: warnAt ?? 0, limit: limit ?? 0 });
}

/** `lantern on the pad, at switch-on, supply +5 %`. */
function caseName({ instance, moment }: { instance: Case; moment: string | undefined }): string {
  const corner = cornerName(instance.point.corner);
  return [instance.point.load.name, moment ?? '', corner].filter((words) => words !== '').join(', ');
}
