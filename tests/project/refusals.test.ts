import { describe, expect, test } from 'vitest';
import type { Diagnostic } from '../../src/source/diagnostic.ts';
import { edited, exampleText, memoryLibrary, partTexts, read } from './example.ts';

function problemsOf(text: string): readonly Diagnostic[] {
  const outcome = read(text);
  return outcome.ok ? [] : outcome.problems;
}

const placesOf = (text: string): readonly string[] => problemsOf(text).map(({ id, at }) => `${id} ${at?.line}:${at?.column}`);

const table: readonly (readonly [fact: string, from: string, to: string, ...expected: string[]])[] = [
  ['no version', 'tankproof: 1 ', 'title2: x ', 'unknown-key 1:1', 'missing-key 1:1'],
  ['another version', 'tankproof: 1', 'tankproof: 2', 'unsupported-version 1:12'],
  ['a version in quotes', 'tankproof: 1', 'tankproof: "1"', 'wrong-type 1:12'],
  ['a number as title', 'title: Path-lantern charging pad, transmitter', 'title: 2024', 'wrong-type 2:8'],
  ['a title of two lines', 'title: Path-lantern charging pad, transmitter', 'title: "a\\nb"', 'wrong-text 2:8'],
  ['an empty title', 'title: Path-lantern charging pad, transmitter', 'title: ""', 'empty-text 2:8'],
  ['no supply', 'supply:', 'suply:', 'unknown-key 3:1'],
  ['a supply that is a text', 'supply:\n', 'environmen: 1\nsupply2:\n', 'unknown-key 3:1', 'unknown-key 4:1'],
  ['no voltage', '  voltage: 18 V\n', '', 'missing-key 3:1'],
  ['a voltage without unit', 'voltage: 18 V', 'voltage: 18', 'bare-number 4:12'],
  ['a voltage without unit in quotes', 'voltage: 18 V', 'voltage: "18"', 'bare-number 4:12'],
  ['a voltage that is a current', 'voltage: 18 V', 'voltage: 18 A', 'wrong-unit 4:12'],
  ['an unknown unit', 'voltage: 18 V', 'voltage: 18 Vx', 'unknown-unit 4:12'],
  ['no voltage after the key', 'voltage: 18 V', 'voltage:', 'no-value 4:3'],
  ['a tilde as voltage', 'voltage: 18 V', 'voltage: ~', 'no-value 4:3'],
  ['a list as voltage', 'voltage: 18 V', 'voltage: [18 V]', 'wrong-type 4:12'],
  ['true as voltage', 'voltage: 18 V', 'voltage: true', 'wrong-type 4:12'],
  ['zero volts', 'voltage: 18 V', 'voltage: 0 V', 'out-of-range 4:12'],
  ['a negative voltage', 'voltage: 18 V', 'voltage: -18 V', 'out-of-range 4:12'],
  ['an absurd voltage', 'voltage: 18 V', 'voltage: 18 kV', 'out-of-range 4:12'],
  ['a tolerance without unit', 'tolerance: 5 % ', 'tolerance: 5 ', 'bare-number 5:14'],
  ['a tolerance above all', 'tolerance: 5 % ', 'tolerance: 500 % ', 'over-hundred-percent 5:14'],
  ['a tolerance that is none', 'tolerance: 5 % ', 'tolerance: 51 % ', 'out-of-range 5:14'],
  ['a tolerance of the coil that is none', '    tolerance: 3 %', '    tolerance: 99 %', 'out-of-range 17:16'],
  ['a negative tolerance', 'tolerance: 5 % ', 'tolerance: -5 % ', 'out-of-range 5:14'],
  ['a negative rise time', 'riseTime: 2 ms', 'riseTime: -2 ms', 'out-of-range 6:13'],
  ['a rise time of an hour', 'riseTime: 2 ms', 'riseTime: 3600 s', 'out-of-range 6:13'],
  ['a negative resistance', 'resistance: 60 mohm', 'resistance: -60 mohm', 'out-of-range 7:15'],
  ['a current limit of zero', 'currentLimit: 10 A', 'currentLimit: 0 A', 'out-of-range 8:17'],
  ['a current limit of no known kind', 'currentLimit: 10 A', 'currentLimit: {current: 10 A, kind: hickup}', 'unknown-word 8:39'],
  ['a current limit without current', 'currentLimit: 10 A', 'currentLimit: {kind: hiccup}', 'missing-key 8:3'],
  ['a farad of bulk', 'bulkCapacitance: 4700 uF', 'bulkCapacitance: 1 F', 'out-of-range 9:20'],
  ['an unknown arrangement', 'arrangement: two', 'arrangement: center-tap', 'unknown-word 11:16'],
  ['no arrangement', '  arrangement: two               # two | centre-tap\n', '', 'missing-key 10:1'],
  ['no choke', '  part: choke-100u-10a-sendust\n', '', 'missing-key 10:1'],
  ['a choke and its ratings', 'part: choke-100u-10a-sendust', 'part: choke-100u-10a-sendust\n  inductance: 1 mH', 'contradiction 13:3'],
  ['an inline choke out of range', 'part: choke-100u-10a-sendust', 'inductance: 100 H', 'out-of-range 12:15'],
  ['an inline choke with an unknown key', 'part: choke-100u-10a-sendust', 'inductance: 1 mH\n  gap: 1 mm', 'unknown-key 13:3'],
  ['an unknown choke', 'choke-100u-10a-sendust', 'choke-100u-10a-sendost', 'unknown-part 12:9'],
  ['a number as part', 'part: choke-100u-10a-sendust', 'part: 100', 'wrong-type 12:9'],
  ['an empty name', 'part: choke-100u-10a-sendust', 'part: ""', 'empty-text 12:9'],
  ['a path as name', 'part: choke-100u-10a-sendust', 'part: ../chokes/choke-100u-10a-sendust', 'unknown-part 12:9'],
  ['an inductance of one henry', 'inductance: 1.8 uH', 'inductance: 1 H', 'out-of-range 15:17'],
  ['an inductance of one nanohenry', 'inductance: 1.8 uH', 'inductance: 1 nH', 'out-of-range 15:17'],
  ['a coil without resistance', '    resistance: 6 mohm           # at the tank frequency\n', '', 'missing-key 14:3'],
  ['a coil of zero resistance', 'resistance: 6 mohm', 'resistance: 0 ohm', 'out-of-range 16:17'],
  ['a coil given twice', '    tolerance: 3 %', '    inductance: 2 uH', 'duplicate-key 17:5'],
  ['a coil by geometry', '    tolerance: 3 %', '    turns: 3', 'missing-key 17:5'],
  ['a bank without part', '    part: pp-box-100n-630v\n', '', 'missing-key 18:3'],
  ['an inline capacitor of one farad', 'part: pp-box-100n-630v', 'part: {capacitance: 1 F}', 'out-of-range 19:25'],
  ['an inline capacitor with a bare number', 'part: pp-box-100n-630v', 'part: {capacitance: 100}', 'bare-number 19:25'],
  [
    'an inline capacitor that contradicts itself',
    'part: pp-box-100n-630v',
    'part: {voltageAc: 2 V, voltageDc: 1 V}',
    'contradiction 19:23',
  ],
  ['no capacitors in parallel', 'parallel: 24', 'parallel: 0', 'out-of-range 20:15'],
  ['too many in parallel', 'parallel: 24', 'parallel: 10001', 'out-of-range 20:15'],
  ['half a capacitor', 'parallel: 24', 'parallel: 2.5', 'wrong-type 20:15'],
  ['a count with a unit', 'parallel: 24', 'parallel: 24 pieces', 'wrong-type 20:15'],
  ['an octal count', 'parallel: 24', 'parallel: 024', 'odd-number 20:15'],
  ['an unknown cooling', 'cooling: still air', 'cooling: water', 'unknown-word 22:14'],
  [
    'an empty list of loads',
    'loads:\n  - name: nothing near\n  - name: lantern on the pad\n    power: 25 W\n    frequencyShift: -2 %',
    'loads: []',
    'empty-list 23:8',
  ],
  ['two loads of one name', 'name: lantern on the pad', 'name: nothing near', 'duplicate-load 25:11'],
  ['a load of two forms', 'power: 25 W', 'power: 25 W\n    loadedQ: 8', 'contradictory-load 27:5'],
  ['a load that is a text', '- name: nothing near', '- nothing near', 'wrong-type 24:5'],
  ['an empty load', '- name: nothing near', '-', 'no-value 24:3'],
  ['a loaded Q of zero', 'power: 25 W', 'loadedQ: 0', 'out-of-range 26:14'],
  ['a negative load', 'power: 25 W', 'power: -25 W', 'out-of-range 26:12'],
  ['a shift beyond all', 'frequencyShift: -2 %', 'frequencyShift: -51 %', 'out-of-range 27:21'],
  ['a shift above all', 'frequencyShift: -2 %', 'frequencyShift: 101 %', 'out-of-range 27:21'],
  ['a shift without unit', 'frequencyShift: -2 %', 'frequencyShift: -2', 'bare-number 27:21'],
  ['an unknown MOSFET', 'part: IRFP250N', 'part: IRFP250', 'unknown-part 28:18'],
  ['a capacitor as switch', 'part: IRFP250N', 'part: pp-box-100n-630v', 'wrong-kind 28:18'],
  ['a heat sink in kelvin', 'heatsink: 5 K/W', 'heatsink: 5 K', 'wrong-unit 28:51'],
  ['a decimal comma in braces', 'insulator: 0.5 K/W', 'insulator: 0,5 K/W', 'decimal-comma 28:70'],
  ['a pull-up of zero', '{resistance: 470 ohm', '{resistance: 0 ohm', 'out-of-range 30:24'],
  ['a pull-up from nowhere', 'from: supply', 'from: suply', 'unknown-word 30:51'],
  ['hold in words', 'from: supply', 'hold: yes', 'wrong-type 30:51'],
  ['a diode as clamp', 'clamp: 1N4742A', 'clamp: UF4004', 'wrong-kind 32:10'],
  ['no cross diode', '  crossDiode: UF4004\n', '', 'missing-key 29:1'],
  ['ambient on the sun', 'ambient: 30 °C', 'ambient: 5500 °C', 'out-of-range 34:24'],
  ['ambient in coulomb', 'ambient: 30 °C', 'ambient: 30 V', 'wrong-unit 34:24'],
  ['an unknown access', 'access: public', 'access: everybody', 'unknown-word 34:39'],
  ['an unknown check', 'limits: {}', 'limits: {loaded-queue: {warn: 4}}', 'unknown-check 35:10'],
  ['a limit of another sort', 'limits: {}', 'limits: {loaded-q: {warning: 4}}', 'unknown-key 35:21'],
  ['a limit that is a number', 'limits: {}', 'limits: {loaded-q: 4}', 'wrong-type 35:20'],
  ['limits without value', 'limits: {}', 'limits:', 'no-value 35:1'],
  ['an unknown reading', 'readings: {}', 'readings: {drainpeak: 55 V}', 'unknown-key 36:12'],
  ['readings with a load that is not there', 'readings: {}', 'readings: {load: lantern on the pat}', 'unknown-load 36:18'],
  ['a reading without unit', 'readings: {}', 'readings: {drainPeak: 55}', 'bare-number 36:23'],
  ['a reading of another kind', 'readings: {}', 'readings: {drainPeak: {value: 55 A}}', 'wrong-unit 36:31'],
  ['a negative uncertainty', 'readings: {}', 'readings: {drainPeak: {value: 55 V, uncertainty: -1 V}}', 'out-of-range 36:50'],
  ['a folder that is a number', 'readings: {}', 'partsFolders: [1]', 'wrong-type 36:16'],
  ['a tab', '  voltage: 18 V', '\tvoltage: 18 V', 'tab-indent 4:1'],
  ['an anchor', 'voltage: 18 V', 'voltage: &a 18 V', 'anchor 4:12'],
];

