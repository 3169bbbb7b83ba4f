import { expect, test } from 'vitest';
import { editedProject, valueText } from '../../src/project/edited-project.ts';
import { projectKey } from '../../src/project/project-key.ts';
import { parseYaml } from '../../src/source/yaml-source.ts';

function changed(text: string, path: string, value: string): string | undefined {
  const parsed = parseYaml({ text, path: 'p.yaml' });
  if (!parsed.ok) throw new Error(parsed.problems[0]!.message);
  const { root } = parsed.value;
  const key = projectKey({ root, path });
  if (!key.ok) throw new Error(key.problems[0]!.message);
  return editedProject({ text, root, key: key.value, value });
}

test.each([
  ['a block', 'supply:\n  voltage: 18 V # rail\n', 'supply.voltage', 'supply:\n  voltage: 9 V # rail\n'],
  ['braces', 'supply: {voltage: 18 V, riseTime: 1 ms}\n', 'supply.voltage', 'supply: {voltage: 9 V, riseTime: 1 ms}\n'],
  ['quotes', 'supply:\n  voltage: "18 V"\n', 'supply.voltage', 'supply:\n  voltage: 9 V\n'],
  ['a byte order mark', '\uFEFFsupply:\n  voltage: 18 V\n', 'supply.voltage', 'supply:\n  voltage: 9 V\n'],
  ['carriage returns', 'supply:\r\n  voltage: 18 V\r\n', 'supply.voltage', 'supply:\r\n  voltage: 9 V\r\n'],
  [
    'a list item',
    'loads:\n  - name: a\n    loadedQ: 3\n  - {name: b.c, loadedQ: 4}\n',
    'loads[1].loadedQ',
    'loads:\n  - name: a\n    loadedQ: 3\n  - {name: b.c, loadedQ: 9 V}\n',
  ],
  [
    'a name with a dot',
    'loads:\n  - name: a\n  - {name: b.c, loadedQ: 4}\n',
    'loads.b.c.loadedQ',
    'loads:\n  - name: a\n  - {name: b.c, loadedQ: 9 V}\n',
  ],
  [
    'a rating with its source',
    'switches:\n  part: {drainVoltage: {value: 200 V, source: memory}}\n',
    'switches.part.drainVoltage',
    'switches:\n  part: {drainVoltage: {value: 9 V, source: memory}}\n',
  ],
  ['a key that is not there', 'supply:\n  riseTime: 1 ms\n', 'supply.voltage', 'supply:\n  voltage: 9 V\n  riseTime: 1 ms\n'],
  ['in braces', 'supply: {riseTime: 1 ms}\n', 'supply.voltage', 'supply: {voltage: 9 V, riseTime: 1 ms}\n'],
  ['in empty braces', 'supply: {}\n', 'supply.voltage', 'supply: {voltage: 9 V}\n'],
  ['under a dash', 'loads:\n  - name: a\n', 'loads[0].power', 'loads:\n  - power: 9 V\n    name: a\n'],
  ['two levels', 'title: x\n', 'environment.ambient', 'environment: {ambient: 9 V}\ntitle: x\n'],
])('a value in %s is replaced and nothing else', (_where, text, path, expected) => {
  expect(changed(text, path, '9 V')).toBe(expected);
});

test('a value over two lines is left alone', () => {
  expect(changed('supply:\n  voltage: "18\n    V"\n', 'supply.voltage', '9 V')).toBeUndefined();
});

test.each([
  [0.05, 'ratio', 'percent', '5 %'],
  [0.1 + 0.2, 'ratio', 'percent', '30 %'],
  [2.1e-6, 'inductance', 'unit', '0.0000021 H'],
  [303.15, 'temperature', 'unit', '303.15 K'],
  [24, 'count', 'number', '24'],
  [1e-9, 'capacitance', 'unit', '1e-9 F'],
] as const)('%d of %s is written as it reads back', (value, dimension, form, text) => {
  expect(valueText({ value, key: { dimension, form } })).toBe(text);
});
