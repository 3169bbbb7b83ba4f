import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/source/diagnostic.ts';
import type { Design } from '../../src/project/design.ts';
import { readProject } from '../../src/project/read-project.ts';
import { edited, exampleText, memoryLibrary, read } from './example.ts';

function designOf(text: string): Design {
  const outcome = read(text);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

const close = (value: number): number => expect.closeTo(value, 15) as number;

describe('the complete example', () => {
  const design = designOf(exampleText);

  test('reads to SI numbers', () => {
    const { chokes: _chokes, tank, switches, gates, locate: _locate, ...rest } = design;
    expect(rest).toEqual({
      title: 'Path-lantern charging pad, transmitter',
      supply: {
        voltage: 18,
        tolerance: close(0.05),
        riseTime: close(2e-3),
        resistance: close(60e-3),
        currentLimit: { current: 10, kind: 'constant' },
        bulkCapacitance: close(4700e-6),
      },
      loads: [{ name: 'nothing near' }, { name: 'lantern on the pad', power: 25, frequencyShift: close(-0.02) }],
      environment: { ambient: expect.closeTo(303.15, 9) as number, access: 'public' },
      limits: {},
      readings: {},
    });
    expect(tank.coil).toEqual({ inductance: close(1.8e-6), resistance: close(6e-3), tolerance: close(0.03) });
    expect(tank.bank).toMatchObject({ parallel: 24, series: 1, cooling: 'still air' });
    expect(switches).toMatchObject({ parallel: 1, heatsink: 5, insulator: 0.5 });
    expect(gates.pullUp).toEqual({ resistance: 470, power: 2, from: 'supply', hold: false });
    expect(gates.pullDown).toBe(10e3);
  });

  test('names resolve to parts of the right kind, placed where they are named', () => {
    expect(design.chokes).toMatchObject({ arrangement: 'two', choke: { kind: 'chokes', name: 'choke-100u-10a-sendust' } });
    expect(design.tank.bank.capacitor).toMatchObject({ kind: 'capacitors', name: 'pp-box-100n-630v' });
    expect(design.switches.mosfet).toMatchObject({
      name: 'IRFP250N',
      package: 'TO-247AC',
      where: { path: 'pad.yaml', line: 28, column: 18 },
    });
    expect(design.gates.clamp).toMatchObject({ kind: 'zeners', name: '1N4742A' });
    expect(design.gates.crossDiode).toMatchObject({ kind: 'diodes', name: 'UF4004' });
    expect(design.switches.mosfet.ratings.drainVoltage?.where).toMatchObject({ path: 'parts/mosfets/IRFP250N.yaml', line: 5, column: 23 });
  });

  test('a key path leads back into the text, an absent key to its parent', () => {
    expect(design.locate('supply.voltage')).toMatchObject({ path: 'pad.yaml', line: 4, column: 12, length: 4 });
    expect(design.locate('loads.1.power')).toMatchObject({ line: 26, column: 12 });
    expect(design.locate('supply.leadInductance')).toMatchObject({ line: 3, column: 1, length: 6 });
  });
});

const smallest = `tankproof: 1
supply: {voltage: 12 V}
chokes: {arrangement: centre-tap, inductance: 100 uH, saturationCurrent: {value: 5 A, source: build}}
tank: {coil: {inductance: 1 uH, resistance: 5 mohm}, bank: {part: {capacitance: 330 nF, title: from the drawer}}}
switches: {part: {drainVoltage: 100 V}}
gates: {pullUp: {resistance: 1 kohm}, crossDiode: {reverseVoltage: 200 V}}
`;

describe('the smallest file', () => {
  const design = designOf(smallest);

  test('gets the defaults of the format', () => {
    expect(design.loads).toEqual([{ name: 'no load' }]);
    expect(design.tank.bank).toMatchObject({ parallel: 1, series: 1, cooling: 'still air' });
    expect(design.switches.parallel).toBe(1);
    expect(design.gates.pullUp).toEqual({ resistance: 1000, from: 'supply', hold: false });
    expect(design.environment).toEqual({});
  });

  test('what is absent in the file is absent in the design', () => {
    expect(Object.keys(design.supply)).toEqual(['voltage']);
    expect(design.gates).not.toHaveProperty('clamp');
    expect(design).not.toHaveProperty('title');
  });

  test('inline parts have the source project unless they state one', () => {
    expect(design.chokes.choke.ratings).toMatchObject({
      inductance: { source: 'project' },
      saturationCurrent: { value: 5, source: 'build' },
    });
    expect(design.switches.mosfet.ratings.drainVoltage).toMatchObject({ value: 100, source: 'project', where: { line: 5, column: 33 } });
  });

  test('inline parts are called by their title, else by their kind', () => {
    expect([design.tank.bank.capacitor.name, design.switches.mosfet.name, design.chokes.choke.name]).toEqual([
      'from the drawer',
      'inline MOSFET',
      'inline choke',
    ]);
  });
});

describe('other forms', () => {
  test('a current limit with its kind', () => {
    expect(designOf(edited('currentLimit: 10 A', 'currentLimit: {current: 10 A, kind: foldback}')).supply.currentLimit).toEqual({
      current: 10,
      kind: 'foldback',
    });
  });

  test('a gate rail of its own, held low', () => {
    const { pullUp } = designOf(edited('from: supply', 'from: 12 V, hold: true')).gates;
    expect(pullUp).toMatchObject({ from: 12, hold: true });
  });

  test('a choke as an inline part', () => {
    expect(designOf(edited('part: choke-100u-10a-sendust', 'part: {inductance: 1 mH}')).chokes.choke.ratings.inductance?.value).toBeCloseTo(
      1e-3,
      12,
    );
  });

  test('loads without a name are numbered', () => {
    expect(designOf(edited('  - name: nothing near', '  - frequencyShift: 10 %')).loads[0]).toEqual({
      name: 'load 1',
      frequencyShift: 0.1,
    });
  });

  test('a load by resistance, by plain or written Q', () => {
    expect(designOf(edited('power: 25 W', 'parallelResistance: 80 ohm')).loads[1]?.parallelResistance).toBe(80);
    expect(designOf(edited('power: 25 W', 'loadedQ: 8')).loads[1]?.loadedQ).toBe(8);
    expect(designOf(edited('power: 25 W', 'loadedQ: "8"')).loads[1]?.loadedQ).toBe(8);
  });

  test('limits are kept as written, since only the check knows their dimension', () => {
    const limits =
      'limits: {switch-peak-voltage: {warn: 70 %, fail: 0.9}, capacitor-self-heating: {fail: rating - 3 K}, loaded-q: {warn: 6}}';
    expect(designOf(edited('limits: {}', limits)).limits).toEqual({
      'switch-peak-voltage': { warn: '70 %', fail: '0.9' },
      'capacitor-self-heating': { fail: 'rating - 3 K' },
      'loaded-q': { warn: '6' },
    });
  });

  test('readings may name their load and their supply voltage', () => {
    const design = designOf(edited('readings: {}', 'readings: {load: lantern on the pad, supplyVoltage: 9 V, frequency: 139 kHz}'));
    expect(design.readingsAt).toEqual({ load: 'lantern on the pad', supplyVoltage: { value: 9 } });
    expect(design.readings).toEqual({ frequency: { value: 139e3 } });
    expect(designOf(edited('readings: {}', 'readings: {frequency: 139 kHz}'))).not.toHaveProperty('readingsAt');
  });
  test('readings have an uncertainty in their own unit', () => {
    const readings =
      'readings: {frequency: 139 kHz, drainPeak: {value: 55 V, uncertainty: 500 mV}, coilTemperature: {value: 62 °C, uncertainty: 2 K}}';
    expect(designOf(edited('readings: {}', readings)).readings).toEqual({
      frequency: { value: close(139e3) },
      drainPeak: { value: 55, uncertainty: close(0.5) },
      coilTemperature: { value: expect.closeTo(335.15, 9) as number, uncertainty: 2 },
    });
  });
});

describe('folders of parts', () => {
  test('are handed to the library as written', () => {
    const asked: (readonly string[])[] = [];
    const openLibrary = (folders: readonly string[]): ReturnType<typeof memoryLibrary> => {
      asked.push(folders);
      return memoryLibrary();
    };
    readProject({ text: edited('readings: {}', 'partsFolders: [./parts, ../more]'), path: 'pad.yaml', openLibrary });
    expect(asked).toEqual([['./parts', '../more']]);
  });

  test('one that cannot be read is a problem of the file, with the others', () => {
    const openLibrary = (): never => {
      throw new InputError([{ id: 'no-folder', message: 'no such folder' }]);
    };
    const text = edited('readings: {}', 'partsFolders: [./parts]').replace('18 V', '18');
    const outcome = readProject({ text, path: 'pad.yaml', openLibrary });
    expect(outcome).toMatchObject({ ok: false, problems: [{ id: 'bare-number' }, { id: 'no-folder', at: { line: 36, column: 15 } }] });
  });

  test('a mistake of the program is not taken for one of the file', () => {
    const openLibrary = (): never => {
      throw new TypeError('oops');
    };
    expect(() => readProject({ text: exampleText, path: 'pad.yaml', openLibrary })).toThrow(TypeError);
  });
});

test('without a list of checks, limits are not compared', () => {
  const text = edited('limits: {}', 'limits: {anything: {warn: 1}}');
  expect(readProject({ text, path: 'pad.yaml', openLibrary: () => memoryLibrary() }).ok).toBe(true);
});
