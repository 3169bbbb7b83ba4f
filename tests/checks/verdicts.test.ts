import { describe, expect, test } from 'vitest';
import { checkIds } from '../../src/checks/registry.ts';
import type { Verdict } from '../../src/checks/judge.ts';
import { assumptionsOf } from '../../src/driver/assumptions.ts';
import { analysed, edited, measuredPad, reviewed, reviewedInTime } from './reviewed.ts';

const pad = measuredPad;
type Change = readonly [string, string];

/** A switch given inline, so that single ratings can be moved or left out. */
const inlineSwitch = (without: string, ...more: readonly string[]): Change => {
  const ratings = [
    'drainVoltage: 200 V',
    'onResistance: 75 mohm',
    'onResistanceAt: {gateVoltage: 10 V, drainCurrent: 18 A}',
    'onResistanceFactor: "2.3"',
    'thresholdMin: 2 V',
    'thresholdMax: 4 V',
    'gateVoltage: 20 V',
    'junctionTemperature: 175 degC',
    'junctionToCase: 0.7 K/W',
    'caseToSink: 0.24 K/W',
    'transconductance: 17 S',
    'inputCapacitance: 2.16 nF',
    'gateCharge: 123 nC',
  ].filter((rating) => without === '' || !rating.startsWith(`${without}:`));
  return ['part: IRFP250N', `part: {${[...ratings, ...more].join(', ')}}`];
};
const inlineDiode = (...ratings: readonly string[]): Change => ['crossDiode: UF4004', `crossDiode: {${ratings.join(', ')}}`];
const inlineClamp = (...ratings: readonly string[]): Change => ['clamp: 1N4744A', `clamp: {${ratings.join(', ')}}`];
const capacitor = {
  dielectric: 'polypropylene',
  capacitance: '100 nF',
  voltageDc: '1000 V',
  currentRms: '6 A',
  lossTangent: '0.001',
  thermalResistance: '{still air: 32 K/W}',
  tolerance: '0 %',
};
const inlineCapacitor = (changes: Readonly<Record<string, string | undefined>>): Change => [
  'part: pp-foil-100n-1000v',
  `part: {${Object.entries<string | undefined>({ ...capacitor, ...changes })
    .filter((entry): entry is [string, string] => entry[1] !== undefined)
    .map(([key, text]) => `${key}: ${text}`)
    .join(', ')}}`,
];
const inlineChoke = (...ratings: readonly string[]): Change => ['part: choke-100u-10a-sendust', ratings.join('\n  ')];
/** The coil by its geometry in place of its measured values. */
const geometry = (litz: string, diameter = '130 mm', turns = '6'): readonly Change[] => [
  [
    '    inductance: 4.5 uH\n    resistance: 30 mohm # measured at 80 kHz',
    `    shape: spiral\n    diameter: ${diameter}\n    turns: ${turns}\n    pitch: 7 mm\n    conductor: {shape: litz, outerDiameter: ${litz}, strandDiameter: 0.1 mm}`,
  ],
];
/** A choke that says all about its heat but how well it is cooled. */
const heatedChoke = (thermal: string): Change =>
  inlineChoke(
    'inductance: 100 uH',
    'resistance: 15 mohm',
    'saturationCurrent: 9 A',
    `thermalResistance: ${thermal}`,
    'maxTemperature: 125 degC',
    'coreLoss: {value: 0.4 W, at: {supplyVoltage: 24 V, frequency: 100 kHz}}',
  );
const liveRail: Change = ['riseTime: 3 ms', 'riseTime: 0 s'];
const ringing: Change = ['resistance: 60 mohm', 'resistance: 5 mohm\n  bulkCapacitance: 1000 uF\n  leadInductance: 2 uH'];
const suppliedGates: readonly Change[] = [
  ['voltage: 18 V', 'voltage: 12 V'],
  ['    from: 12 V\n', ''],
  ['  clamp: 1N4744A\n', ''],
];
const steady: readonly Change[] = [
  ['tolerance: 5 %', 'tolerance: 0 %'],
  ['tolerance: 3 %', 'tolerance: 0 %'],
];

