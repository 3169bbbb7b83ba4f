import type { Ampere, Siemens, Volt } from '../../units/si.ts';
import type { Circuit, JunctionValues } from './circuit.ts';

/** Width in volts over which a clamp goes over into conduction. */
const knee = 0.05;

/** What ties a gate to its source below zero: the clamp as a diode, or the gate's own protection. */
export const gateDiode: JunctionValues = { saturation: 1e-12, emission: 0.03, slope: 0.2 };

/** What ties a gate to its source above zero: a straight line with a rounded knee at the clamp's voltage. */
export class GateClamp {
  private readonly from: Volt;
  private readonly slope: Siemens;

  constructor({ gates: { clamp } }: Circuit) {
    this.from = clamp === undefined ? Infinity : clamp.voltage - knee;
    this.slope = clamp === undefined ? 0 : 1 / clamp.resistance;
  }

  current(gate: Volt): Ampere {
    const over = gate - this.from;
    return over <= 0 ? 0 : this.slope * (over >= 2 * knee ? over - knee : (over * over) / (4 * knee));
  }

  conductance(gate: Volt): Siemens {
    const over = gate - this.from;
    return over <= 0 ? 0 : this.slope * Math.min(1, over / (2 * knee));
  }
}
