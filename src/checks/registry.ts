import { bankChecks } from './bank-checks.ts';
import type { Check } from './check.ts';
import chokePeakCurrent from './choke-peak-current.ts';
import chokeRatio from './choke-ratio.ts';
import chokeTemperature from './choke-temperature.ts';
import clampPower from './clamp-power.ts';
import coilCurrentDensity from './coil-current-density.ts';
import coilTemperature from './coil-temperature.ts';
import crossDiodeCurrent from './cross-diode-current.ts';
import crossDiodeRecovery from './cross-diode-recovery.ts';
import crossDiodeVoltage from './cross-diode-voltage.ts';
import gateDriveVoltage from './gate-drive-voltage.ts';
import gatePeakVoltage from './gate-peak-voltage.ts';
import gateRiseTime from './gate-rise-time.ts';
import holdOffAtSwitchOn from './hold-off-at-switch-on.ts';
import holdOffRunning from './hold-off-running.ts';
import hotSurface from './hot-surface.ts';
import { latchUp } from './latch-up.ts';
import loadedQ from './loaded-q.ts';
import magneticField from './magnetic-field.ts';
import pullUpPower from './pull-up-power.ts';
import railOvershoot from './rail-overshoot.ts';
import riseTime from './rise-time.ts';
import startGain from './start-gain.ts';
import startGateSwing from './start-gate-swing.ts';
import supplyCurrent from './supply-current.ts';
import supplySag from './supply-sag.ts';
import switchCurrent from './switch-current.ts';
import switchPeakVoltage from './switch-peak-voltage.ts';
import switchSurgeVoltage from './switch-surge-voltage.ts';
import switchTemperature from './switch-temperature.ts';
import touchVoltage from './touch-voltage.ts';

/** Every check but the summary, in the order of a report. */
export const checks: readonly Check[] = [
  switchPeakVoltage,
  switchSurgeVoltage,
  switchCurrent,
  switchTemperature,
  gatePeakVoltage,
  gateDriveVoltage,
  gateRiseTime,
  pullUpPower,
  clampPower,
  crossDiodeVoltage,
  crossDiodeRecovery,
  crossDiodeCurrent,
  ...bankChecks,
  coilTemperature,
  coilCurrentDensity,
  chokePeakCurrent,
  chokeTemperature,
  chokeRatio,
  supplyCurrent,
  supplySag,
  railOvershoot,
  holdOffRunning,
  holdOffAtSwitchOn,
  startGain,
  startGateSwing,
  loadedQ,
  riseTime,
  touchVoltage,
  hotSurface,
  magneticField,
];

/** What `explain` knows: every check and the summary. */
export const explained: readonly Pick<Check, 'id' | 'part' | 'title' | 'since' | 'dimension' | 'sense' | 'docs'>[] = [...checks, latchUp];

/** Every check id, the summary included. */
export const checkIds: readonly string[] = explained.map(({ id }) => id);
