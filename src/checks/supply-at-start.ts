import type { Analysis } from '../driver/analysis.ts';
import type { OperatingPoint } from '../driver/operating-point.ts';
import { seenChokeInductance } from '../physics/push-pull.ts';
import { riseAtDriver } from '../driver/rail.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ampere } from '../units/si.ts';
import type { Verdict } from './judge.ts';
import { noLessThan } from './words.ts';

/** What the summary of the oscillation rests on. */
export interface Statement {
  readonly verdict: Verdict;
  /** Asked, as the remedy is, of the statements that decide: some take long. */
  readonly words: () => string;
  readonly remedy?: () => string | undefined;
}

/** Share of the rail that a bulk capacitor may lose while it carries the peak of a start. */
const bulkDip = 0.1;

/** A start that needs more than the supply gives pulls the rail down, and a sagging rail brings both switches on. */
export function supplyAtStart({ design, corners }: Analysis): readonly Statement[] {
  const { currentLimit, bulkCapacitance, voltage } = design.supply;
  if (currentLimit === undefined) return [];
  let worst: { readonly peak: Ampere; readonly point: OperatingPoint } | undefined;
  for (const { switchOn, point } of corners) {
    if (switchOn === undefined || 'unknown' in switchOn) continue;
    if (worst === undefined || switchOn.supplyPeak > worst.peak) worst = { peak: switchOn.supplyPeak, point };
  }
  if (worst === undefined) return [];
  const { peak } = worst;
  const excess = peak - currentLimit.current;
  if (excess <= 0) return [];
  const { chokeInductance, capacitance } = worst.point.tank;
  const half = Math.PI ** 2 * Math.sqrt(seenChokeInductance({ arrangement: design.chokes.arrangement, chokeInductance }) * capacitance);
  const dip = bulkCapacitance === undefined ? Infinity : (excess * half) / bulkCapacitance;
  if (dip <= bulkDip * voltage) return [];
  const ampere = (value: number): string => formatQuantity({ value, dimension: 'current' });
  const bulk = (): string => noLessThan({ value: (excess * half) / (bulkDip * voltage), dimension: 'capacitance', digits: 2 });
  return [
    {
      verdict: 'not assessed',
      words: () =>
        `the start takes up to ${ampere(peak)}, the supply gives ${ampere(currentLimit.current)}: the rail may sag and both switches come on`,
      remedy: () => `${bulk()} or more at the driver (supply.bulkCapacitance), or a stronger supply`,
    },
  ];
}

/** A bulk capacitor that takes more than the supply gives makes the rail rise more slowly than the project says, or not at all. */
export function bulkCharging({ design, corners }: Analysis): readonly Statement[] {
  const { currentLimit, bulkCapacitance, riseTime, voltage, tolerance = 0 } = design.supply;
  if (currentLimit === undefined || bulkCapacitance === undefined) return [];
  // gates released on a rail that is up do not mind how long it took
  if (design.gates.pullUp.hold && currentLimit.kind === 'constant') return [];
  const rise = riseAtDriver(design);
  const running = Math.max(...corners.map(({ point }) => point.running?.supplyCurrent ?? 0));
  const charge = bulkCapacitance * voltage * (1 + tolerance);
  if (rise > 0 && charge / rise + running <= currentLimit.current) return [];
  const ampere = (value: number): string => formatQuantity({ value, dimension: 'current' });
  const room = currentLimit.current - running;
  const wanted = (): string => noLessThan({ value: charge / room, dimension: 'time', digits: 2 });
  const takes = (): string =>
    rise > 0 ? `${ampere(charge / rise)} for ${formatQuantity({ value: rise, dimension: 'time' })}` : 'a current without bound';
  return [
    {
      verdict: 'not assessed',
      words: () =>
        `charging the bulk capacitor takes ${takes()}, the supply gives ${ampere(currentLimit.current)}: the rail rises otherwise than stated${currentLimit.kind === 'constant' ? '' : ', or never'}`,
      remedy: () =>
        room > 0
          ? `a supply that rises in ${wanted()} or more (supply.riseTime${riseTime === undefined ? ', not given' : ''})`
          : 'a stronger supply',
    },
  ];
}
