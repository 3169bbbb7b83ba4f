import { channelConstant, channelConstantFromOnResistance, onResistanceAt, onResistanceExponent, thresholdAt } from '../physics/mosfet.ts';
import type { MosfetKey } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import type { Kelvin } from '../units/si.ts';
import { isKnown, lacks, type Maybe, whenKnown } from './known.ts';
import { rememberingLast } from './last-answer.ts';

/** Class values for ratings that data sheets seldom print. */
export const classThresholdDrift = -0.0068; // V/K, read for one 100 V planar type
export const classOnResistanceFactor = 2.3; // at 150 °C; silicon power MOSFETs lie between 1.7 and 2.7
/** Input capacitance at zero drain voltage over the catalogue figure at 25 V: 1.5 to 2, class. */
export const inputCapacitanceAtZeroVolts = 2;

/** One switch: all its parallel devices together. */
export interface SwitchModel {
  readonly onResistance: (junction: Kelvin) => Maybe;
  readonly thresholdTypical: (junction: Kelvin) => Maybe;
  readonly thresholdMin: (junction: Kelvin) => Maybe;
  /** Highest threshold a part may have, at 25 °C. */
  readonly thresholdMax: Maybe;
  readonly channelConstant: Maybe;
  /** Highest K that the part may have; one from the on-resistance alone can be far too low. */
  readonly channelConstantMost: Maybe;
  /** Gate capacitance with the drain low. */
  readonly gateCapacitance: Maybe;
  /** Charge to bring the gate fully up. */
  readonly gateCharge: Maybe;
  /** Junction to ambient for the loss of the whole switch. */
  readonly thermalResistance: Maybe;
}

/** What a switch rests on. */
type SwitchDesign = Pick<Design, 'switches'>;

/** The switch of a design with what its part gives; what it does not give is unknown, with the key that would help. */
export function switchModelOf(design: SwitchDesign): SwitchModel {
  return modelOf(design.switches);
}

/** Every load, corner and check of a design asks for the same. */
const modelOf = rememberingLast((switches: Design['switches']): SwitchModel => {
  const design = { switches };
  const { mosfet, parallel, heatsink, insulator } = switches;
  const rating = (key: MosfetKey): Maybe => mosfet.ratings[key]?.value ?? lacks({ part: mosfet.name, key });
  const exponent = onResistanceExponent({ factor: mosfet.ratings.onResistanceFactor?.value ?? classOnResistanceFactor });
  const drift = mosfet.ratings.thresholdDrift?.value ?? classThresholdDrift;
  const typical = thresholdTypicalOf(rating);
  const threshold =
    (threshold25: Maybe) =>
    (junction: Kelvin): Maybe =>
      isKnown(threshold25) ? thresholdAt({ threshold25, drift, junction }) : threshold25;
  const onResistance25 = rating('onResistance');
  const channelConstant = channelConstantOf({ design, typical, parallel });
  return {
    onResistance: (junction) =>
      isKnown(onResistance25) ? onResistanceAt({ onResistance25, exponent, junction }) / parallel : onResistance25,
    thresholdTypical: threshold(typical),
    thresholdMin: threshold(rating('thresholdMin')),
    thresholdMax: rating('thresholdMax'),
    channelConstant,
    channelConstantMost: whenKnown({ k: channelConstant }, ({ k }) =>
      statesTransconductance(design) ? mostOverStated * k : mostOverDerived * k,
    ),
    gateCapacitance: gateCapacitanceOf({ design, parallel }),
    gateCharge: whenKnown({ charge: rating('gateCharge') }, ({ charge }) => charge * parallel),
    thermalResistance:
      heatsink === undefined
        ? whenKnown({ free: rating('junctionToAmbient') }, ({ free }) => free / parallel)
        : whenKnown(
            { junction: rating('junctionToCase'), mount: rating('caseToSink') },
            ({ junction, mount }) => (junction + mount + (insulator ?? 0)) / parallel + heatsink,
          ),
  };
});

function thresholdTypicalOf(rating: (key: MosfetKey) => Maybe): Maybe {
  const stated = rating('thresholdTypical');
  if (typeof stated === 'number') return stated;
  return whenKnown({ low: rating('thresholdMin'), high: rating('thresholdMax') }, ({ low, high }) => (low + high) / 2);
}

/** A data sheet's transconductance is a minimum: K up to so many times that. Practice. */
const mostOverStated = 1.5;
/** K from the on-resistance counts drift region and package as channel: K up to so many times that. Class, from memory. */
const mostOverDerived = 10;

/** Whether K rests on the part's transconductance, and not on its on-resistance alone. */
export function statesTransconductance({ switches }: SwitchDesign): boolean {
  const { transconductance, onResistance } = switches.mosfet.ratings;
  const drainCurrent = transconductance?.at?.['drainCurrent'] ?? onResistance?.at?.['drainCurrent'];
  return transconductance !== undefined && drainCurrent !== undefined && transconductance.value > 0;
}

/** K of the switch. The data sheet's transconductance is a minimum, stated at the drain current of the on-resistance. */
function channelConstantOf({ design, typical, parallel }: { design: SwitchDesign; typical: Maybe; parallel: number }): Maybe {
  const { mosfet } = design.switches;
  const { transconductance, onResistance } = mosfet.ratings;
  const drainCurrent = transconductance?.at?.['drainCurrent'] ?? onResistance?.at?.['drainCurrent'];
  if (transconductance !== undefined && drainCurrent !== undefined && statesTransconductance(design)) {
    return parallel * channelConstant({ transconductance: transconductance.value, drainCurrent });
  }
  const gateVoltage = onResistance?.at?.['gateVoltage'];
  if (onResistance === undefined || gateVoltage === undefined) {
    return { unknown: `${mosfet.name} gives neither transconductance nor onResistanceAt.gateVoltage` };
  }
  return whenKnown({ typical }, ({ typical: threshold }) =>
    gateVoltage > threshold
      ? parallel * channelConstantFromOnResistance({ onResistance: onResistance.value, gateVoltage, threshold })
      : { unknown: `${mosfet.name} states its onResistance at ${gateVoltage} V, below its own threshold` },
  );
}

/** From the input capacitance, else from the whole gate charge, which leans high. */
function gateCapacitanceOf({ design, parallel }: { design: SwitchDesign; parallel: number }): Maybe {
  const { mosfet } = design.switches;
  const { inputCapacitance, gateCharge } = mosfet.ratings;
  if (inputCapacitance !== undefined) return parallel * inputCapacitanceAtZeroVolts * inputCapacitance.value;
  const at = gateCharge?.at?.['gateVoltage'];
  if (gateCharge !== undefined && at !== undefined) return (parallel * gateCharge.value) / at;
  return lacks({ part: mosfet.name, key: 'inputCapacitance' });
}
