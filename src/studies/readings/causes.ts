import { isKnown } from '../../driver/known.ts';
import { nominalPoint } from '../../driver/operating-point.ts';
import type { Design, ReadingKey } from '../../project/design.ts';
import { faultsFor, type Fault, type FaultId } from './faults.ts';
import { readingFit, type ReadingFit } from './fit.ts';
import { predicted, projectFactors, scaledLoad, withDesign, type ReadingModel } from './model.ts';
import type { Observation } from './observed.ts';

/** A reading and what a cause makes of it. */
export interface Evidence {
  readonly key: ReadingKey;
  readonly read: number;
  /** At the project's own values. */
  readonly project: number;
  /** With the cause, the other values fitted within their tolerances. */
  readonly withCause: number;
}

/** A fault that explains readings better than the tolerances do. */
export interface Cause {
  readonly id: FaultId;
  readonly words: string;
  readonly fault: Fault;
  readonly model: ReadingModel;
  readonly fit: ReadingFit;
  /** Whether no reading is left further off than its uncertainty. */
  readonly explainsAll: boolean;
  /** By how much the sum of squares falls, a fault counted as one more value. */
  readonly gain: number;
  readonly evidence: readonly Evidence[];
}

/** What a cause must gain to be worth a word: two standard deviations. */
const leastGain = 4;
/** A fault is one more value: it must gain so much for itself (Akaike). */
const priceOfFault = 2;
/** A larger size of the same fault must explain so much better than a smaller one: what no reading tells is not made up. */
const worthASize = 1;
/** Standard deviations within which a reading counts as explained. */
export const explained = 2.5;

/** A model with a fault. */
export function faultyModel({ model, fault }: { model: ReadingModel; fault: Fault }): ReadingModel {
  const changed = withDesign(model, fault.change);
  if (fault.loads === undefined || changed.loaded === undefined) return changed;
  const loaded = scaledLoad(changed.loaded, fault.loads);
  return { ...changed, loaded, at: changed.at === changed.loaded ? loaded : changed.at };
}

/** The best size of each kind of fault that explains the readings better than the tolerances alone, the best first. */
export function causesOf({
  original,
  model,
  observations,
  base,
}: {
  original: Design;
  model: ReadingModel;
  observations: readonly Observation[];
  base: ReadingFit;
}): readonly Cause[] {
  const best = new Map<FaultId, Cause>();
  for (const fault of faultsFor({ model, original })) {
    const faulty = faultyModel({ model, fault });
    const fit = readingFit({ model: faulty, observations });
    // a cause under which a reading could not be had explains nothing
    if (fit === undefined || fit.residuals.size < base.residuals.size || latches(faulty)) continue;
    const gain = base.cost - fit.cost - priceOfFault;
    if (gain < leastGain || gain <= (best.get(fault.id)?.gain ?? 0) + worthASize) continue;
    best.set(fault.id, {
      id: fault.id,
      words: fault.words,
      fault,
      model: faulty,
      fit,
      gain,
      explainsAll: [...fit.residuals.values()].every((residual) => Math.abs(residual) <= explained),
      evidence: evidenceOf({ model, faulty, fit, observations, base }),
    });
  }
  return [...best.values()].toSorted((a, b) => b.gain - a.gain);
}

/** A pair that latches gives no readings. */
function latches({ design, loaded, idle }: ReadingModel): boolean {
  return nominalPoint({ design, load: loaded ?? idle }).running?.losses === 'latched';
}

/** Readings that the fault moves, or that the tolerances did not explain. */
function evidenceOf({
  model,
  faulty,
  fit,
  observations,
  base,
}: {
  model: ReadingModel;
  faulty: ReadingModel;
  fit: ReadingFit;
  observations: readonly Observation[];
  base: ReadingFit;
}): readonly Evidence[] {
  const [before, after] = [predicted(model, projectFactors), predicted(faulty, fit.factors)];
  return observations.flatMap(({ key, value }): readonly Evidence[] => {
    const [project, withCause] = [before?.[key], after?.[key]];
    if (project === undefined || withCause === undefined || !isKnown(project) || !isKnown(withCause)) return [];
    const improved = Math.abs(base.residuals.get(key) ?? 0) - Math.abs(fit.residuals.get(key) ?? 0);
    const isCloser = Math.abs(withCause - value) < Math.abs(project - value);
    return improved > 0.5 && isCloser ? [{ key, read: value, project, withCause }] : [];
  });
}
