import type { Check } from './check.ts';
import capacitorCurrent from './capacitor-current.ts';
import capacitorPeakVoltage from './capacitor-peak-voltage.ts';
import capacitorSelfHeating from './capacitor-self-heating.ts';
import chokePeakCurrent from './choke-peak-current.ts';
import chokeRatio from './choke-ratio.ts';
import clampPower from './clamp-power.ts';
import crossDiodeRecovery from './cross-diode-recovery.ts';
import crossDiodeVoltage from './cross-diode-voltage.ts';
import gatePeakVoltage from './gate-peak-voltage.ts';
import gateRiseTime from './gate-rise-time.ts';
import holdOffAtSwitchOn from './hold-off-at-switch-on.ts';
import holdOffRunning from './hold-off-running.ts';
import { latchUp } from './latch-up.ts';
import loadedQ from './loaded-q.ts';
import pullUpPower from './pull-up-power.ts';
import supplyCurrent from './supply-current.ts';
import switchPeakVoltage from './switch-peak-voltage.ts';
import switchSurgeVoltage from './switch-surge-voltage.ts';
import switchTemperature from './switch-temperature.ts';
import touchVoltage from './touch-voltage.ts';

/** Every check but the summary, in the order of a report. */
export const checks: readonly Check[] = [
  switchPeakVoltage,
  switchSurgeVoltage,
  switchTemperature,
  gatePeakVoltage,
  gateRiseTime,
  pullUpPower,
  clampPower,
  crossDiodeVoltage,
  crossDiodeRecovery,
  capacitorPeakVoltage,
  capacitorCurrent,
  capacitorSelfHeating,
  chokePeakCurrent,
  chokeRatio,
  supplyCurrent,
  holdOffRunning,
  holdOffAtSwitchOn,
  loadedQ,
  touchVoltage,
];

/** What `explain` knows: every check and the summary. */
export const explained: readonly Pick<Check, 'id' | 'part' | 'title' | 'since' | 'dimension' | 'sense' | 'docs'>[] = [...checks, latchUp];

/** Every check id, the summary included. */
export const checkIds: readonly string[] = explained.map(({ id }) => id);
