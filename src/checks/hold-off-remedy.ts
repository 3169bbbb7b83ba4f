import type { Analysis } from '../driver/analysis.ts';
import { switchOn } from '../driver/events.ts';
import type { OperatingPoint } from '../driver/operating-point.ts';
import type { Ampere, Second, Volt } from '../units/si.ts';
import { gentleWords, riseTimes, withRise } from './gentle-start.ts';
import { noMoreThan } from './words.ts';

/** A switch that holds off at a current, as words of a remedy: its on-resistance, where any is small enough. */
export function lowerResistanceWords({ drop, current, wanted }: { drop: Volt; current: Ampere; wanted: Volt }): string {
  const room = (wanted - drop) / current;
  const diode = 'a cross diode of lower drop or a switch of higher threshold';
  return room > 0 ? `a switch of ${noMoreThan({ value: room, dimension: 'resistance', digits: 2 })} or less when hot, or ${diode}` : diode;
}

/**
 * A slower supply that keeps the peak of the choke current at switch-on at or below a current, as words of a remedy, with the gates on
 * their own rail; undefined where none up to a second does, or the present one is as slow.
 *
 * @param analysis  the project's
 * @param point     load and corner
 * @param highest   supply current, in A
 */
export function slowerRiseWords({
  analysis,
  point,
  highest,
}: {
  analysis: Analysis;
  point: OperatingPoint;
  highest: Ampere;
}): string | undefined {
  const { design } = analysis;
  let found: Second | undefined;
  for (const riseTime of [...riseTimes].reverse()) {
    const peaks = switchOn({ design: withRise({ design, riseTime }), point, damping: 'least' });
    if (!('supplyPeak' in peaks) || peaks.doubt !== undefined || peaks.supplyPeak > highest) break;
    found = riseTime;
  }
  const isSlow =
    design.gates.pullUp.from !== 'supply' && !design.gates.pullUp.hold && found !== undefined && found <= (design.supply.riseTime ?? 0);
  return found === undefined || isSlow ? undefined : gentleWords({ analysis, riseTime: found });
}
