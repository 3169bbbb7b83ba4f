import type { Henry, Ratio } from '../units/si.ts';

/** An inductance with how far it may be off, or why its formula does not apply. */
export type InductanceEstimate =
  | {
      readonly inductance: Henry;
      /** The formula's own error, either way, a ratio; dimensions add theirs. */
      readonly error: Ratio;
      /** What a reader should know of this value. */
      readonly validNote?: string;
    }
  | { readonly outside: string };
