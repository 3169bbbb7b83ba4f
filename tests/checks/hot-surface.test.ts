import { describe, expect, test } from 'vitest';
import type { Result } from '../../src/checks/result.ts';
import { edited, measuredPad, reviewed } from './reviewed.ts';

type Change = readonly [string, string];

const wound: Change = [
  '    inductance: 4.5 uH\n    resistance: 30 mohm # measured at 80 kHz',
  '    shape: spiral\n    diameter: 130 mm\n    turns: 6\n    pitch: 7 mm\n    conductor: {shape: litz, outerDiameter: 4.4 mm, strands: 900, strandDiameter: 0.1 mm}',
];
const cool: Change = ['ambient: 35 degC', 'ambient: 15 degC'];
const bareSwitch: Change = [
  'part: IRFP250N',
  `part:
    drainVoltage: 200 V
    onResistance: 75 mohm
    onResistanceAt: {gateVoltage: 10 V, drainCurrent: 18 A}
    thresholdMin: 2 V
    thresholdMax: 4 V
    gateVoltage: 20 V
    junctionTemperature: 175 degC
    transconductance: 17 S
    inputCapacitance: 2 nF`,
];
const noHeatsink: Change = ['  heatsink: 8 K/W\n  insulator: 0.5 K/W\n', ''];
const bareChoke: Change = ['part: choke-100u-10a-sendust', 'inductance: 100 uH\n  resistance: 15 mohm\n  saturationCurrent: 9 A'];
const bareCapacitor: Change = [
  'part: pp-foil-100n-1000v',
  'part: {capacitance: 100 nF, tolerance: 5 %, voltageDc: 1000 V, lossTangent: 0.001}',
];

const surface = (...changes: readonly Change[]): Result => reviewed(edited(measuredPad, ...changes)).get('hot-surface')!;

describe('hot-surface without the temperature of a part', () => {
  test.each<[string, readonly Change[], string, string]>([
    [
      'the coil',
      [],
      'temperature of the coil not known: tank.coil is given by measured values: write shape, diameter, turns and conductor',
      'inductance: 4.5 uH',
    ],
    [
      'the heatsink',
      [wound, cool, bareSwitch],
      'temperature of the heatsink not known: inline MOSFET gives no junctionToCase: write junctionToCase in the part of switches',
      'drainVoltage: 200 V',
    ],
    [
      'a switch without a heatsink',
      [wound, cool, bareSwitch, noHeatsink],
      'temperature of the switch not known: inline MOSFET gives no junctionToAmbient: write junctionToAmbient in the part of switches, or a switches.heatsink',
      'drainVoltage: 200 V',
    ],
    [
      'the choke',
      [wound, cool, bareChoke],
      'temperature of the choke not known: inline choke gives no thermalResistance: write thermalResistance under chokes, or in the part there',
      'arrangement: two',
    ],
    [
      'the capacitors',
      [wound, cool, bareCapacitor],
      'temperature of the capacitor not known: inline capacitor gives no thermalResistance in still air: write thermalResistance in the part of tank.bank',
      'part: {capacitance',
    ],
  ])('says that that of %s is missing, what to write and where', (_part, changes, words, line) => {
    const { verdict, reason, at, basis } = surface(...changes);
    expect(verdict).toBe('not assessed');
    expect(reason).toContain(words);
    expect(edited(measuredPad, ...changes).split('\n')[at.line - 1]).toContain(line);
    // the hottest of the others is not the hottest
    expect(basis.join('\n')).toMatch(/^hottest of those known: /);
  });

  test('says what no rating would help', () => {
    const { reason } = surface(wound, cool, ['from: 12 V', 'from: 3.2 V']);
    expect(reason).toMatch(
      /^temperature of the heatsink not known: the gate never reaches [\d.]+ V, where the switch carries its current$/,
    );
  });

  test('says all that is missing', () => {
    const { reason } = surface(bareChoke, bareCapacitor);
    expect(reason?.match(/temperature of the (\w+) not known/g)).toEqual([
      'temperature of the capacitor not known',
      'temperature of the choke not known',
      'temperature of the coil not known',
    ]);
  });

  test('still fails by a part that is known to be too hot', () => {
    const { verdict, remedy, at } = surface(['ambient: 35 degC', 'ambient: 60 degC']);
    expect(verdict).toBe('fail');
    expect(remedy).toMatch(/^a better cooled choke/);
    expect(measuredPad.split('\n')[at.line - 1]).toContain('access:');
  });

  test('with all of them known names the hottest', () => {
    const { verdict, basis } = surface(wound, cool);
    expect(verdict).toBe('pass');
    expect(basis[0]).toMatch(/^hottest: coil;/);
  });
});
