import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import partSchema from '../../shared/part.schema.json' with { type: 'json' };
import projectSchema from '../../shared/project.schema.json' with { type: 'json' };
import { partKinds } from '../../src/parts/part.ts';
import { quantityParser } from '../../src/parts/quantity-parser.ts';
import { partSchema as partPlace } from '../../src/parts/part-schema.ts';
import { projectSchema as projectPlace } from '../../src/project/project-schema.ts';
import { schemaUnder } from '../../src/source/json-schema.ts';
import type { JsonSchema, SchemaPlace } from '../../src/source/json-schema.ts';
import { exampleText, partTexts } from './example.ts';

const schemas: readonly (readonly [string, JsonSchema])[] = [
  ['project.schema.json', projectSchema],
  ['part.schema.json', partSchema],
];

/** Every schema inside a schema that describes a value, with its JSON pointer. */
function schemasIn(schema: JsonSchema, pointer: string): readonly (readonly [string, JsonSchema])[] {
  const under = (group: Readonly<Record<string, JsonSchema>> | undefined, name: string): readonly (readonly [string, JsonSchema])[] =>
    Object.entries(group ?? {}).flatMap(([key, inner]) => schemasIn(inner, `${pointer}/${name}/${key}`));
  const single = [schema.items, schema.propertyNames, schema.additionalProperties].filter((inner) => typeof inner === 'object');
  return [
    [pointer, schema] as const,
    ...under(schema.properties, 'properties'),
    ...under(schema.$defs, '$defs'),
    ...single.flatMap((inner, index) => schemasIn(inner, `${pointer}/${index}`)),
  ];
}

const everywhere = schemas.flatMap(([name, schema]) => schemasIn(schema, name));

function compiler(): Ajv2020 {
  const ajv = new Ajv2020({ allErrors: true, discriminator: true, strictTypes: false, allowUnionTypes: true });
  const names = new Set(everywhere.flatMap(([, schema]) => Object.keys(schema).filter((key) => key.startsWith('x-'))));
  names.forEach((name) => ajv.addKeyword(name));
  schemas.forEach(([name, schema]) => ajv.addSchema(schema, name));
  return ajv;
}

test.each(schemas)('%s is valid JSON Schema', (_name, schema) => expect(new Ajv2020({ strict: false }).validateSchema(schema)).toBe(true));

test('every schema of a value has a description that ends as a sentence', () => {
  expect(everywhere.length).toBeGreaterThan(150);
  expect(everywhere.filter(([, { description }]) => !/^.{4,}[.…]$/.test(description ?? '')).map(([pointer]) => pointer)).toEqual([]);
});

test('every quantity states a dimension that the units know, and bounds and examples in it', () => {
  const quantities = everywhere.filter(([, schema]) => schema['x-dimension'] !== undefined);
  expect(quantities.length).toBeGreaterThan(80);
  for (const [pointer, schema] of quantities) {
    const dimension = [schema['x-dimension'] ?? []].flat()[0]!;
    const texts = [schema['x-above'], schema['x-atLeast'], schema['x-below'], schema['x-atMost'], ...(schema['x-typical'] ?? [])];
    const examples = (schema.examples ?? []).filter((example) => typeof example === 'string');
    for (const text of [...texts, ...examples].filter((each) => each !== undefined))
      expect(quantityParser({ text, dimension }), `${pointer}: ${text}`).toMatchObject({ ok: true });
  }
});

test('every quantity is bounded from both sides or is one of a limit', () => {
  const open = everywhere.filter(
    ([, schema]) => schema['x-dimension'] !== undefined && (schema['x-below'] ?? schema['x-atMost']) === undefined,
  );
  expect(open.map(([pointer]) => pointer).filter((pointer) => !/\$defs\/limit|uncertainty/.test(pointer))).toEqual([]);
});

test('the example and its parts satisfy the schemas as editors see them', () => {
  const ajv = compiler();
  expect(ajv.validate('project.schema.json', parse(exampleText)), ajv.errorsText()).toBe(true);
  for (const kind of partKinds)
    for (const [name, text] of Object.entries(partTexts[kind]))
      expect(ajv.validate('part.schema.json', parse(text)), `${name}: ${ajv.errorsText()}`).toBe(true);
});

