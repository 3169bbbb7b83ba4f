import type { Ampere, AmperePerVoltSquared, Ohm, Siemens, Volt } from '../units/si.ts';

/** A channel whose current is asked for again and again: `at` sets current and derivatives, so that a solver allocates nothing. */
export interface Channel {
  current: Ampere;
  /** ∂I/∂Vgs. */
  byGate: Siemens;
  /** ∂I/∂Vds. */
  byDrain: Siemens;
  readonly at: (gate: Volt, drain: Volt) => void;
}

/**
 * Channel of a square-law MOSFET with a resistance in its drain.
 *
 *     u = Vgs − Vth;  I = ½·K·u² where Vds − I·Rs ≥ u,  else I = K·(u·x − x²/2) with x = Vds − I·Rs
 *     for u ≤ 0: 0 where x ≥ u, else I = −½·K·(u − x)²
 *
 * @param constant   K, in A/V²
 * @param series     Rs, in Ω, not negative
 * @param threshold  Vth, in V
 * @returns the channel; after `at(Vgs, Vds)`, in V, its current in A and derivatives in S; below zero Vds it
 *   conducts backwards, as a switch whose drain and source have changed places
 *
 * Valid for: one threshold, no mobility reduction but that of Rs; current and its first derivatives are continuous.
 * Source: square-law MOSFET, any electronics text
 *
 * @example channelOf({ constant: 8, series: 0, threshold: 3 }).current // 0
 */
export function channelOf({
  constant: K,
  series: Rs,
  threshold,
}: {
  constant: AmperePerVoltSquared;
  series: Ohm;
  threshold: Volt;
}): Channel {
  const channel = {
    current: 0,
    byGate: 0,
    byDrain: 0,
    at: (gate: Volt, v: Volt): void => {
      const u = gate - threshold;
      if (u <= 0) {
        if (v >= u) {
          channel.current = channel.byGate = channel.byDrain = 0;
          return;
        }
        // drain and source have changed places: ½·K·Rs·w² + w − (u − v) = 0 for what the gate is above the drain's end of the channel
        const w = (2 * (u - v)) / (1 + Math.sqrt(1 + 2 * K * Rs * (u - v)));
        channel.current = -0.5 * K * w * w;
        channel.byDrain = (K * w) / (1 + K * Rs * w);
        channel.byGate = -channel.byDrain;
        return;
      }
      const saturated = 0.5 * K * u * u;
      if (v - saturated * Rs >= u) {
        channel.current = saturated;
        channel.byGate = K * u;
        channel.byDrain = 0;
        return;
      }
      // ½·K·Rs·x² − (1 + K·Rs·u)·x + v = 0, in the form that stays exact at small Rs
      const b = 1 + K * Rs * u;
      const x = (2 * v) / (b + Math.sqrt(Math.max(1e-12, b * b - 2 * K * Rs * v)));
      const slope = K * (u - x);
      const divider = 1 + Rs * slope;
      channel.current = K * (u * x - (x * x) / 2);
      channel.byDrain = slope / divider;
      channel.byGate = (K * x) / divider;
    },
  };
  return channel;
}
