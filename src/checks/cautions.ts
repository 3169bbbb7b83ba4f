import type { Analysis, Case } from '../driver/analysis.ts';
import type { Volt } from '../units/si.ts';

/** Dc that counts as protected extra-low voltage and ac peak that does, IEC 60950-1 (check-values H-60950). */
const extraLowPeak = 42.4;

/** The cautions that apply to a design, the gravest first. They are printed with every report. */
export function cautionsOf({ design, corners }: Analysis): readonly string[] {
  const peaks = corners.flatMap(({ point: { running }, switchOn, loadRemoval }) => [
    running?.drainPeak ?? 0,
    peakOf(switchOn),
    peakOf(loadRemoval),
  ]);
  const highest = Math.max(...peaks, Math.PI * design.supply.voltage);
  return [
    ...(highest > extraLowPeak
      ? ['High voltage at radio frequency on coil, bank and drains: it burns deep and need not startle. Do not touch, enclose it.']
      : ['Radio-frequency current in coil and bank: rings and metal tools heat within seconds.']),
    'Coil, leads, heatsinks and heated metal stay hot after switching off: burns, fire. Keep eye protection on and an extinguisher at hand.',
    'The field reaches beyond the coil: keep pacemakers, implants and metal objects away.',
    'Bulk and tank capacitors hold their charge: discharge and measure before touching.',
    'First power-up only from a protected, current-limited supply that is switched on, not turned up.',
    'A supply derived from the mains needs isolation and protection to local codes, by a licensed practitioner.',
    'These are computed figures. They do not replace measurement, local codes or the judgement of a licensed practitioner.',
  ];
}

function peakOf(transient: Case['switchOn']): Volt {
  return transient === undefined || 'unknown' in transient ? 0 : transient.drainPeak;
}
