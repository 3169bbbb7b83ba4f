import { junctionsOf, type Junctions } from '../../physics/junction-current.ts';
import type { Siemens, Volt } from '../../units/si.ts';
import type { Circuit } from './circuit.ts';

/** Width in volts over which a clamp goes over into conduction. */
const knee = 0.05;
/** What a clamp is below zero. */
const reverse = { saturation: 1e-12, emission: 0.03, slope: 0.2 } as const;

/** What ties each gate to its source: a straight line with a rounded knee above the clamp's voltage, a diode below zero. */
export function gateClamps(circuit: Circuit): Junctions {
  return new GateClamps(circuit);
}

class GateClamps implements Junctions {
  readonly voltages = new Float64Array(2);
  readonly currents = new Float64Array(2);
  readonly conductances = new Float64Array(2);
  private readonly below = junctionsOf([reverse, reverse]);
  private readonly voltage: Volt;
  private readonly conductance: Siemens;

  constructor({ gates: { clamp } }: Circuit) {
    this.voltage = clamp?.voltage ?? Infinity;
    this.conductance = clamp === undefined ? 0 : 1 / clamp.resistance;
  }

  update(): void {
    const { voltages, currents, conductances, below, voltage, conductance } = this;
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
  }
}
