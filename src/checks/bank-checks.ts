import capacitorAcVoltage from './capacitor-ac-voltage.ts';
import capacitorCurrent from './capacitor-current.ts';
import capacitorPeakVoltage from './capacitor-peak-voltage.ts';
import capacitorSelfHeating from './capacitor-self-heating.ts';
import capacitorTemperature from './capacitor-temperature.ts';
import capacitorVoltageSlope from './capacitor-voltage-slope.ts';
import type { Check } from './check.ts';

/** Every check of the bank, in the order of a report. */
export const bankChecks: readonly Check[] = [
  capacitorPeakVoltage,
  capacitorAcVoltage,
  capacitorCurrent,
  capacitorSelfHeating,
  capacitorTemperature,
  capacitorVoltageSlope,
];
