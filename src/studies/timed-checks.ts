/** Checks that look at the start, which the time domain decides; every other result is the same without it. */
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
