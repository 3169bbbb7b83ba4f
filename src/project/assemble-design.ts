import type { Capacitor, Choke, Diode, Mosfet, Zener } from '../parts/part.ts';
import { present } from '../source/present.ts';
import { coilShapes, conductorMaterials, conductorShapes, readingKeys } from './design.ts';
import type { Coil, CoilGeometry, Design, Gates, Load, Reading, Supply } from './design.ts';
import { loadName } from './project-contradictions.ts';
import type { ProjectReading } from './project-reading.ts';

/** The parts of a design. */
export interface DesignParts {
  readonly choke: Choke;
  readonly capacitor: Capacitor;
  readonly mosfet: Mosfet;
  readonly clamp?: Zener;
  readonly crossDiode: Diode;
}

/** A key that the schema requires is there once the schema is satisfied; anything else is a mistake of this program. */
function required<T>(value: T | undefined, path: string): T {
  if (value === undefined) throw new Error(`${path} passed validation without a value`);
  return value;
}

function oneOf<W extends string>(words: readonly W[], text: string | undefined): W | undefined {
  return words.find((word) => word === text);
}

function supplyOf({ number, text }: ProjectReading): Supply {
  const current = number('supply.currentLimit') ?? number('supply.currentLimit.current');
  const kind = oneOf(['constant', 'foldback', 'hiccup'], text('supply.currentLimit.kind')) ?? 'constant';
  return {
    voltage: required(number('supply.voltage'), 'supply.voltage'),
    ...present({
      tolerance: number('supply.tolerance'),
      riseTime: number('supply.riseTime'),
      resistance: number('supply.resistance'),
      currentLimit: current === undefined ? undefined : { current, kind },
      bulkCapacitance: number('supply.bulkCapacitance'),
      leadInductance: number('supply.leadInductance'),
    }),
  };
}

function coilOf(reading: ProjectReading): Coil {
  const { number } = reading;
  return present({
    inductance: number('tank.coil.inductance'),
    resistance: number('tank.coil.resistance'),
    tolerance: number('tank.coil.tolerance'),
    geometry: geometryOf(reading),
  });
}

function geometryOf({ number, text, count }: ProjectReading): CoilGeometry | undefined {
  const shape = oneOf(coilShapes, text('tank.coil.shape'));
  if (shape === undefined) return undefined;
  const [length, spacing] = [number('tank.coil.leads.length'), number('tank.coil.leads.spacing')];
  return {
    shape,
    diameter: required(number('tank.coil.diameter'), 'tank.coil.diameter'),
    turns: number('tank.coil.turns') ?? 1,
    cooling: oneOf(['air', 'water'], text('tank.coil.cooling')) ?? 'air',
    conductor: {
      shape: required(oneOf(conductorShapes, text('tank.coil.conductor.shape')), 'tank.coil.conductor.shape'),
      outerDiameter: required(number('tank.coil.conductor.outerDiameter'), 'tank.coil.conductor.outerDiameter'),
      material: oneOf(conductorMaterials, text('tank.coil.conductor.material')) ?? 'copper',
      ...present({
        wall: number('tank.coil.conductor.wall'),
        strands: count('tank.coil.conductor.strands'),
        strandDiameter: number('tank.coil.conductor.strandDiameter'),
        emissivity: number('tank.coil.conductor.emissivity'),
      }),
    },
    ...present({
      pitch: number('tank.coil.pitch'),
      bundleDiameter: number('tank.coil.bundleDiameter'),
      leads: length === undefined || spacing === undefined ? undefined : { length, spacing },
    }),
  };
}

function loadsOf({ node, number }: ProjectReading): readonly Load[] {
  const loads = node('loads');
  if (loads?.kind !== 'list') return [{ name: 'no load' }];
  return loads.items.map((item, index) => ({
    name: loadName({ node: item, index }),
    ...present({
      power: number(`loads.${index}.power`),
      parallelResistance: number(`loads.${index}.parallelResistance`),
      loadedQ: number(`loads.${index}.loadedQ`),
      frequencyShift: number(`loads.${index}.frequencyShift`),
    }),
  }));
}

function gatesOf({ number, flag }: ProjectReading, { clamp, crossDiode }: DesignParts): Gates {
  const pullUp = {
    resistance: required(number('gates.pullUp.resistance'), 'gates.pullUp.resistance'),
    from: number('gates.pullUp.from') ?? ('supply' as const),
    hold: flag('gates.pullUp.hold') ?? false,
    ...present({ power: number('gates.pullUp.power') }),
  };
  return { pullUp, crossDiode, ...present({ pullDown: number('gates.pullDown'), clamp }) };
}

/** What a project writes under `limits`, by check id; what is no text or number is left out. */
export function limitsOf({ node }: ProjectReading): Design['limits'] {
  const limits = node('limits');
  if (limits?.kind !== 'map') return {};
  return Object.fromEntries(
    limits.entries.map(({ key, value }) => {
      const lines = value.kind === 'map' ? value.entries : [];
      const written = lines.flatMap(({ key: side, value: level }): readonly [string, string][] =>
        level.kind === 'scalar' && typeof level.value !== 'boolean' ? [[side, level.text]] : [],
      );
      return [key, Object.fromEntries(written)];
    }),
  );
}

function readingAt({ number }: ProjectReading, key: string): Reading | undefined {
  const value = number(`readings.${key}`) ?? number(`readings.${key}.value`);
  return value === undefined ? undefined : { value, ...present({ uncertainty: number(`readings.${key}.uncertainty`) }) };
}

function readingsOf(reading: ProjectReading): Design['readings'] {
  return Object.fromEntries(
    readingKeys.flatMap((key) => {
      const found = readingAt(reading, key);
      return found === undefined ? [] : [[key, found]];
    }),
  );
}

function readingsAtOf(reading: ProjectReading): Design['readingsAt'] {
  const at = present({ load: reading.text('readings.load'), supplyVoltage: readingAt(reading, 'supplyVoltage') });
  return Object.keys(at).length === 0 ? undefined : at;
}

/**
 * The design of a project file that has no problems.
 *
 * @param reading  the project file
 * @param parts    its parts
 * @returns SI numbers, with the defaults of the format
 */
export function assembleDesign({ reading, parts }: { reading: ProjectReading; parts: DesignParts }): Design {
  const { number, text, count } = reading;
  return {
    supply: supplyOf(reading),
    chokes: {
      arrangement: required(oneOf(['two', 'centre-tap'], text('chokes.arrangement')), 'chokes.arrangement'),
      choke: parts.choke,
    },
    tank: {
      coil: coilOf(reading),
      bank: {
        capacitor: parts.capacitor,
        parallel: count('tank.bank.parallel') ?? 1,
        series: count('tank.bank.series') ?? 1,
        cooling: oneOf(['still air', 'fan'], text('tank.bank.cooling')) ?? 'still air',
      },
    },
    loads: loadsOf(reading),
    switches: {
      mosfet: parts.mosfet,
      parallel: count('switches.parallel') ?? 1,
      ...present({ heatsink: number('switches.heatsink'), insulator: number('switches.insulator') }),
    },
    gates: gatesOf(reading, parts),
    environment: present({
      ambient: number('environment.ambient'),
      access: oneOf(['public', 'trained'], text('environment.access')),
    }),
    limits: limitsOf(reading),
    readings: readingsOf(reading),
    locate: reading.locate,
    ...present({ title: text('title'), readingsAt: readingsAtOf(reading) }),
  };
}