/** What brings each check to each verdict, starting from the charging pad, which passes. */
const cases: readonly (readonly [string, Verdict, readonly Change[]])[] = [
  ['switch-peak-voltage', 'pass', []],
  ['switch-peak-voltage', 'warn', [inlineSwitch('drainVoltage', 'drainVoltage: 70 V')]],
  ['switch-peak-voltage', 'fail', [inlineSwitch('drainVoltage', 'drainVoltage: 55 V')]],
  ['switch-peak-voltage', 'not assessed', [inlineSwitch('drainVoltage')]],
  ['switch-surge-voltage', 'pass', []],
  ['switch-surge-voltage', 'warn', [inlineSwitch('drainVoltage', 'drainVoltage: 85 V')]],
  ['switch-surge-voltage', 'fail', [inlineSwitch('drainVoltage', 'drainVoltage: 85 V'), liveRail]],
  ['switch-surge-voltage', 'not assessed', [['from: 12 V', 'from: supply']]],
  [
    'switch-surge-voltage',
    'not assessed',
    [
      ['from: 12 V', 'from: supply'],
      ['  riseTime: 3 ms', '  # riseTime: 3 ms'],
    ],
  ],
  ['switch-temperature', 'pass', []],
  ['switch-temperature', 'warn', [['heatsink: 8 K/W', 'heatsink: 200 K/W']]],
  [
    'switch-temperature',
    'fail',
    [
      ['power: 25 W', 'power: 160 W'],
      ['heatsink: 8 K/W', 'heatsink: 60 K/W'],
    ],
  ],
  ['switch-temperature', 'not assessed', [inlineSwitch('junctionToCase')]],
  ['switch-temperature', 'not assessed', [inlineSwitch('inputCapacitance'), ['gateCharge: 123 nC', 'drainCurrent: 30 A']]],
  ['gate-peak-voltage', 'pass', []],
  [
    'gate-peak-voltage',
    'warn',
    [['from: 12 V', 'from: 24 V'], inlineClamp('zenerVoltage: 16 V', 'tolerance: 5 %', 'power: 1 W', 'impedance: 17 ohm')],
  ],
  [
    'gate-peak-voltage',
    'fail',
    [
      ['from: 12 V', 'from: 24 V'],
      ['  clamp: 1N4744A', '  # no clamp'],
    ],
  ],
  ['gate-peak-voltage', 'not assessed', [inlineSwitch('gateVoltage')]],
  // a clamp that conducts and does not say how much it rises
  ['gate-peak-voltage', 'not assessed', [['from: 12 V', 'from: 24 V'], inlineClamp('zenerVoltage: 16 V', 'tolerance: 5 %', 'power: 1 W')]],
  // 10 uH and 1000 uF ring an 18 V rail far past what a gate stands
  ['gate-peak-voltage', 'fail', [...suppliedGates, liveRail, ringing]],
  ['gate-peak-voltage', 'not assessed', [...suppliedGates, liveRail]],
  ['gate-peak-voltage', 'not assessed', [['from: 12 V', 'from: 24 V'], inlineClamp('zenerVoltage: 16 V', 'power: 1 W')]],
  ['gate-rise-time', 'pass', []],
  ['gate-rise-time', 'warn', [['resistance: 220 ohm', 'resistance: 470 ohm']]],
  ['gate-rise-time', 'fail', [['resistance: 220 ohm', 'resistance: 1.5 kohm']]],
  ['gate-rise-time', 'fail', [['from: 12 V', 'from: 4.2 V']]],
  ['gate-rise-time', 'not assessed', [inlineSwitch('inputCapacitance'), ['gateCharge: 123 nC', 'drainCurrent: 30 A']]],
  ['pull-up-power', 'pass', []],
  ['pull-up-power', 'warn', [['power: 2 W', 'power: 500 mW']]],
  ['pull-up-power', 'fail', [['power: 2 W', 'power: 250 mW']]],
  // 12 V on 220 Ω all the time before the start are 655 mW, while running half of it
  ['pull-up-power', 'fail', [['power: 2 W', 'power: 600 mW\n    hold: true']]],
  ['pull-up-power', 'not assessed', [['    power: 2 W', '    # power: 2 W']]],
  ['clamp-power', 'pass', [['from: 12 V', 'from: 24 V']]],
  ['clamp-power', 'warn', [['from: 12 V', 'from: 36 V']]],
  ['clamp-power', 'fail', [['from: 12 V', 'from: 48 V']]],
  ['clamp-power', 'not assessed', [inlineClamp('zenerVoltage: 15 V', 'tolerance: 5 %')]],
  ['cross-diode-voltage', 'pass', []],
  ['cross-diode-voltage', 'warn', [inlineDiode('reverseVoltage: 70 V', 'forwardVoltage: {value: 1 V, at: 1 A}', 'recoveryTime: 50 ns')]],
  ['cross-diode-voltage', 'fail', [inlineDiode('reverseVoltage: 45 V', 'forwardVoltage: {value: 1 V, at: 1 A}', 'recoveryTime: 50 ns')]],
  ['cross-diode-voltage', 'not assessed', [inlineDiode('forwardVoltage: {value: 1 V, at: 1 A}', 'recoveryTime: 50 ns')]],
  ['cross-diode-recovery', 'pass', []],
  ['cross-diode-recovery', 'warn', [['UF4004', '1N4937']]],
  ['cross-diode-recovery', 'fail', [['UF4004', '1N4007']]],
  ['cross-diode-recovery', 'not assessed', [inlineDiode('reverseVoltage: 400 V', 'forwardVoltage: {value: 1 V, at: 1 A}')]],
  ['capacitor-peak-voltage', 'pass', []],
  ['capacitor-peak-voltage', 'warn', [inlineCapacitor({ voltageDc: '80 V' })]],
  ['capacitor-peak-voltage', 'fail', [inlineCapacitor({ voltageDc: '50 V' })]],
  ['capacitor-peak-voltage', 'not assessed', [inlineCapacitor({ voltageDc: undefined })]],
  ['capacitor-current', 'pass', []],
  ['capacitor-current', 'warn', [inlineCapacitor({ currentRms: '2.6 A' })]],
  ['capacitor-current', 'fail', [inlineCapacitor({ currentRms: '2 A' })]],
  ['capacitor-current', 'not assessed', [inlineCapacitor({ currentRms: undefined })]],
  ['capacitor-self-heating', 'pass', []],
  ['capacitor-self-heating', 'warn', [inlineCapacitor({ lossTangent: '0.005' })]],
  ['capacitor-self-heating', 'fail', [inlineCapacitor({ lossTangent: '0.01' })]],
  ['capacitor-self-heating', 'not assessed', [inlineCapacitor({ lossTangent: undefined })]],
  ['capacitor-self-heating', 'not assessed', [inlineCapacitor({ thermalResistance: undefined })]],
  ['capacitor-self-heating', 'not assessed', [inlineCapacitor({ dielectric: undefined })]],
  ['choke-peak-current', 'pass', []],
  ['choke-peak-current', 'warn', [inlineChoke('inductance: 100 uH', 'resistance: 15 mohm', 'saturationCurrent: 2 A')]],
  ['choke-peak-current', 'fail', [inlineChoke('inductance: 100 uH', 'resistance: 15 mohm', 'saturationCurrent: 1.5 A')]],
  ['choke-peak-current', 'not assessed', [inlineChoke('inductance: 100 uH', 'resistance: 15 mohm')]],
  ['choke-ratio', 'pass', []],
  ['choke-ratio', 'warn', [inlineChoke('inductance: 70 uH', 'saturationCurrent: 9 A')]],
  ['choke-ratio', 'fail', [inlineChoke('inductance: 40 uH', 'saturationCurrent: 9 A')]],
  ['supply-current', 'pass', []],
  ['supply-current', 'warn', [['currentLimit: 5 A', 'currentLimit: 2.3 A']]],
  ['supply-current', 'fail', [['currentLimit: 5 A', 'currentLimit: 1.5 A']]],
  ['supply-current', 'not assessed', [['  currentLimit: 5 A', '  # currentLimit: 5 A']]],
  ['hold-off-running', 'pass', []],
  ['hold-off-running', 'warn', [['power: 25 W', 'power: 180 W']]],
  ['hold-off-running', 'fail', [['power: 25 W', 'power: 160 W'], inlineSwitch('onResistance', 'onResistance: 300 mohm')]],
  ['hold-off-running', 'not assessed', [inlineDiode('reverseVoltage: 400 V', 'recoveryTime: 50 ns')]],
  ['hold-off-running', 'not assessed', [inlineSwitch('thresholdMin', 'thresholdTypical: 3 V')]],
  ['hold-off-at-switch-on', 'pass', []],
  ['hold-off-at-switch-on', 'warn', [liveRail, ['power: 25 W', 'power: 60 W'], inlineSwitch('onResistance', 'onResistance: 200 mohm')]],
  ['hold-off-at-switch-on', 'not assessed', [['from: 12 V', 'from: supply']]],
  ['loaded-q', 'pass', []],
  ['loaded-q', 'warn', [['power: 25 W', 'loadedQ: 4']]],
  ['loaded-q', 'fail', [['power: 25 W', 'loadedQ: 1.5']]],
  ['latch-up', 'pass', []],
  ['latch-up', 'warn', [['power: 25 W', 'power: 60 W'], inlineSwitch('thresholdMin', 'thresholdMin: 0.8 V')]],
  ['latch-up', 'fail', [['power: 25 W', 'power: 160 W'], inlineSwitch('onResistance', 'onResistance: 300 mohm')]],
  ['latch-up', 'fail', [['power: 25 W', 'loadedQ: 0.4']]],
  // what the closed forms cannot tell the time domain settles: gates fed from a rising supply, and a peak past the threshold
  ['latch-up', 'pass', [['from: 12 V', 'from: supply']]],
  [
    'latch-up',
    'not assessed',
    [
      ['from: 12 V', 'from: supply'],
      ['  riseTime: 3 ms', '  # no rise time'],
    ],
  ],
  ['latch-up', 'warn', [liveRail, ['power: 25 W', 'power: 40 W'], inlineSwitch('onResistance', 'onResistance: 330 mohm')]],
  // a gate below the voltage that the on-resistance is stated at, or a part that does not state it
  ['switch-temperature', 'not assessed', [['from: 12 V', 'from: 7 V']]],
  ['hold-off-running', 'not assessed', [['from: 12 V', 'from: 7 V']]],
  [
    'hold-off-running',
    'not assessed',
    [
      inlineSwitch('onResistanceAt', 'thresholdTypical: 3 V'),
      ['transconductance: 17 S', 'transconductance: {value: 17 S, at: {drainCurrent: 18 A}}'],
    ],
  ],
  // a start that the supply cannot feed, and a bulk capacitor that can
  ['latch-up', 'not assessed', [liveRail, ['currentLimit: 5 A', 'currentLimit: {current: 3 A, kind: foldback}']]],
  [
    'latch-up',
    'pass',
    [liveRail, ['currentLimit: 5 A', 'currentLimit: 3 A\n  bulkCapacitance: 4700 uF'], ['power: 2 W', 'power: 2 W\n    hold: true']],
  ],
  // an inrush without bound into the bulk capacitor
  ['latch-up', 'not assessed', [liveRail, ['currentLimit: 5 A', 'currentLimit: {current: 5 A, kind: hiccup}\n  bulkCapacitance: 4700 uF']]],
  // drains that swing too little let no gate come up
  [
    'latch-up',
    'fail',
    [
      ['voltage: 18 V', 'voltage: 1 V'],
      ['power: 25 W', 'power: 50 mW'],
    ],
  ],
  ['switch-current', 'pass', []],
  ['switch-current', 'warn', [inlineSwitch('', 'drainCurrent: 2.6 A')]],
  ['switch-current', 'fail', [inlineSwitch('', 'drainCurrent: 2 A')]],
  ['switch-current', 'not assessed', [inlineSwitch('')]],
  ['gate-drive-voltage', 'pass', []],
  ['gate-drive-voltage', 'warn', [['from: 12 V', 'from: 8 V']]],
  ['gate-drive-voltage', 'fail', [['from: 12 V', 'from: 4.5 V']]],
  ['gate-drive-voltage', 'not assessed', [inlineSwitch('onResistanceAt')]],
  ['cross-diode-current', 'pass', []],
  [
    'cross-diode-current',
    'warn',
    [inlineDiode('reverseVoltage: 400 V', 'averageCurrent: 42 mA', 'forwardVoltage: {value: 1 V, at: {forwardCurrent: 1 A}}')],
  ],
  [
    'cross-diode-current',
    'fail',
    [inlineDiode('reverseVoltage: 400 V', 'averageCurrent: 20 mA', 'forwardVoltage: {value: 1 V, at: {forwardCurrent: 1 A}}')],
  ],
  [
    'cross-diode-current',
    'not assessed',
    [inlineDiode('reverseVoltage: 400 V', 'forwardVoltage: {value: 1 V, at: {forwardCurrent: 1 A}}')],
  ],
  ['capacitor-ac-voltage', 'pass', []],
  ['capacitor-ac-voltage', 'warn', [inlineCapacitor({ voltageAc: '50 V' })]],
  ['capacitor-ac-voltage', 'fail', [inlineCapacitor({ voltageAc: '30 V' })]],
  // at 85 kHz its own loss allows less than the printed voltage
  ['capacitor-ac-voltage', 'fail', [inlineCapacitor({ voltageAc: '400 V', lossTangent: '0.02' })]],
  ['capacitor-ac-voltage', 'not assessed', [inlineCapacitor({})]],
  ['capacitor-temperature', 'pass', []],
  ['capacitor-temperature', 'warn', [['ambient: 35 degC', 'ambient: 75 degC']]],
  ['capacitor-temperature', 'fail', [['ambient: 35 degC', 'ambient: 90 degC']]],
  ['capacitor-temperature', 'not assessed', [inlineCapacitor({})]],
  ['capacitor-voltage-slope', 'pass', []],
  ['capacitor-voltage-slope', 'warn', [inlineCapacitor({ voltageSlope: '43 V/us' })]],
  ['capacitor-voltage-slope', 'fail', [inlineCapacitor({ voltageSlope: '20 V/us' })]],
  ['capacitor-voltage-slope', 'not assessed', [inlineCapacitor({})]],
  ['choke-temperature', 'pass', []],
  ['choke-temperature', 'warn', [heatedChoke('250 K/W')]],
  ['choke-temperature', 'fail', [heatedChoke('400 K/W')]],
  ['choke-temperature', 'not assessed', [inlineChoke('inductance: 100 uH', 'saturationCurrent: 9 A')]],
  ['supply-sag', 'pass', []],
  ['supply-sag', 'warn', [['resistance: 60 mohm', 'resistance: 1.2 ohm']]],
  ['supply-sag', 'fail', [['resistance: 60 mohm', 'resistance: 3 ohm']]],
  ['supply-sag', 'not assessed', [['  resistance: 60 mohm', '  # none']]],
  ['rail-overshoot', 'pass', [['resistance: 60 mohm', 'resistance: 60 mohm\n  bulkCapacitance: 470 uF\n  leadInductance: 1 uH']]],
  ['rail-overshoot', 'warn', [['resistance: 60 mohm', 'resistance: 5 mohm\n  bulkCapacitance: 1000 uF\n  leadInductance: 40 uH']]],
  ['rail-overshoot', 'fail', [liveRail, ringing]],
  ['rail-overshoot', 'not assessed', []],
  ['start-gain', 'pass', []],
  ['start-gain', 'fail', [inlineSwitch('transconductance', 'transconductance: {value: 10 mS, at: {drainCurrent: 1 A}}')]],
  ['start-gain', 'not assessed', [['power: 25 W', 'loadedQ: 0.4']]],
  ['start-gate-swing', 'pass', []],
  ['start-gate-swing', 'warn', [['resistance: 220 ohm', 'resistance: 6 kohm']]],
  ['start-gate-swing', 'fail', [['resistance: 220 ohm', 'resistance: 15 kohm']]],
  ['start-gate-swing', 'not assessed', [inlineSwitch('inputCapacitance')]],
  ['rise-time', 'pass', []],
  ['rise-time', 'warn', [liveRail, inlineSwitch('drainVoltage', 'drainVoltage: 145 V')]],
  ['rise-time', 'fail', [liveRail, inlineSwitch('drainVoltage', 'drainVoltage: 100 V')]],
  ['rise-time', 'not assessed', [['    from: 12 V\n', '']]],
  // chokes below the range of the envelope: no rise time passes
  ['rise-time', 'not assessed', [inlineChoke('inductance: 70 uH', 'saturationCurrent: 9 A')]],
  ['hot-surface', 'pass', [...geometry('4.4 mm, strands: 900'), ['ambient: 35 degC', 'ambient: 15 degC']]],
  ['hot-surface', 'not assessed', []],
  ['hot-surface', 'fail', [['ambient: 35 degC', 'ambient: 60 degC']]],
  ['coil-temperature', 'pass', geometry('4.4 mm, strands: 900')],
  ['coil-temperature', 'warn', geometry('2 mm, strands: 200')],
  ['coil-temperature', 'fail', geometry('2 mm, strands: 60')],
  ['coil-temperature', 'not assessed', []],
  ['coil-current-density', 'pass', geometry('4.4 mm, strands: 900')],
  ['coil-current-density', 'warn', geometry('2.5 mm, strands: 300')],
  ['coil-current-density', 'fail', geometry('2 mm, strands: 100')],
  ['coil-current-density', 'not assessed', []],
  ['magnetic-field', 'pass', geometry('4.4 mm, strands: 900')],
  ['magnetic-field', 'fail', geometry('4.4 mm, strands: 900', '400 mm', '3')],
  ['magnetic-field', 'not assessed', []],
  ['touch-voltage', 'pass', []],
  ['touch-voltage', 'warn', [['voltage: 18 V', 'voltage: 23 V']]],
  ['touch-voltage', 'fail', [['voltage: 18 V', 'voltage: 30 V']]],
  [
    'touch-voltage',
    'pass',
    [
      ['voltage: 18 V', 'voltage: 30 V'],
      ['access: public', 'access: trained'],
    ],
  ],
];

