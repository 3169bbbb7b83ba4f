import { describe, expect, test } from 'vitest';
import { edited, example, measuredPad, reviewed } from './reviewed.ts';

/** The first number with this unit in a remedy. */
function named(remedy: string, unit: string): string {
  const found = new RegExp(`([\\d.]+ ${unit})(?![A-Za-z/])`).exec(remedy)?.[1];
  if (found === undefined) throw new Error(`no ${unit} in "${remedy}"`);
  return found;
}

describe('a remedy, written into the file, is one', () => {
  const lamp = example('live-rail-lamp');
  const surge = (text: string): string => reviewed(text).get('switch-surge-voltage')!.verdict;
  const remedy = reviewed(lamp).get('switch-surge-voltage')!.remedy!;

  test('a slower rise of the supply', () => {
    expect(surge(lamp)).toBe('fail');
    expect(surge(edited(lamp, ['riseTime: 0 s', `riseTime: ${named(remedy, 'µs')}`]))).toBe('pass');
  });
  test('a lower supply voltage', () => {
    expect(surge(edited(lamp, ['voltage: 36 V', `voltage: ${named(remedy.replace(/rated [\d.]+ V/, ''), 'V')}`]))).toBe('pass');
  });

  const pad = measuredPad;
  test('a smaller pull-up', () => {
    const slow = edited(pad, ['resistance: 220 ohm', 'resistance: 470 ohm']);
    const result = reviewed(slow).get('gate-rise-time')!;
    const resistance = named(result.remedy!, 'Ω');
    expect(reviewed(edited(slow, ['resistance: 470 ohm', `resistance: ${resistance}`])).get('gate-rise-time')!.verdict).toBe('pass');
  });
  test('a resistor of more power', () => {
    const weak = edited(pad, ['power: 2 W', 'power: 500 mW']);
    const power = named(reviewed(weak).get('pull-up-power')!.remedy!, 'm?W');
    expect(['pass', 'warn']).toContain(reviewed(edited(weak, ['power: 500 mW', `power: ${power}`])).get('pull-up-power')!.verdict);
  });
  test('a better heatsink', () => {
    const hot = edited(pad, ['heatsink: 8 K/W', 'heatsink: 200 K/W']);
    const heatsink = named(reviewed(hot).get('switch-temperature')!.remedy!, 'K/W');
    expect(reviewed(edited(hot, ['heatsink: 200 K/W', `heatsink: ${heatsink}`])).get('switch-temperature')!.verdict).toBe('pass');
  });
  test('a stronger supply', () => {
    const weak = edited(pad, ['currentLimit: 5 A', 'currentLimit: 2 A']);
    const current = named(reviewed(weak).get('supply-current')!.remedy!, 'A');
    expect(['pass', 'warn']).toContain(
      reviewed(edited(weak, ['currentLimit: 2 A', `currentLimit: ${current}`])).get('supply-current')!.verdict,
    );
  });
});
