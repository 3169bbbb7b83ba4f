/** Checks that look at the start or at a change of the load, which the time domain decides; every other result is the same without it. */
export const timedChecks: ReadonlySet<string> = new Set([
  'switch-surge-voltage',
  'capacitor-peak-voltage',
  'capacitor-voltage-slope',
  'choke-peak-current',
  'cross-diode-voltage',
  'hold-off-at-switch-on',
  'rise-time',
  'latch-up',
]);

/** Quantities that do, likewise. */
export const timedQuantities: ReadonlySet<string> = new Set(['drain.peakAtSwitchOn', 'drain.peakAtLoadRemoval', 'holdOff.atSwitchOn']);
