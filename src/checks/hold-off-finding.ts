import { isKnown } from '../driver/known.ts';
import { latchErrorMeasured, type HoldOff } from '../driver/switch-heat.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Finding } from './check.ts';
import { measured, unassessed } from './words.ts';

const signed = (percent: number): string => `${percent < 0 ? '−' : '+'}${Math.abs(percent)}`;

/** How far the closed form of the latch is from the time domain. */
export const latchErrorWords =
  `in the time domain a hundred random designs latched ${signed(latchErrorMeasured.lowest)} … ${signed(latchErrorMeasured.highest)} % ` +
  `from there, half of them past ${signed(latchErrorMeasured.median)} %`;

/**
 * A hold-off voltage against the thresholds: past the minimum threshold it warns, past `failAt` it fails. The limit shown is the
 * typical threshold.
 */
export function holdOffFinding({
  holdOff,
  failAt,
  path,
  basis,
  remedy,
  moment,
  doubt,
  timed,
}: {
  holdOff: HoldOff;
  failAt: number;
  path: string;
  basis: () => readonly string[];
  remedy: () => string;
  moment?: string;
  doubt?: string | undefined;
  timed?: boolean | undefined;
}): Finding {
  const { value, thresholdTypical, thresholdMin } = holdOff;
  const volt = (number: number): string => formatQuantity({ value: number, dimension: 'voltage' });
  if (!isKnown(thresholdMin) && value <= thresholdTypical)
    return { ...unassessed({ unknown: thresholdMin.unknown, path }), moment, remedy };
  const minimum = isKnown(thresholdMin) ? thresholdMin : thresholdTypical;
  return measured({
    doubt,
    timed,
    value,
    levels: { warnAt: Math.min(minimum, thresholdTypical), limit: thresholdTypical, failAt },
    basis: () => [...basis(), `threshold typical ${volt(thresholdTypical)}, minimum ${volt(minimum)} at this junction temperature`],
    path,
    remedy,
    moment,
  });
}