test.each([
  ['two forms of one load', { loads: [{ power: '1 W', loadedQ: 8 }] }],
  ['a choke without part and inductance', { chokes: { arrangement: 'two' } }],
  ['an unknown key of an inline part', { switches: { part: { volts: '1 V' } } }],
])('editors see %s', (_fact, change) => {
  expect(compiler().validate('project.schema.json', { ...parse(exampleText), ...change })).toBe(false);
});

const projectKeys = `tankproof title partsFolders supply.voltage supply.tolerance supply.riseTime supply.resistance supply.currentLimit
  supply.currentLimit.current supply.currentLimit.kind supply.bulkCapacitance supply.leadInductance chokes.arrangement chokes.part
  chokes.inductance chokes.resistance chokes.saturationCurrent tank.coil.inductance tank.coil.resistance tank.coil.tolerance
  tank.bank.part tank.bank.part.capacitance tank.bank.parallel tank.bank.series tank.bank.cooling loads.0.name loads.0.power
  loads.0.parallelResistance loads.0.loadedQ loads.0.frequencyShift switches.part switches.part.drainVoltage switches.parallel
  switches.heatsink switches.insulator gates.pullUp.resistance gates.pullUp.power gates.pullUp.from gates.pullUp.hold gates.pullDown
  gates.clamp gates.clamp.zenerVoltage gates.crossDiode gates.crossDiode.recoveryTime environment.ambient environment.access
  limits.any.warn limits.any.fail readings.frequency readings.drainPeak readings.tankCurrentPeak readings.supplyCurrentIdle
  readings.supplyCurrentLoaded readings.gateHigh readings.capacitorTemperature readings.switchTemperature readings.coilTemperature
  readings.frequency.value readings.frequency.uncertainty readings.load readings.supplyVoltage readings.supplyVoltage.uncertainty`;

const partKeys = {
  mosfets: `drainVoltage onResistance thresholdMin thresholdMax drainCurrent gateVoltage junctionTemperature junctionToCase onResistanceAt
    onResistanceAt.gateVoltage onResistanceAt.drainCurrent onResistanceFactor thresholdTypical thresholdDrift transconductance
    inputCapacitance outputCapacitance outputCapacitance.25_V outputCapacitance.at reverseTransferCapacitance
    reverseTransferCapacitance.0_V gateCharge caseToSink junctionToAmbient avalancheEnergy
    bodyDiodeVoltage bodyDiodeRecoveryTime package tankproofPart kind title note drainVoltage.value drainVoltage.source drainVoltage.at
    drainVoltage.note`,
  diodes: `reverseVoltage forwardVoltage averageCurrent recoveryTime surgeCurrent recoveryCharge junctionCapacitance junctionTemperature
    junctionToAmbient forwardVoltage.value forwardVoltage.at forwardVoltage.at.current`,
  zeners: 'zenerVoltage tolerance power impedance testCurrent junctionToAmbient junctionTemperature',
  capacitors: `capacitance tolerance voltageDc voltageAc lossTangent lossTangent.1_kHz currentRms seriesResistance thermalResistance
    thermalResistance.still_air thermalResistance.fan maxRise maxTemperature voltageSlope dielectric size selfInductance`,
  chokes: 'inductance resistance saturationCurrent tolerance coreLoss thermalResistance maxTemperature',
};

describe('every key of the format is in the schema', () => {
  const words = (text: string): readonly string[] => text.trim().split(/\s+/);
  const missing = (place: SchemaPlace, keys: readonly string[]): readonly string[] =>
    keys.filter((key) => {
      const steps = key.split('.').map((step) => step.replace('_', ' '));
      return steps.reduce<SchemaPlace | undefined>((found, step) => found && schemaUnder(found, step), place) === undefined;
    });
  test('project', () => expect(missing(projectPlace, words(projectKeys))).toEqual([]));
  test.each(partKinds)('%s', (kind) => expect(missing(partPlace(kind), words(partKeys[kind]))).toEqual([]));
});