describe('a project file with one mistake', () => {
  test.each(table)('%s', (_fact, from, to, ...expected) => expect(placesOf(edited(from, to))).toEqual(expected));

  test('the example itself has none', () => expect(placesOf(exampleText)).toEqual([]));
});

test.each([
  ['voltage: 18 V', 'voltege: 18 V', 'did you mean `voltage`?'],
  ['    tolerance: 3 %', '    turns: 3', 'add `shape: loop`, solenoid, spiral or bundle'],
  ['  voltage: 18 V\n', '', 'add `voltage: 18 V`'],
  ['tolerance: 5 % ', 'tolerance: 5 ', 'write "5 %"'],
  ['tolerance: 5 % ', 'tolerance: "5" ', 'did you mean "5 %"?'],
  ['inductance: 1.8 uH', 'inductance: 1.8 H', 'did you mean "1.8 uH"?'],
  ['voltage: 18 V', 'voltage: 18 kV', 'did you mean "18 V"?'],
  ['arrangement: two', 'arrangement: center-tap', 'did you mean `centre-tap`?'],
  ['part: IRFP250N', 'part: irfp250', 'did you mean `IRFP250N`?'],
  [
    '    inductance: 1.8 uH\n',
    '    innerDiameter: 50 mm\n    inductance: 1.8 uH\n',
    "write `diameter`, to the axis of the conductor: the inner one and the conductor's",
  ],
  [
    '    inductance: 1.8 uH\n',
    '    shape: solenoid\n    diameter: 56 mm\n    turns: 8\n    conductor: {shape: wire, outerDiameter: 2 mm}\n    inductance: 1.8 uH\n',
    'add `pitch: 3 mm`',
  ],
  ['pp-box-100n-630v', 'box-100n-630v', 'did you mean `pp-box-100n-630v`?'],
  ['crossDiode: UF4004', 'crossDiode: BYV29', 'known: UF4004, 1N4148'],
  ['  part: choke-100u-10a-sendust\n', '', 'add `part: choke-100u-10a-sendust` or `inductance: 100 uH`'],
  ['limits: {}', 'limits: {loaded-Q: {warn: 4}}', 'did you mean `loaded-q`?'],
  ['title: Path-lantern charging pad, transmitter', 'title: 2024', 'put it in quotes: "2024"'],
  ['currentLimit: 10 A', 'currentLimit: {kind: hiccup}', 'add `current: 10 A`'],
])('%s → %s is answered with help', (from, to, help) =>
  expect(problemsOf(edited(from, to)).map((problem) => problem.help)).toEqual([help]),
);

