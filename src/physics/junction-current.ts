import type { Ampere, Ohm, Volt } from '../units/si.ts';

/** Junctions whose currents are asked for again and again: `update` reads the voltages, so that a solver allocates nothing. */
export interface Junctions {
  readonly voltages: Float64Array;
  readonly currents: Float64Array;
  /** dI/dV, in S. */
  readonly conductances: Float64Array;
  update(): void;
}

/**
 * Junctions: exponential, and straight from where they would be steeper than a resistance.
 *
 *     I = Is·(e^(v/n) − 1) up to v1 = n·ln(n/(r·Is)), then I(v1) + (v − v1)/r
 *
 * @param saturation  Is of each, in A, above zero
 * @param emission    n, in V, above zero
 * @param slope       r, in Ω, above zero
 * @returns the junctions; after `update()` with voltages in V, their currents in A and dI/dv in S
 *
 * Valid for: diodes without charge of their own.
 * Source: Shockley's equation; the straight end stands for bulk resistance and keeps numbers finite
 *
 * @example junctionsOf([{ saturation: 1e-9, emission: 0.046, slope: 0.05 }]).currents[0] // 0
 */
export function junctionsOf(
  junctions: readonly { readonly saturation: Ampere; readonly emission: Volt; readonly slope: Ohm }[],
): Junctions {
  return new ExponentialJunctions(junctions);
}

type Values = Parameters<typeof junctionsOf>[0];

class ExponentialJunctions implements Junctions {
  readonly voltages: Float64Array;
  readonly currents: Float64Array;
  readonly conductances: Float64Array;
  private readonly saturations: Float64Array;
  private readonly emissions: Float64Array;
  private readonly slopes: Float64Array;
  private readonly straightFrom: Float64Array;

  constructor(junctions: Values) {
    const each = (value: (junction: Values[number]) => number): Float64Array => Float64Array.from(junctions, value);
    this.voltages = each(() => 0);
    this.currents = each(() => 0);
    this.conductances = each(({ saturation: Is, emission: n }) => Is / n);
    this.saturations = each(({ saturation }) => saturation);
    this.emissions = each(({ emission }) => emission);
    this.slopes = each(({ slope }) => slope);
    this.straightFrom = each(({ saturation: Is, emission: n, slope: r }) => n * Math.log(n / (r * Is)));
  }

  update(): void {
    const { voltages, currents, conductances, saturations, emissions, slopes, straightFrom } = this;
    for (let k = 0; k < voltages.length; k++) {
      const v = voltages[k]!;
      const n = emissions[k]!;
      const Is = saturations[k]!;
      if (v >= straightFrom[k]!) {
        const r = slopes[k]!;
        currents[k] = n / r - Is + (v - straightFrom[k]!) / r;
        conductances[k] = 1 / r;
      } else {
        const e = v < -40 * n ? 0 : Is * Math.exp(v / n);
        currents[k] = e - Is;
        conductances[k] = e / n;
      }
    }
  }
}
