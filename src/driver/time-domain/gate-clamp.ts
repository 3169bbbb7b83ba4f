import { junctionsOf, type Junctions } from '../../physics/junction-current.ts';
import type { Circuit } from './circuit.ts';

/** Width in volts over which a clamp goes over into conduction. */
const knee = 0.05;
/** What a clamp is below zero. */
const reverse = { saturation: 1e-12, emission: 0.03, slope: 0.2 } as const;

/** What ties each gate to its source: a straight line with a rounded knee above the clamp's voltage, a diode below zero. */
export function gateClamps({ gates: { clamp } }: Circuit): Junctions {
  const below = junctionsOf([reverse, reverse]);
  const voltage = clamp?.voltage ?? Infinity;
  const conductance = clamp === undefined ? 0 : 1 / clamp.resistance;
  const [voltages, currents, conductances] = [new Float64Array(2), new Float64Array(2), new Float64Array(2)];
  const update = (): void => {
    for (let k = 0; k < 2; k++) below.voltages[k] = -voltages[k]!;
    below.update();
    for (let k = 0; k < 2; k++) {
      const beyond = voltages[k]! - voltage;
      const over = beyond + knee;
      const isStraight = over >= 2 * knee;
      const line = over <= 0 ? 0 : isStraight ? beyond : (over * over) / (4 * knee);
      const slope = over <= 0 ? 0 : isStraight ? 1 : over / (2 * knee);
      currents[k] = line * conductance - below.currents[k]!;
      conductances[k] = slope * conductance + below.conductances[k]!;
    }
  };
  return { voltages, currents, conductances, update };
}
