import type { Kelvin } from '../units/si.ts';

/** Ambient temperature where the project gives none: 25 °C. */
export const assumedAmbient: Kelvin = 298.15;
