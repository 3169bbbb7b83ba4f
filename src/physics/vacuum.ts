import type { HenryPerMetre } from '../units/si.ts';

/** µ0, permeability of vacuum: 4π·1e-7 H/m, 6e-10 from the CODATA value of 2018 (check-values B-mu0). */
export const vacuumPermeability: HenryPerMetre = 4e-7 * Math.PI;
