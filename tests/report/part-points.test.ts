import { expect, test } from 'vitest';
import { readPart } from '../../src/parts/read-part.ts';
import { partJson, partText } from '../../src/report/part-text.ts';

const outcome = readPart({
  text: 'tankproofPart: 1\nkind: mosfets\noutputCapacitance: {source: class, 25 V: 300 pF, 0 V: 2 nF}\ngateCharge: 60 nC\n',
  path: 'p.yaml',
  kind: 'mosfets',
  name: 'p',
});
if (!outcome.ok) throw new Error('the part is not read');
const part = outcome.value;

test('a rating over drain voltage is shown point by point, in the place of its key', () => {
  const lines = partText({ part, path: 'p.yaml', width: 80 }).split('\n');
  expect(lines.filter((line) => /Capacitance|gateCharge/.test(line))).toEqual([
    '  outputCapacitance at 0 V     2 nF  class',
    '  outputCapacitance at 25 V  300 pF  class',
    '  gateCharge                  60 nC  project',
  ]);
});

test('in JSON each point has its drain voltage', () => {
  expect(partJson({ part, path: 'p.yaml' })).toMatchObject({
    ratings: [
      { key: 'outputCapacitance', value: 2e-9, unit: 'F', source: 'class', at: { drainVoltage: 0 } },
      { key: 'outputCapacitance', value: 3e-10, unit: 'F', source: 'class', at: { drainVoltage: 25 } },
      { key: 'gateCharge' },
    ],
  });
});
