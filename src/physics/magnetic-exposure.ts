import { vacuumPermeability } from './vacuum.ts';
import type { Hertz, Tesla } from '../units/si.ts';

/** Who is exposed: anybody, or trained adults at work. */
export type Exposure = 'public' | 'occupational';

/** Permeability of vacuum in H/m. */
/** Upper end of a band in Hz and the level in it in T, f in Hz. */
type Band = readonly [number, (f: Hertz) => Tesla];

const icnirp2010: Readonly<Record<Exposure, readonly Band[]>> = {
  public: [
    [8, (f) => 0.04 / f ** 2],
    [25, (f) => 0.005 / f],
    [400, () => 2e-4],
    [3e3, (f) => 0.08 / f],
    [10e6, () => 27e-6],
  ],
  occupational: [
    [8, (f) => 0.2 / f ** 2],
    [25, (f) => 0.025 / f],
    [300, () => 1e-3],
    [3e3, (f) => 0.3 / f],
    [10e6, () => 100e-6],
  ],
};

const icnirp1998: Readonly<Record<Exposure, readonly Band[]>> = {
  public: [
    [8, (f) => 0.04 / f ** 2],
    [25, (f) => 0.005 / f],
    [800, (f) => 0.005 / f],
    [150e3, () => 6.25e-6],
    [10e6, (f) => 0.92 / f],
  ],
  occupational: [
    [8, (f) => 0.2 / f ** 2],
    [25, (f) => 0.025 / f],
    [820, (f) => 0.025 / f],
    [65e3, () => 30.7e-6],
    [10e6, (f) => 2 / f],
  ],
};

function levelIn(bands: readonly Band[], f: Hertz): Tesla {
  const band = f >= 1 ? bands.find(([upper]) => f <= upper) : undefined;
  if (band === undefined) throw new RangeError(`no reference level at ${f} Hz`);
  return band[1](f);
}

/**
 * Reference level of magnetic flux density against stimulation of nerves.
 *
 *     public: 0.04 T/f² to 8 Hz, 5 mT/f to 25 Hz, 200 µT to 400 Hz, 80 mT/f to 3 kHz, 27 µT to 10 MHz
 *     occupational: 0.2 T/f² to 8 Hz, 25 mT/f to 25 Hz, 1 mT to 300 Hz, 0.3 T/f to 3 kHz, 100 µT to 10 MHz  (f in Hz)
 *
 * @param exposure   public | occupational
 * @param frequency  f, in Hz, from 1 to 10 MHz
 * @returns the level, rms, in T
 *
 * Valid for: undisturbed field, sine; above 100 kHz heating is to be looked at as well. The public level has a step of 1 % at 3 kHz.
 * Errors: RangeError outside 1 Hz to 10 MHz.
 * Source: ICNIRP, Health Physics 99 (2010) 818, as reproduced in "Bioelectromagnetism", Table 7.3, read (check-values H-icnirp2010)
 *
 * @example nerveStimulationLevel({ exposure: 'public', frequency: 50e3 }) // 27e-6
 * @example nerveStimulationLevel({ exposure: 'occupational', frequency: 50 }) // 1e-3
 */
export function nerveStimulationLevel({ exposure, frequency: f }: { exposure: Exposure; frequency: Hertz }): Tesla {
  return levelIn(icnirp2010[exposure], f);
}

/** Numerators of H = a/f in A/m, f in MHz. */
const heating = {
  'whole body': { public: 2.2, occupational: 4.9 },
  local: { public: 4.9, occupational: 10.8 },
} as const;

