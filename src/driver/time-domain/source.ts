import type { Ampere, Ohm, Ratio, Siemens, Volt } from '../../units/si.ts';
import type { Circuit } from './circuit.ts';

/** The rail at the driver where nothing but resistance lies between it and the source; asked for again and again, see sourceOf. */
export interface Source {
  rail: Volt;
  /** ∂rail by the current of the chokes, by the voltage of a gate, by the source's own voltage. */
  byChoke: Ohm;
  byGate: Ratio;
  bySource: Ratio;
  at(voltage: Volt, chokes: Ampere, gates: Volt): void;
}

/**
 * A source with resistance and limit, loaded by the chokes and, where they hang on its rail, by both pull-ups.
 *
 *     rail = E − rs·i up to i = limit, E − rs·i − r_limit·(i − limit) beyond;  i = j + (2·rail − gA − gB)/Rg, or j with a gate rail
 *
 * The load rises with the rail and the source falls with it, so that there is one solution: the one without a limit where that takes
 * no more than the limit, else the one beyond it. Both agree where they meet, and the rail has no step.
 */
export function sourceOf(circuit: Circuit): Source {
  return new ResistiveSource(circuit);
}

class ResistiveSource implements Source {
  rail: Volt = 0;
  byChoke: Ohm = 0;
  byGate: Ratio = 0;
  bySource: Ratio = 0;
  private readonly limitCurrent: Ampere;
  private readonly limitResistance: Ohm;
  private readonly resistance: Ohm;
  private readonly beyond: Ohm;
  /** Of the pull-ups that hang on the rail. */
  private readonly gp: Siemens;
  private readonly free: Ratio;
  private readonly limited: Ratio;

  constructor({ supply: { limit, resistance }, gates }: Circuit) {
    this.limitCurrent = limit?.current ?? Infinity;
    this.limitResistance = limit?.resistance ?? 0;
    this.resistance = resistance;
    this.beyond = resistance + this.limitResistance;
    this.gp = gates.rail === undefined ? 1 / gates.pullUp : 0;
    this.free = 1 / (1 + 2 * resistance * this.gp);
    this.limited = 1 / (1 + 2 * this.beyond * this.gp);
  }

  at(E: Volt, j: Ampere, g: Volt): void {
    const { gp, limitCurrent } = this;
    let rs = this.resistance;
    let k = this.free;
    this.rail = k * (E - rs * (j - gp * g));
    if (j + gp * (2 * this.rail - g) > limitCurrent) {
      rs = this.beyond;
      k = this.limited;
      this.rail = k * (E + this.limitResistance * limitCurrent - rs * (j - gp * g));
    }
    this.byChoke = -k * rs;
    this.byGate = k * rs * gp;
    this.bySource = k;
  }
}
