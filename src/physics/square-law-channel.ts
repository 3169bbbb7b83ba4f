import type { AmperePerVoltSquared, Ohm, Volt } from '../units/si.ts';

/** Channels whose currents are asked for again and again: `update` reads the voltages, so that a solver allocates nothing. */
export interface Channels {
  /** Vgs and Vds. */
  readonly gates: Float64Array;
  readonly drains: Float64Array;
  readonly currents: Float64Array;
  /** ∂I/∂Vgs and ∂I/∂Vds, in S. */
  readonly byGate: Float64Array;
  readonly byDrain: Float64Array;
  update(): void;
}

/**
 * Channels of square-law MOSFETs with a resistance in their drains.
 *
 *     u = Vgs − Vth;  I = ½·K·u² where Vds − I·Rs ≥ u,  else I = K·(u·x − x²/2) with x = Vds − I·Rs
 *     for u ≤ 0: 0 where x ≥ u, else I = −½·K·(u − x)²
 *
 * @param constant   K of each, in A/V²
 * @param series     Rs, in Ω, not negative
 * @param threshold  Vth, in V
 * @returns the channels; after `update()` with voltages in V, their currents in A and derivatives in S; below zero Vds one
 *   conducts backwards, as a switch whose drain and source have changed places
 *
 * Valid for: one threshold, no mobility reduction but that of Rs; current and its first derivatives are continuous.
 * Source: square-law MOSFET, any electronics text
 *
 * @example channelsOf([{ constant: 8, series: 0, threshold: 3 }]).currents[0] // 0
 */
export function channelsOf(
  channels: readonly { readonly constant: AmperePerVoltSquared; readonly series: Ohm; readonly threshold: Volt }[],
): Channels {
  return new SquareLawChannels(channels);
}

type Values = Parameters<typeof channelsOf>[0];

class SquareLawChannels implements Channels {
  readonly gates: Float64Array;
  readonly drains: Float64Array;
  readonly currents: Float64Array;
  readonly byGate: Float64Array;
  readonly byDrain: Float64Array;
  private readonly constants: Float64Array;
  private readonly resistances: Float64Array;
  private readonly thresholds: Float64Array;

  constructor(channels: Values) {
    const each = (value: (channel: Values[number]) => number): Float64Array => Float64Array.from(channels, value);
    this.gates = each(() => 0);
    this.drains = each(() => 0);
    this.currents = each(() => 0);
    this.byGate = each(() => 0);
    this.byDrain = each(() => 0);
    this.constants = each(({ constant }) => constant);
    this.resistances = each(({ series }) => series);
    this.thresholds = each(({ threshold }) => threshold);
  }

  update(): void {
    const { gates, drains, currents, byGate, byDrain, constants, resistances, thresholds } = this;
    for (let k = 0; k < gates.length; k++) {
      const v = drains[k]!;
      const K = constants[k]!;
      const Rs = resistances[k]!;
      const u = gates[k]! - thresholds[k]!;
      const saturated = 0.5 * K * u * u;
      if (u <= 0) {
        // drain and source have changed places: ½·K·Rs·w² + w − (u − v) = 0 for what the gate is above the drain's end of the channel
        const w = v >= u ? 0 : (2 * (u - v)) / (1 + Math.sqrt(1 + 2 * K * Rs * (u - v)));
        currents[k] = -0.5 * K * w * w;
        byDrain[k] = (K * w) / (1 + K * Rs * w);
        byGate[k] = -byDrain[k]!;
      } else if (v - saturated * Rs >= u) {
        currents[k] = saturated;
        byGate[k] = K * u;
        byDrain[k] = 0;
      } else {
        // ½·K·Rs·x² − (1 + K·Rs·u)·x + v = 0, in the form that stays exact at small Rs
        const b = 1 + K * Rs * u;
        const x = (2 * v) / (b + Math.sqrt(Math.max(1e-12, b * b - 2 * K * Rs * v)));
        const slope = K * (u - x);
        const divider = 1 + Rs * slope;
        currents[k] = K * (u * x - (x * x) / 2);
        byDrain[k] = slope / divider;
        byGate[k] = (K * x) / divider;
      }
    }
  }
}
