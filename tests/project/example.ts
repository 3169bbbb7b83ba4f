import type { PartsLibrary } from '../../src/parts/library.ts';
import type { PartKind } from '../../src/parts/part.ts';
import { readProject } from '../../src/project/read-project.ts';

/** The complete example of the project format. */
export const exampleText = `tankproof: 1                     # format version
title: Path-lantern charging pad, transmitter
supply:
  voltage: 18 V
  tolerance: 5 %                 # both ways
  riseTime: 2 ms
  resistance: 60 mohm            # source and leads
  currentLimit: 10 A
  bulkCapacitance: 4700 uF
chokes:
  arrangement: two               # two | centre-tap
  part: choke-100u-10a-sendust
tank:
  coil:
    inductance: 1.8 uH
    resistance: 6 mohm           # at the tank frequency
    tolerance: 3 %
  bank:
    part: pp-box-100n-630v
    parallel: 24
    series: 1
    cooling: still air
loads:
  - name: nothing near
  - name: lantern on the pad
    power: 25 W
    frequencyShift: -2 %
switches: {part: IRFP250N, parallel: 1, heatsink: 5 K/W, insulator: 0.5 K/W}
gates:
  pullUp: {resistance: 470 ohm, power: 2 W, from: supply}
  pullDown: 10 kohm
  clamp: 1N4742A
  crossDiode: UF4004
environment: {ambient: 30 °C, access: public}
limits: {}
readings: {}
`;

export const partTexts: Readonly<Record<PartKind, Readonly<Record<string, string>>>> = {
  mosfets: {
    IRFP250N: `tankproofPart: 1
kind: mosfets
title: 200 V, 75 mohm, TO-247AC
package: TO-247AC
drainVoltage: {value: 200 V, source: data sheet}
onResistance: {value: 75 mohm, source: data sheet}
onResistanceAt: {gateVoltage: 10 V, drainCurrent: 18 A}
onResistanceFactor: {value: 2.3, source: class}
thresholdMin: 2 V
thresholdMax: 4 V
`,
  },
  diodes: {
    UF4004: `tankproofPart: 1
kind: diodes
reverseVoltage: {value: 400 V, source: data sheet}
forwardVoltage: {value: 1 V, at: 1 A, source: data sheet}
recoveryTime: {value: 50 ns, source: data sheet}
`,
    '1N4148': `tankproofPart: 1
kind: diodes
forwardVoltage: {value: 1 V, at: {current: 10 mA}, source: data sheet}
`,
  },
  zeners: {
    '1N4742A': `tankproofPart: 1
kind: zeners
zenerVoltage: {value: 12 V, source: data sheet}
tolerance: {value: 5 %, source: data sheet}
power: {value: 1 W, source: data sheet}
`,
  },
  capacitors: {
    'pp-box-100n-630v': `tankproofPart: 1
kind: capacitors
capacitance: {value: 100 nF, source: class}
tolerance: {value: 5 %, source: class}
voltageDc: {value: 630 V, source: class}
lossTangent:
  100 kHz: {value: 0.002, source: class}
  1 kHz: {value: 0.0005, source: data sheet}
thermalResistance: {still air: {value: 40 K/W, source: class}}
dielectric: polypropylene
`,
    'pp-box-330n-630v': 'tankproofPart: 1\nkind: capacitors\ncapacitance: 330 nF\n',
  },
  chokes: {
    'choke-100u-10a-sendust': `tankproofPart: 1
kind: chokes
inductance: {value: 100 uH, source: derived}
resistance: {value: 16 mohm, source: derived}
saturationCurrent: {value: 9 A, source: derived}
coreLoss: {value: 0.4 W, at: {supplyVoltage: 24 V, frequency: 100 kHz}, source: derived}
`,
  },
};

/** A library in memory. */
export function memoryLibrary(texts: Readonly<Record<PartKind, Readonly<Record<string, string>>>> = partTexts): PartsLibrary {
  return {
    names: (kind) => Object.keys(texts[kind]),
    text: (kind, name) => {
      const text = texts[kind][name];
      return text === undefined ? undefined : { path: `parts/${kind}/${name}.yaml`, text };
    },
  };
}

/** Reads a project text with the library in memory. */
export const read = (text: string, library: PartsLibrary = memoryLibrary()): ReturnType<typeof readProject> =>
  readProject({
    text,
    path: 'pad.yaml',
    openLibrary: () => library,
    checks: { ids: ['switch-peak-voltage', 'loaded-q', 'capacitor-self-heating'], problemsOf: () => [] },
  });

/** The example with one piece replaced. */
export function edited(from: string, to: string): string {
  if (!exampleText.includes(from)) throw new Error(`the example does not contain ${from}`);
  return exampleText.replace(from, () => to);
}
