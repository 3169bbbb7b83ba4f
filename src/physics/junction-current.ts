import type { Ampere, Ohm, Siemens, Volt } from '../units/si.ts';

/** A junction whose current is asked for again and again: `at` sets current and conductance, so that a solver allocates nothing. */
export interface Junction {
  current: Ampere;
  conductance: Siemens;
  readonly at: (voltage: Volt) => void;
}

/**
 * A junction: exponential, and straight from where it would be steeper than a resistance.
 *
 *     I = Is·(e^(v/n) − 1) up to v1 = n·ln(n/(r·Is)), then I(v1) + (v − v1)/r
 *
 * @param saturation  Is, in A, above zero
 * @param emission    n, in V, above zero
 * @param slope       r, in Ω, above zero
 * @returns the junction; after `at(v)`, v in V, its current in A and dI/dv in S
 *
 * Valid for: a diode without charge of its own.
 * Source: Shockley's equation; the straight end stands for bulk resistance and keeps numbers finite
 *
 * @example junctionOf({ saturation: 1e-9, emission: 0.046, slope: 0.05 }).current // 0
 */
export function junctionOf({ saturation: Is, emission: n, slope: r }: { saturation: Ampere; emission: Volt; slope: Ohm }): Junction {
  const straightFrom = n * Math.log(n / (r * Is));
  const straightCurrent = n / r - Is;
  const nothingBelow = -40 * n;
  const junction = {
    current: 0,
    conductance: Is / n,
    at: (v: Volt): void => {
      if (v >= straightFrom) {
        junction.current = straightCurrent + (v - straightFrom) / r;
        junction.conductance = 1 / r;
        return;
      }
      const e = v < nothingBelow ? 0 : Is * Math.exp(v / n);
      junction.current = e - Is;
      junction.conductance = e / n;
    },
  };
  return junction;
}
