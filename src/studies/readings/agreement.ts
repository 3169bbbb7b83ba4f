import { assumedAmbient } from '../../driver/ambient.ts';
import { nominalCorner } from '../../driver/corner.ts';
import { gateNetworkAt } from '../../driver/gate-network.ts';
import { isKnown } from '../../driver/known.ts';
import type { Design } from '../../project/design.ts';
import { expectedReadings, parameterNames, predicted, projectFactors, type ReadingModel } from './model.ts';
import { coverage, isTemperature, readingKinds, type Observation } from './observed.ts';

/** A reading beside what was predicted. */
export interface Comparison extends Observation {
  /** At the project's own values; null where it is not known. */
  readonly predicted: number | null;
  /** Half width, 95 %: uncertainty of the reading, error of the model and tolerances together. */
  readonly combined: number | null;
  readonly verdict: 'agrees' | 'disagrees' | 'not compared';
  /** Why it is not compared, or what else to know. */
  readonly note?: string;
}

/** Step of the sensitivities. */
const step = 1e-3;

/** Every reading beside its prediction. */
export function comparisons({
  design,
  model,
  observations,
}: {
  /** The project, whose coil may have a geometry. */
  design: Design;
  model: ReadingModel;
  observations: readonly Observation[];
}): readonly Comparison[] {
  const written = expectedReadings(model);
  const nominal = predicted(model, projectFactors);
  const moved = parameterNames.map((name) => predicted(model, { ...projectFactors, [name]: 1 + step }));
  return observations.map((observation): Comparison => {
    const { key, value, uncertainty } = observation;
    const [expected, modelled] = [written[key], nominal?.[key]];
    if (!isKnown(expected))
      return {
        ...observation,
        predicted: null,
        combined: null,
        verdict: 'not compared',
        note: expected.unknown,
      };
    if (isTemperature(key)) return temperature({ observation, expected, ambient: design.environment.ambient ?? assumedAmbient });
    if (key === 'gateHigh') return gate({ observation, expected, model });
    const spread = parameterNames.map((name, i) => {
      const other = moved[i]?.[key];
      if (other === undefined || modelled === undefined || !isKnown(other) || !isKnown(modelled)) return 0;
      return (coverage * model.priors[name] * (other - modelled)) / Math.log1p(step);
    });
    const combined = Math.hypot(uncertainty, readingKinds[key].model * expected, ...spread);
    return { ...observation, predicted: expected, combined, verdict: Math.abs(value - expected) <= combined ? 'agrees' : 'disagrees' };
  });
}

function temperature({ observation, expected, ambient }: { observation: Observation; expected: number; ambient: number }): Comparison {
  const { key, value, uncertainty } = observation;
  const combined = Math.hypot(uncertainty, readingKinds[key].model * (expected - ambient));
  const note = 'the prediction is a steady one and leans high: lower agrees';
  return { ...observation, predicted: expected, combined, verdict: value <= expected + combined ? 'agrees' : 'disagrees', note };
}

function gate({ observation, expected, model }: { observation: Observation; expected: number; model: ReadingModel }): Comparison {
  const { value, uncertainty, key } = observation;
  const network = gateNetworkAt({ design: model.design, corner: nominalCorner });
  const highest = isKnown(network.peak) ? Math.max(network.peak, expected) : expected;
  const spread = Math.max(highest - expected, expected - network.lowestHigh);
  const combined = Math.hypot(uncertainty, readingKinds[key].model * expected, spread);
  return { ...observation, predicted: expected, combined, verdict: Math.abs(value - expected) <= combined ? 'agrees' : 'disagrees' };
}
