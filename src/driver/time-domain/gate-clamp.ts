import { junctionOf, type Junction } from '../../physics/junction-current.ts';
import type { Circuit } from './circuit.ts';

/** Width in volts over which a clamp goes over into conduction. */
const knee = 0.05;

/** What ties a gate to its source: a straight line with a rounded knee above the clamp's voltage, a diode below zero. */
export function gateClamp({ gates: { clamp } }: Circuit): Junction {
  const below = junctionOf({ saturation: 1e-12, emission: 0.03, slope: 0.2 });
  const voltage = clamp?.voltage ?? Infinity;
  const conductance = clamp === undefined ? 0 : 1 / clamp.resistance;
  const self = {
    current: 0,
    conductance: 0,
    at: (g: number): void => {
      below.at(-g);
      self.current = -below.current;
      self.conductance = below.conductance;
      const over = g - voltage + knee;
      if (over >= 2 * knee) {
        self.current += (g - voltage) * conductance;
        self.conductance += conductance;
      } else if (over > 0) {
        self.current += ((over * over) / (4 * knee)) * conductance;
        self.conductance += (over / (2 * knee)) * conductance;
      }
    },
  };
  return self;
}
