import { nominalPoint } from '../../driver/operating-point.ts';
import { timedStart } from '../../driver/time-domain/switch-on.ts';
import { usualMismatch } from '../../driver/usual-pair.ts';
import { filamentVoltage, hotOverColdFilament } from '../../physics/filament.ts';
import { drawnCurrent } from '../../checks/drawn-current.ts';
import type { Design, Load } from '../../project/design.ts';
import type { Ampere, Ohm, Volt, Watt } from '../../units/si.ts';

/** A filament lamp in series with the supply for the first start without load. */
export interface LampChoice {
  readonly lamps: number;
  readonly ratedVoltage: Volt;
  readonly ratedPower: Watt;
  /** Of all of them in series. */
  readonly cold: Ohm;
  readonly hot: Ohm;
  /** Rail at the driver with nothing near the coil. */
  readonly rail: Volt;
  /** What it lets through with the driver latched and the whole supply across it. */
  readonly latched: Ampere;
}

/** Signal and head lamps that shops have: common practice. */
const onShelf: readonly { readonly ratedVoltage: Volt; readonly ratedPowers: readonly Watt[] }[] = [
  { ratedVoltage: 12, ratedPowers: [5, 10, 21, 55] },
  { ratedVoltage: 24, ratedPowers: [5, 10, 21, 70] },
];
/** A lamp stands so much more than it is rated for, as on a charging battery: common practice. */
const stands = 1.15;
/** Least share of the supply voltage that must be left at the driver. */
const leastRail = 0.9;

/**
 * The smallest lamp with which the driver starts without load.
 *
 * A lamp is taken only if the rail keeps nine tenths of the supply voltage at the idle current, and if the time domain starts with the
 * resistance that the lamp has cold and with that which it has at the idle current.
 *
 * @returns the lamp, or why there is none
 */
export function lampChoice({ design, idle }: { design: Design; idle: Load }): LampChoice | { readonly none: string } {
  const { voltage } = design.supply;
  const point = nominalPoint({ design, load: idle });
  if (point.running === undefined) return { none: 'it does not oscillate' };
  const current = drawnCurrent({ design, point, running: point.running }).total;
  const kind = onShelf.find(({ ratedVoltage }) => voltage <= stands * ratedVoltage) ?? onShelf.at(-1)!;
  const { ratedVoltage } = kind;
  const lamps = Math.ceil(voltage / (stands * ratedVoltage));
  let why = 'with a tenth of the supply voltage across it none of the usual lamps carries the idle current';
  for (const ratedPower of kind.ratedPowers) {
    const drop = lamps * filamentVoltage({ current, ratedVoltage, ratedPower });
    const rail = voltage - drop;
    if (rail < leastRail * voltage) continue;
    const hot = (lamps * ratedVoltage ** 2) / ratedPower;
    const cold = hot / hotOverColdFilament;
    const starts = [cold, drop / current].every((resistance) => startsBehind({ design, idle, resistance }));
    if (starts) {
      const latched = (ratedPower / ratedVoltage) * Math.sqrt(voltage / (lamps * ratedVoltage));
      return { lamps, ratedVoltage, ratedPower, cold, hot, rail, latched };
    }
    why = 'behind the usual lamps it does not start: their resistance slows the rail or lets it sag';
  }
  return { none: why };
}

function startsBehind({ design, idle, resistance }: { design: Design; idle: Load; resistance: Ohm }): boolean {
  const behind: Design = { ...design, supply: { ...design.supply, resistance: (design.supply.resistance ?? 0) + resistance } };
  const point = nominalPoint({ design: behind, load: idle });
  const junction = design.environment.ambient ?? 298.15;
  const start = timedStart({ design: behind, point, pair: { mismatch: usualMismatch, strength: 1, junction } });
  return !('unknown' in start) && start.outcome === 'runs';
}
