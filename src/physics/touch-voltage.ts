import type { Hertz, Volt } from '../units/si.ts';

/** Energy source classes of touchable parts. */
export type EnergySourceClass = 'ES1' | 'ES2';

const classes = {
  ES1: { low: 30, slope: 0.4, high: 70 },
  ES2: { low: 50, slope: 0.9, high: 140 },
} as const;

/**
 * Largest sine voltage of an energy source class that a person may touch.
 *
 *     ES1: 30 V to 1 kHz, 30 V + 0.4 V·f/kHz to 100 kHz, 70 V above;  ES2: 50 V, 50 V + 0.9 V·f/kHz, 140 V
 *
 * @param energyClass  ES1 | ES2
 * @param frequency    f, in Hz, above zero
 * @returns the limit, rms, in V
 *
 * Valid for: sine voltage, prospective touch voltage; the standard also has limits by current and for mixed dc and ac.
 * Source: IEC 62368-1:2014/2018 Table 4, from memory (check-values H-62368-*)
 *
 * @example touchVoltageLimit({ energyClass: 'ES1', frequency: 10e3 }) // 34
 */
export function touchVoltageLimit({ energyClass, frequency: f }: { energyClass: EnergySourceClass; frequency: Hertz }): Volt {
  const { low, slope, high } = classes[energyClass];
  if (f <= 1000) return low;
  return Math.min(high, low + (slope * f) / 1000);
}
