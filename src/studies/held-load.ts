import { addedResistance } from '../driver/operating-point.ts';
import type { Design, Load } from '../project/design.ts';

/** A load as the resistance that it is at the nominal values of its design, whatever becomes of these. */
export function heldLoad({ design, load }: { design: Design; load: Load }): Load {
  const { power: _power, loadedQ: _loadedQ, parallelResistance: _parallelResistance, ...rest } = load;
  const added = addedResistance({ design, load });
  return Number.isFinite(added) ? { ...rest, parallelResistance: added } : rest;
}
