import { assumedAmbient } from '../driver/ambient.ts';
import type { Design } from '../project/design.ts';
import type { Volt } from '../units/si.ts';

/** Fall of the breakdown voltage of silicon below 25 °C, per kelvin: class. */
const perKelvin = 0.001;

/** The rated drain voltage at the ambient temperature, which a switch that starts has: breakdown falls when cold. */
export function breakdownAt({ design, rated }: { design: Design; rated: Volt }): Volt {
  const below = Math.max(0, 298.15 - (design.environment.ambient ?? assumedAmbient));
  return rated * (1 - perKelvin * below);
}