const threeLoads = 'loads:\n  - name: nothing near\n  - name: lantern on the pad\n    power: 25 W\n    frequencyShift: -2 %\n';

/** What a beginner writes, where that is refused, and what to write; one error each. */
const slips: readonly (readonly [fact: string, from: string, to: string, place: string, help: string])[] = [
  [
    'no dash at all',
    threeLoads,
    'loads:\n  name: lantern\n  power: 25 W\n',
    'wrong-type 24:3',
    'begin each entry with `- `, such as `- name: no load`',
  ],
  ['no dash before keys', threeLoads, 'loads:\n  name: a\n    power: 25 W\n', 'yaml-syntax 24:3', 'such as `- name: a`'],
  ['a dash missing at the first load', '- name: nothing near', 'name: nothing near', 'yaml-syntax 24:3', 'such as `- name: nothing near`'],
  [
    'a dash missing at the second',
    '- name: lantern on the pad',
    'name: lantern on the pad',
    'yaml-syntax 25:3',
    'such as `- name: lantern on the pad`',
  ],
  [
    'a load without the key name',
    '- name: lantern on the pad',
    '- lantern on the pad',
    'yaml-syntax 25:3',
    'write `- name: lantern on the pad`',
  ],
  ['a load that is a name', threeLoads, 'loads:\n  - lantern\n', 'wrong-type 24:5', 'write `name: lantern`'],
  ['no space after the dash', threeLoads, 'loads:\n  -name: lantern\n', 'yaml-syntax 24:3', 'write `- name: …`'],
  ['a load in place of loads', threeLoads, 'loads: 25 W\n', 'wrong-type 23:8', 'it is a list'],
  ['two keys in a line', 'voltage: 18 V', 'voltage: 18 V tolerance: 5 %', 'yaml-syntax 4:3', 'give each key a line of its own'],
  ['a colon in a title', 'title: Path', 'title: Pad: path', 'yaml-syntax 2:1', 'title: "Pad: path-lantern charging pad, transmitter"'],
  ['no colon', 'voltage: 18 V', 'voltage 18 V', 'yaml-syntax 4:3', 'write `voltage: 18 V`'],
  ['no colon after a heading', 'supply:', 'supply', 'yaml-syntax 3:1', 'write `supply:`'],
  ['no space after the colon', 'voltage: 18 V', 'voltage:18 V', 'yaml-syntax 4:3', 'write `voltage: 18 V`'],
  ['no space in braces', '{resistance: 470 ohm', '{resistance:470 ohm', 'yaml-syntax 30:12', 'write `resistance: 470 ohm`'],
  ['an equals sign', 'voltage: 18 V', 'voltage = 18 V', 'yaml-syntax 4:3', 'write `voltage: 18 V`'],
  ['no comma in braces', '470 ohm, power', '470 ohm power', 'yaml-syntax 30:24', 'by commas'],
  ['a brace that stays open', 'from: supply}', 'from: supply', 'yaml-syntax 30:11', 'add the missing `}`'],
  ['a key too far right', '  riseTime', '    riseTime', 'yaml-syntax 6:5', 'begin `riseTime:` in the same column as `tolerance:`'],
  ['a key too far left', '  tolerance: 5 % ', ' tolerance: 5 % ', 'yaml-syntax 5:2', '`voltage:` begins in column 3'],
  [
    'a key of another mapping',
    'part: choke-100u-10a-sendust',
    'part: choke-100u-10a-sendust\n  parallel: 2',
    'unknown-key 13:3',
    'it belongs under `tank.bank` or `switches`',
  ],
  [
    'a key of no mapping there',
    '  voltage: 18 V',
    '  ambient: 30 °C\n  voltage: 18 V',
    'unknown-key 4:3',
    'it belongs under `environment`',
  ],
  [
    'a mapping of another level',
    '  bank:\n    part: pp-box-100n-630v\n    parallel: 24\n    series: 1\n    cooling: still air\n',
    'bank:\n  part: pp-box-100n-630v\n',
    'unknown-key 18:1',
    'it belongs under `tank`',
  ],
  [
    'a part as a name in a mapping',
    'part: choke-100u-10a-sendust',
    'part: {name: choke-100u-10a-sendust}',
    'unknown-key 12:10',
    'write the name alone: `part: choke-100u-10a-sendust`',
  ],
  [
    'a pull-up that is a resistance',
    '{resistance: 470 ohm, power: 2 W, from: supply}',
    '470 ohm',
    'wrong-type 30:11',
    'write `{resistance: 470 ohm}`',
  ],
];