/**
 * Reference level of magnetic flux density against heating of tissue.
 *
 *     B = μ0·a/f;  whole body, mean of 30 min: a = 2.2 public, 4.9 occupational;  local, mean of 6 min: 4.9, 10.8 A/m·MHz
 *
 * @param exposure   public | occupational
 * @param region     whole body (mean over the body) | local (peak in space)
 * @param frequency  f, in Hz, from 100 kHz to 30 MHz
 * @returns the level, rms, in T
 *
 * Valid for: undisturbed field, near and far; not below 100 kHz, where only nerve stimulation counts.
 * Errors: RangeError outside 100 kHz to 30 MHz.
 * Source: ICNIRP, Health Physics 118 (2020) 483; local levels as reproduced in "Bioelectromagnetism", Table 7.8, read; whole-body levels
 *   from memory (check-values H-icnirp2020-*)
 *
 * @example heatingLevel({ exposure: 'public', region: 'local', frequency: 1e6 }) // 6.15752160104e-6
 */
export function heatingLevel({
  exposure,
  region,
  frequency: f,
}: {
  exposure: Exposure;
  region: 'whole body' | 'local';
  frequency: Hertz;
}): Tesla {
  if (!(f >= 100e3 && f <= 30e6)) throw new RangeError(`no reference level against heating at ${f} Hz`);
  return (vacuumPermeability * heating[region][exposure]) / (f / 1e6);
}

/** A level and what it guards against. */
export interface MagneticReferenceLevel {
  readonly fluxDensity: Tesla;
  readonly against: 'nerve stimulation' | 'heating';
}

/**
 * Reference level of magnetic flux density that is the strictest of today's at a frequency.
 *
 *     1 Hz to 100 kHz: nerve stimulation;  100 kHz to 10 MHz: the lower of nerve stimulation and whole-body heating;  to 30 MHz: heating
 *
 * @param exposure   public | occupational
 * @param frequency  f, in Hz, from 1 to 30 MHz
 * @returns the level, rms, in T, and what it guards against
 *
 * Valid for: undisturbed field, sine. The whole-body level is a mean over the body; holding the strongest place to it errs to the safe
 *   side near a small coil. The occupational level steps from 100 to 61.6 µT at 100 kHz.
 * Errors: RangeError outside 1 Hz to 30 MHz.
 * Source: ICNIRP 2010 and ICNIRP 2020; the whole-body levels from memory (check-values H-icnirp2010, H-icnirp2020-wb-*)
 *
 * @example magneticReferenceLevel({ exposure: 'public', frequency: 100e3 }) // { fluxDensity: 27e-6, against: 'nerve stimulation' }
 * @example magneticReferenceLevel({ exposure: 'public', frequency: 1e6 }) // { fluxDensity: 2.76460153516e-6, against: 'heating' }
 */
export function magneticReferenceLevel({ exposure, frequency: f }: { exposure: Exposure; frequency: Hertz }): MagneticReferenceLevel {
  const stimulation = f <= 10e6 || !(f <= 30e6) ? nerveStimulationLevel({ exposure, frequency: f }) : Infinity;
  const heat = f >= 100e3 ? heatingLevel({ exposure, region: 'whole body', frequency: f }) : Infinity;
  return heat < stimulation ? { fluxDensity: heat, against: 'heating' } : { fluxDensity: stimulation, against: 'nerve stimulation' };
}

/**
 * Reference level of magnetic flux density of the older guidelines, on which Council Recommendation 1999/519/EC and national law rest.
 *
 *     public: 5 mT/f from 8 to 800 Hz, 6.25 µT to 150 kHz, 0.92 T/f above;  occupational: 25 mT/f to 820 Hz, 30.7 µT to 65 kHz, 2 T/f  (f in Hz)
 *
 * @param exposure   public | occupational
 * @param frequency  f, in Hz, from 1 to 10 MHz
 * @returns the level, rms, in T
 *
 * Valid for: undisturbed field, sine; steps of up to 2 % between bands, as published.
 * Errors: RangeError outside 1 Hz to 10 MHz.
 * Source: ICNIRP, Health Physics 74 (1998) 494; public levels read in French decree 2002-775, which carries 1999/519/EC into law;
 *   occupational levels from memory
 *
 * @example formerReferenceLevel({ exposure: 'public', frequency: 50e3 }) // 6.25e-6
 */
export function formerReferenceLevel({ exposure, frequency: f }: { exposure: Exposure; frequency: Hertz }): Tesla {
  return levelIn(icnirp1998[exposure], f);
}
