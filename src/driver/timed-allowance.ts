import type { Ratio } from '../units/si.ts';

/** Added to peaks in the time domain before they are judged: the other ends of the tolerances, and what a slow rail skips, differ by no more. */
export const timedAllowance = { voltage: 0.03, current: 0.08 } as const satisfies Record<string, Ratio>;