test.each(slips)('%s is one mistake with what to write', (_fact, from, to, place, help) => {
  const problems = problemsOf(edited(from, to));
  expect(problems.map(({ id, at }) => `${id} ${at?.line}:${at?.column}`)).toEqual([place]);
  expect(problems[0]?.help).toContain(help);
});

/** What is written, and what the help of its refusal names; each quantity has the prefix of a neighbour. */
test.each([
  [
    'resistance: 60 mohm',
    'resistance: 100 Mohm',
    '`supply.resistance` must be at least 0 ohm and at most 100 ohm, not `100 Mohm`',
    '"100 mohm"',
  ],
  ['{resistance: 470 ohm', '{resistance: 130 mohm', '`gates.pullUp.resistance` must be at least 1 ohm and at most 1 Mohm', '"130 ohm"'],
  ['pullDown: 10 kohm', 'pullDown: 10 mohm', '`gates.pullDown` must be at least 10 ohm', '"10 kohm"'],
  ['voltage: 18 V', 'voltage: 18 mV', '`supply.voltage` must be at least 1 V and at most 2 kV', '"18 V"'],
  ['riseTime: 2 ms', 'riseTime: 200 s', '`supply.riseTime` must be at least 0 s and at most 100 s', '"200 ms"'],
  ['currentLimit: 10 A', 'currentLimit: 10 uA', '`supply.currentLimit` must be at least 1 mA', '"10 A"'],
  ['power: 25 W', 'power: 25 MW', '`loads.1.power` must be at least 0 W and at most 100 kW', '"25 W"'],
  ['inductance: 1.8 uH', 'inductance: 1 H', '`tank.coil.inductance` must be above 1 nH and below 100 mH', '"1 uH"'],
  ['part: pp-box-100n-630v', 'part: {capacitance: 1 F}', '`tank.bank.part.capacitance` must be above 1 pF and below 10 mF', '"1 uF"'],
  ['part: pp-box-100n-630v', 'part: {capacitance: 1 pF}', '`tank.bank.part.capacitance` must be above 1 pF', '"1 nF" or "1 uF"'],
  ['part: IRFP250N', 'part: {onResistance: 75 Mohm}', '`switches.part.onResistance` must be at least 10 uohm', '"75 mohm"'],
  ['part: IRFP250N', 'part: {gateCharge: 123 C}', '`switches.part.gateCharge` must be at least 10 pC and at most 100 uC', '"123 nC"'],
  [
    'crossDiode: UF4004',
    'crossDiode: {recoveryTime: 50 s}',
    '`gates.crossDiode.recoveryTime` must be at least 0 s and at most 1 ms',
    '"50 us"',
  ],
])('%s written as %s is refused with its range and the prefix that was meant', (from, to, message, meant) => {
  const problems = problemsOf(edited(from, to));
  expect(problems.map(({ id }) => id)).toEqual(['out-of-range']);
  expect(problems[0]?.message).toContain(message);
  expect(problems[0]?.help).toContain(meant);
});

