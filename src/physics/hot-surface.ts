import type { Kelvin, Second } from '../units/si.ts';
import { requireFinite } from './preconditions.ts';

/** Contact time in s and the temperature in °C below which bare metal does not burn skin. */
const thresholds = [
  [1, 65],
  [10, 55],
  [60, 51],
  [600, 48],
  [28800, 43],
] as const;

const zeroCelsius = 273.15;

/**
 * Temperature of bare metal below which skin that touches it for a time is not burnt: the low edge of the band in the standard.
 *
 *     1 s 65 °C, 10 s 55 °C, 1 min 51 °C, 10 min 48 °C, 8 h 43 °C; between them straight over the logarithm of time
 *
 * @param contactTime  in s, 0.5 or more; below 1 s the threshold of 1 s
 * @returns the threshold, in K; from 8 h on 43 °C
 *
 * Valid for: smooth bare metal of high heat content, healthy adult skin, less than a tenth of the body; pain starts some kelvin lower. The
 *   values are read off a band and uncertain by 2 K.
 * Errors: RangeError below 0.5 s, where the standard has no data, or where the time is not finite.
 * Source: ISO 13732-1:2006 (formerly EN 563), from memory (check-values H-burn-iso); it lies 0.1 to 3 K below the hot-water data of
 *   H-burn-shriners
 *
 * @example burnThreshold({ contactTime: 1 }) // 338.15
 * @example burnThreshold({ contactTime: 60 }) // 324.15
 */
export function burnThreshold({ contactTime: t }: { contactTime: Second }): Kelvin {
  requireFinite({ contactTime: t });
  if (t < 0.5) throw new RangeError(`no burn threshold for a contact of ${t} s`);
  const upper = thresholds.findIndex(([time]) => time >= t);
  if (upper === 0) return zeroCelsius + thresholds[0][1];
  if (upper < 0) return zeroCelsius + thresholds[thresholds.length - 1]![1];
  const [t1, T1] = thresholds[upper - 1]!;
  const [t2, T2] = thresholds[upper]!;
  return zeroCelsius + T1 + ((T2 - T1) * Math.log(t / t1)) / Math.log(t2 / t1);
}
