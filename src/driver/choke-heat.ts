import { chokeCoreLoss, chokeRmsCurrent, copperCoefficient, windingTemperature } from '../physics/choke-loss.ts';
import { chokeRipple } from '../physics/push-pull.ts';
import type { Design } from '../project/design.ts';
import type { Kelvin, Ohm, Watt } from '../units/si.ts';
import { lacks, type Unknown } from './known.ts';
import { assumedAmbient } from './ambient.ts';
import type { OperatingPoint, Running } from './operating-point.ts';

/** Loss and temperature of one choke while running. */
export interface ChokeHeat {
  readonly copper: Watt;
  readonly core: Watt;
  /** Undefined where the copper loss outgrows the cooling. */
  readonly temperature: Kelvin | undefined;
}

/** How far the stated core loss is scaled in ripple and frequency. */
const farthest = 4;

/** The heat of one choke, or what is missing to tell. */
export function chokeHeatOf({ design, point, running }: { design: Design; point: OperatingPoint; running: Running }): ChokeHeat | Unknown {
  const { choke, arrangement } = design.chokes;
  const { resistance, thermalResistance } = choke.ratings;
  if (resistance === undefined) return lacks({ part: choke.name, key: 'resistance' });
  if (thermalResistance === undefined) return lacks({ part: choke.name, key: 'thermalResistance' });
  const core = coreLossOf({ design, point, running });
  if (typeof core !== 'number') return core;
  const rmsCurrent = chokeRmsCurrent({ current: running.supplyCurrent / (arrangement === 'two' ? 2 : 1), ripple: running.chokeRipple });
  const temperature = windingTemperature({
    ambient: design.environment.ambient ?? assumedAmbient,
    thermalResistance: thermalResistance.value,
    rmsCurrent,
    resistance20: resistance.value,
    coreLoss: core,
  });
  return { copper: rmsCurrent ** 2 * hot({ resistance20: resistance.value, temperature }), core, temperature };
}

function hot({ resistance20, temperature }: { resistance20: Ohm; temperature: Kelvin | undefined }): Ohm {
  return resistance20 * (1 + copperCoefficient * ((temperature ?? 293.15) - 293.15));
}

/** The part states its core loss at a supply voltage and tank frequency, with two chokes. */
function coreLossOf({ design, point, running }: { design: Design; point: OperatingPoint; running: Running }): Watt | Unknown {
  const { choke, arrangement } = design.chokes;
  const stated = choke.ratings.coreLoss;
  if (stated === undefined) return lacks({ part: choke.name, key: 'coreLoss' });
  if (stated.value === 0) return 0;
  const voltage = stated.at?.['supplyVoltage'];
  const statedFrequency = stated.at?.['frequency'];
  if (voltage === undefined || statedFrequency === undefined || voltage <= 0 || statedFrequency <= 0) {
    return { unknown: `${choke.name} does not say at which supplyVoltage and frequency its coreLoss holds` };
  }
  const statedRipple = chokeRipple({
    arrangement: 'two',
    voltage,
    frequency: statedFrequency,
    chokeInductance: point.tank.chokeInductance,
  });
  const frequency = running.frequency * (arrangement === 'two' ? 1 : 2);
  const [more, faster] = [running.chokeRipple / statedRipple, frequency / statedFrequency];
  if (more > farthest || faster > farthest || faster < 1 / farthest) {
    return { unknown: `the coreLoss of ${choke.name} is stated too far from this ripple and frequency to be scaled` };
  }
  return chokeCoreLoss({ statedLoss: stated.value, statedRipple, statedFrequency, ripple: running.chokeRipple, frequency });
}
