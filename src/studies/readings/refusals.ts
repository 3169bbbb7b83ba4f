import { assumedAmbient } from '../../driver/ambient.ts';
import { nominalCorner } from '../../driver/corner.ts';
import { gateNetworkAt } from '../../driver/gate-network.ts';
import { isKnown } from '../../driver/known.ts';
import { operatingPoint } from '../../driver/operating-point.ts';
import type { Design, ReadingKey } from '../../project/design.ts';
import type { Diagnostic } from '../../source/diagnostic.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import type { Ratio } from '../../units/si.ts';
import { predicted, projectFactors, type ReadingModel } from './model.ts';
import { coverage, isTemperature, readingKinds, type Observation } from './observed.ts';

/** A reading this many times too high or too low is a slip of a prefix or of a probe, not a fault of a part. */
const slip: Ratio = 6;
/** Ringing of stray inductance on top of a drain's half sine, which is not modelled: common practice, no source. */
const ringing: Ratio = 0.1;
/** Air in a workshop against the project's ambient. */
const draught = 10;

/** What readings cannot be of a driver that runs, each with what to look at. */
export function readingProblems({
  design,
  model,
  observations,
}: {
  design: Design;
  model: ReadingModel;
  observations: readonly Observation[];
}): readonly Diagnostic[] {
  if (observations.length === 0) {
    const help = 'write what you measured under `readings:`, such as `readings: {frequency: 139 kHz, supplyCurrentIdle: 210 mA}`';
    return [{ id: 'no-readings', message: 'the project has no readings to compare', help, at: design.locate('readings') }];
  }
  const nominal = predicted(model, projectFactors);
  const slips = observations.flatMap(({ key, value }): readonly Diagnostic[] => {
    const expected = nominal?.[key];
    if (isTemperature(key) || expected === undefined || !isKnown(expected) || expected <= 0) return [];
    return value < expected * slip && value > expected / slip ? [] : [slipOf({ design, key, value, expected })];
  });
  const slipped = new Set(slips.map(({ at }) => at?.offset));
  const others = observations.flatMap((observation) => impossible({ design, model, observation, observations }));
  return [...slips, ...others.filter(({ at }) => !slipped.has(at?.offset))];
}

const text = (key: ReadingKey, value: number): string => formatQuantity({ value, dimension: readingKinds[key].dimension });

function slipOf({ design, key, value, expected }: { design: Design; key: ReadingKey; value: number; expected: number }): Diagnostic {
  const times = value > expected ? value / expected : expected / value;
  const many = Number.isFinite(times) ? `${times.toPrecision(2)} times` : 'infinitely';
  return {
    id: 'reading-far-off',
    message: `${key} ${text(key, value)} is ${many} ${value > expected ? 'above' : 'below'} the ${text(key, expected)} that are predicted`,
    label: 'probably a unit',
    help:
      value === 0
        ? 'a running driver does not read zero: leave the reading out'
        : 'probably a unit or a probe’s factor: look at the prefix, at 10:1, and at the scope’s setting',
    at: design.locate(`readings.${key}`),
  };
}

function impossible({
  design,
  model,
  observation: { key, value, uncertainty },
  observations,
}: {
  design: Design;
  model: ReadingModel;
  observation: Observation;
  observations: readonly Observation[];
}): readonly Diagnostic[] {
  const at = design.locate(`readings.${key}`);
  const problem = (message: string, help: string): readonly Diagnostic[] => [{ id: 'impossible-reading', message, help, at }];
  const spread = Math.expm1(coverage * model.priors.supply);
  const voltage = model.design.supply.voltage * (1 + spread);
  if (key === 'drainPeak') {
    const { running } = operatingPoint({ design: model.design, load: model.at, corner: { ...nominalCorner, supply: 1 + spread } });
    const most = Math.max(Math.PI * voltage, running?.drainPeak ?? 0) * (1 + ringing);
    if (value - uncertainty > most)
      return problem(
        `drainPeak ${text(key, value)} is more than a rail of ${formatQuantity({ value: voltage, dimension: 'voltage' })} gives: π·V and ${ringing * 100} % for ringing are ${text(key, most)}`,
        'look at the probe’s factor and compensation, read the crest of the half sine without its ringing, or write the voltage it was at as `supplyVoltage`',
      );
  }
  if (key === 'supplyCurrentLoaded') {
    const idle = observations.find((other) => other.key === 'supplyCurrentIdle');
    if (idle !== undefined && value + uncertainty < idle.value - idle.uncertainty)
      return problem(
        `supplyCurrentLoaded ${text(key, value)} is below supplyCurrentIdle ${text(key, idle.value)}: a load takes power, it does not give any`,
        'the two may be exchanged, or the load detunes the coil so far that it is another driver: leave one out',
      );
  }
  if (key === 'gateHigh') {
    const { feed } = gateNetworkAt({ design: model.design, corner: { ...nominalCorner, supply: 1 + spread } });
    const most = Math.max(feed, 0) * (1 + readingKinds.gateHigh.model);
    if (value - uncertainty > most)
      return problem(
        `gateHigh ${text(key, value)} is more than the ${formatQuantity({ value: feed, dimension: 'voltage' })} that feed the gates`,
        'read the flat top without its ringing, and look at the probe’s factor',
      );
  }
  const ambient = design.environment.ambient ?? assumedAmbient;
  if (isTemperature(key) && value + uncertainty < ambient - draught)
    return problem(
      `${key} ${text(key, value)} is below the ambient ${text(key, ambient)} of the project`,
      'write the air at the test as `environment.ambient`',
    );
  return [];
}
