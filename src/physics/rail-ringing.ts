import type { Farad, Henry, Ohm, RadianPerSecond, Ratio, Second } from '../units/si.ts';

/** Source and leads that feed a bulk capacitor at the driver. */
export interface RailFeed {
  /** rs, of source and leads, in Ω. */
  readonly resistance: Ohm;
  /** Ls of the leads, in H; 0 where they count for nothing. */
  readonly leadInductance: Henry;
  /** Cb at the driver, in F, above zero. */
  readonly bulkCapacitance: Farad;
}

/**
 * Natural frequency and damping of leads and bulk capacitor.
 *
 *     ω_s = 1/√(Ls·Cb),  ζ = (rs/2)·√(Cb/Ls)
 *
 * @param feed  rs in Ω, Ls in H above zero, Cb in F
 * @returns ω_s in rad/s and ζ, a ratio
 *
 * Valid for: a capacitor without series resistance of its own, which would damp.
 * Source: series resonance, any circuits text
 *
 * @example railMode({ resistance: 0, leadInductance: 1e-6, bulkCapacitance: 1e-6 }) // { angularFrequency: 1e6, dampingRatio: 0 }
 */
export function railMode({ resistance: rs, leadInductance: Ls, bulkCapacitance: Cb }: RailFeed): {
  angularFrequency: RadianPerSecond;
  dampingRatio: Ratio;
} {
  return { angularFrequency: 1 / Math.sqrt(Ls * Cb), dampingRatio: (rs / 2) * Math.sqrt(Cb / Ls) };
}

/**
 * How far the rail at the driver goes past its voltage when the source rises: the envelope over all rise times near the given one,
 * since a ramp's ringing has nulls that no real rail hits.
 *
 *     k = 1 + min(e^(−πζ/√(1−ζ²)), (1 + e^(−ζ·ω_s·Tr))/(ω_d·Tr)),  ω_d = ω_s·√(1−ζ²)
 *
 * @param feed      rs in Ω, Ls in H, Cb in F
 * @param riseTime  Tr of the source, linear, in s; 0 for a live rail
 * @returns k, a ratio; 1 with a damping ratio of 1 or more, or without leads
 *
 * Valid for: an unloaded rail.
 * Source: response of a second-order system to a linear ramp, the difference of two integrated step responses; any control text
 *
 * @example railOvershootRatio({ feed: { resistance: 0, leadInductance: 1e-6, bulkCapacitance: 1e-6 }, riseTime: 0 }) // 2
 * @example railOvershootRatio({ feed: { resistance: 0, leadInductance: 1e-6, bulkCapacitance: 1e-6 }, riseTime: 20e-6 }) // 1.1
 */
export function railOvershootRatio({ feed, riseTime: Tr }: { feed: RailFeed; riseTime: Second }): Ratio {
  if (feed.leadInductance <= 0) return 1;
  const { angularFrequency: w, dampingRatio: z } = railMode(feed);
  if (z >= 1) return 1;
  const root = Math.sqrt(1 - z * z);
  const step = Math.exp((-Math.PI * z) / root);
  if (Tr <= 0) return 1 + step;
  return 1 + Math.min(step, (1 + Math.exp(-z * w * Tr)) / (w * root * Tr));
}

/**
 * Time in which a live rail comes up at the driver through leads and bulk capacitor.
 *
 *     t = max((π/2)·√(Ls·Cb), rs·Cb)
 *
 * @param feed  rs in Ω, Ls in H, Cb in F
 * @returns t, in s, a quarter of the ringing or the time constant, whichever rules
 *
 * Valid for: an estimate within a factor of two.
 * Source: series resonance, any circuits text
 *
 * @example railRiseTime({ resistance: 0.1, leadInductance: 0, bulkCapacitance: 1e-3 }) // 1e-4
 */
export function railRiseTime({ resistance: rs, leadInductance: Ls, bulkCapacitance: Cb }: RailFeed): Second {
  return Math.max((Math.PI / 2) * Math.sqrt(Ls * Cb), rs * Cb);
}