test('no prefix is proposed that lies far from what is written', () => {
  const [problem] = problemsOf(edited('bulkCapacitance: 4700 uF', 'bulkCapacitance: 1 pF'));
  expect(problem?.help).toBe('write a value in that range; check the number and the prefix of its unit');
});

test('all mistakes of a file are told at once, in file order', () => {
  const text = edited('voltage: 18 V', 'voltage: 18')
    .replace('parallel: 24', 'parallel: 0')
    .replace('UF4004', 'UF4005')
    .replace('limits: {}', 'limit: {}');
  expect(placesOf(text)).toEqual(['bare-number 4:12', 'out-of-range 20:15', 'unknown-part 33:15', 'unknown-key 35:1']);
});

test('a mistake in a part file is told once, at its own place, after those of the project', () => {
  const broken = memoryLibrary({ ...partTexts, diodes: { UF4004: 'tankproofPart: 1\nkind: diodes\nreverseVoltage: 400\n' } });
  const outcome = read(edited('voltage: 18 V', 'voltage: 18'), broken);
  expect(outcome.ok ? [] : outcome.problems.map(({ id, at }) => `${id} ${at?.path}:${at?.line}:${at?.column}`)).toEqual([
    'bare-number pad.yaml:4:12',
    'bare-number parts/diodes/UF4004.yaml:3:17',
  ]);
});

test('only a name that the library lists is looked up', () => {
  const asked: string[] = [];
  const library = memoryLibrary();
  const watched = { ...library, text: (...[kind, name]: Parameters<typeof library.text>) => (asked.push(name), library.text(kind, name)) };
  read(edited('part: IRFP250N', 'part: ../../secret'), watched);
  expect(asked).not.toContain('../../secret');
  expect(asked).toContain('UF4004');
});

test('the message of a wrong kind says what the part is', () => {
  expect(problemsOf(edited('part: IRFP250N', 'part: UF4004'))[0]?.message).toBe('`UF4004` is a diode, not a MOSFET');
});
