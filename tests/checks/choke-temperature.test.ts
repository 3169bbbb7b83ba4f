import { expect, test } from 'vitest';
import { edited, measuredPad, reviewed } from './reviewed.ts';

const withLoss = (coreLoss: string): string =>
  edited(measuredPad, [
    'part: choke-100u-10a-sendust',
    `inductance: 100 uH\n  resistance: 16 mohm\n  coreLoss: ${coreLoss}\n  thermalResistance: 20 K/W\n  maxTemperature: 125 degC`,
  ]);

test('a core loss without its conditions is answered with the form to write, which is then accepted', () => {
  const bare = reviewed(withLoss('2 W')).get('choke-temperature')!;
  expect(bare.verdict).toBe('not assessed');
  const [, form = ''] = /write coreLoss: (\{value: 2 W, at: \{.*?\}\})/.exec(bare.reason ?? '') ?? [];
  expect(form).toMatch(/supplyVoltage: 18 V, frequency: [\d.]+ kHz/);
  expect(reviewed(withLoss(form)).get('choke-temperature')!.verdict).toBe('pass');
});
