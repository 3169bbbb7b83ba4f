import type { Judgement } from '../../checks/judge.ts';
import { verdicts } from '../../checks/judge.ts';
import type { Policies } from '../../checks/policy.ts';
import type { Result } from '../../checks/result.ts';
import { reviewOf } from '../../checks/review.ts';
import { analysisOf } from '../../driver/analysis.ts';
import { hottestCoil } from '../../driver/coil-heat.ts';
import { coilOf } from '../../driver/coil.ts';
import { timedAnalysis } from '../../driver/timed-analysis.ts';
import type { Design, Load } from '../../project/design.ts';
import { heldLoad } from '../reading-loads.ts';
import { coverage } from './observed.ts';
import type { Fault } from './faults.ts';
import { withCapacitance, withChoke } from './faults.ts';
import type { ReadingFit } from './fit.ts';
import { parameterNames, scaledLoad } from './model.ts';

/** One set of values that the readings allow. */
export interface Build {
  readonly fit: ReadingFit;
  readonly fault?: Fault;
}

/**
 * The project as it was built, at its own supply voltage: values as estimated, the coil's tolerance narrowed to what is left of it. The
 * bank keeps its tolerance, by which its capacitors share the current unevenly.
 */
export function designAsBuilt({ design, build: { fit, fault } }: { design: Design; build: Build }): Design {
  const { factors, covariance } = fit;
  const coil = coilOf(design);
  const { resistance: hot, warm } = hottestCoil(design);
  const at = parameterNames.indexOf('coil');
  const left = Math.expm1(coverage * Math.sqrt(Math.max(0, covariance[at]![at]!)));
  const { resistance } = design.supply;
  const loads = design.loads.map((load): Load => {
    const held = scaledLoad(heldLoad({ design, load }), factors.load * (fault?.loads ?? 1));
    return held;
  });
  const measured: Design = {
    ...design,
    loads,
    supply: { ...design.supply, ...(resistance === undefined ? {} : { resistance: resistance * factors.source }) },
    tank: {
      ...design.tank,
      coil: {
        ...design.tank.coil,
        inductance: coil.inductance * factors.coil,
        resistance: hot * factors.loss,
        ...(design.tank.coil.resistance === undefined ? { resistanceAt: warm } : {}),
        tolerance: Math.min(coil.tolerance, left),
      },
    },
  };
  const whole = withChoke(factors.choke)(withCapacitance(factors.bank)(measured));
  return fault === undefined ? whole : fault.change(whole);
}

/** The review of every build that the readings allow; of each check the worst. */
export function reviewAsBuilt({
  design,
  builds,
  policies,
}: {
  design: Design;
  builds: readonly Build[];
  policies: Policies;
}): readonly Result[] {
  const reviews = builds.map((build) => reviewOf({ analysis: timedAnalysis(analysisOf(designAsBuilt({ design, build }))), policies }));
  const [first, ...others] = reviews;
  return (first ?? []).map((result) =>
    others.reduce(
      (worst, review) =>
        graver(
          worst,
          review.find(({ id }) => id === worst.id),
        ),
      result,
    ),
  );
}

function graver(a: Result, b: Result | undefined): Result {
  if (b === undefined) return a;
  const rank = (verdict: Judgement['verdict']): number => verdicts.indexOf(verdict);
  if (rank(a.verdict) !== rank(b.verdict)) return rank(a.verdict) > rank(b.verdict) ? a : b;
  return (b.margin ?? Infinity) < (a.margin ?? Infinity) ? b : a;
}
