import { addedResistance, nominalPoint } from '../driver/operating-point.ts';
import { addsLoss } from '../driver/timed-events.ts';
import type { Design, Load } from '../project/design.ts';

/** The loads that readings are taken with. */
export interface ReadingLoads {
  /** Nothing near the coil. */
  readonly idle: Load;
  /** The heaviest load; undefined where no load adds anything. */
  readonly loaded?: Load;
}

/** A load as a resistance across the tank, as it is at the project's own voltage: it stays that at any other. */
export function heldLoad({ design, load }: { design: Design; load: Load }): Load {
  const { power: _power, loadedQ: _quality, parallelResistance: _resistance, ...rest } = load;
  const added = addsLoss(load) ? addedResistance({ design, load }) : Infinity;
  return Number.isFinite(added) ? { ...rest, parallelResistance: added } : rest;
}

/** The lightest and the heaviest load of a design, held. Without a load that adds nothing, the coil alone is the lightest. */
export function readingLoads(design: Design): ReadingLoads {
  const light = design.loads.find((load) => !addsLoss(load)) ?? { name: 'coil alone' };
  const heavy = design.loads
    .filter(addsLoss)
    .map((load) => ({ load, resistance: nominalPoint({ design, load }).tank.parallelResistance }))
    .toSorted((a, b) => a.resistance - b.resistance)[0]?.load;
  return {
    idle: heldLoad({ design, load: light }),
    ...(heavy === undefined ? {} : { loaded: heldLoad({ design, load: heavy }) }),
  };
}

/** A design at another supply voltage; its loads are given apart, held. */
export function atVoltage({ design, voltage, loads }: { design: Design; voltage: number; loads: readonly Load[] }): Design {
  return { ...design, loads, supply: { ...design.supply, voltage } };
}