describe.each(checkIds)('%s', (id) => {
  test.each(cases.filter(([candidate]) => candidate === id))('$0 comes to $1 %#', (_id, verdict, changes) => {
    const look = id === 'latch-up' ? reviewedInTime : reviewed;
    const result = look(edited(pad, ...changes)).get(id)!;
    expect({ verdict: result.verdict, reason: result.reason, value: result.value }).toMatchObject({ verdict });
  });

  test('is seen to pass and not to pass', () => {
    const verdicts = cases.filter(([candidate]) => candidate === id).map(([, verdict]) => verdict);
    expect(verdicts).toContain('pass');
    expect(verdicts.some((verdict) => verdict === 'warn' || verdict === 'fail')).toBe(true);
  });
});

test('a result names value, limit, place and, unless it passes, what to do', () => {
  for (const changes of cases.map(([, , list]) => list)) {
    for (const result of reviewed(edited(pad, ...changes)).values()) {
      expect(result.at.line).toBeGreaterThan(0);
      if (result.verdict === 'not assessed') expect(result.reason, result.id).toMatch(/\w/);
      if (result.verdict === 'fail' || result.verdict === 'warn') expect(result.remedy, result.id).toMatch(/\w/);
      expect(result.value === null || Number.isFinite(result.value)).toBe(true);
      expect(JSON.stringify(result)).not.toMatch(/NaN|Infinity|undefined/);
    }
  }
});

test('without tolerances the only corner is the nominal one', () => {
  const result = reviewed(edited(edited(pad, ...steady), inlineCapacitor({}))).get('switch-peak-voltage')!;
  expect(result.case).toBe('nothing near');
});

test('cold silicon breaks down earlier: at −15 °C a 200 V switch is held to 192 V', () => {
  const cold = reviewed(edited(pad, ['ambient: 35 degC', 'ambient: -15 degC']));
  expect(cold.get('switch-peak-voltage')!.limit).toBeCloseTo(192, 9);
  expect(reviewed(pad).get('switch-peak-voltage')!.limit).toBe(200);
});

test('levels of the project’s own are named in the report, whatever they do', () => {
  const lenient = analysed(`${pad}limits: {switch-peak-voltage: {fail: 3 of rating}}\n`);
  expect(assumptionsOf(lenient).join('\n')).toMatch(
    /levels of switch-peak-voltage are the project's own \(.*:\d+\), not the default policy/,
  );
});
