import type { Ampere, Ohm, Ratio, Siemens, Volt } from '../../units/si.ts';
import type { Circuit } from './circuit.ts';

/** The rail at the driver where nothing but resistance lies between it and the source; asked for again and again, see sourceOf. */
export interface Source {
  rail: Volt;
  /** ∂rail by the current of the chokes, by the voltage of a gate, by the source's own voltage. */
  byChoke: Ohm;
  byGate: Ratio;
  bySource: Ratio;
  readonly at: (voltage: Volt, chokes: Ampere, gates: Volt) => void;
}

/**
 * A source with resistance and limit, loaded by the chokes and, where they hang on its rail, by both pull-ups.
 *
 *     rail = E − rs·i up to i = limit, E − rs·i − r_limit·(i − limit) beyond;  i = j + (2·rail − gA − gB)/Rg, or j with a gate rail
 *
 * The load rises with the rail and the source falls with it, so that there is one solution: the one without a limit where that takes
 * no more than the limit, else the one beyond it. Both agree where they meet, and the rail has no step.
 */
export function sourceOf({ supply, gates }: Circuit): Source {
  const { limit, resistance } = supply;
  const gp: Siemens = gates.rail === undefined ? 1 / gates.pullUp : 0;
  const free = 1 / (1 + 2 * resistance * gp);
  const beyond = limit === undefined ? resistance : resistance + limit.resistance;
  const limited = 1 / (1 + 2 * beyond * gp);
  const source: Source = {
    rail: 0,
    byChoke: 0,
    byGate: 0,
    bySource: 0,
    at: (E, j, g) => {
      let rs = resistance;
      let k = free;
      source.rail = k * (E - rs * (j - gp * g));
      if (limit !== undefined && j + gp * (2 * source.rail - g) > limit.current) {
        rs = beyond;
        k = limited;
        source.rail = k * (E + limit.resistance * limit.current - rs * (j - gp * g));
      }
      source.byChoke = -k * rs;
      source.byGate = k * rs * gp;
      source.bySource = k;
    },
  };
  return source;
}
