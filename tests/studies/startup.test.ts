import { describe, expect, test } from 'vitest';
import { startupJson, startupText } from '../../src/report/startup-text.ts';
import { startupEvents, type StartupEvent } from '../../src/studies/startup.ts';
import { designOf, edited, example } from '../checks/reviewed.ts';

const eventsOf = (text: string): readonly StartupEvent[] => startupEvents({ design: designOf(text), options: {} });

describe('an event whose drains pass V_DSS is run again with switches that break down there', () => {
  const lamp = example('live-rail-lamp');
  const events = eventsOf(lamp);
  const [first] = events;

  test('and takes what the tank has above V_DSS: ½·C·(V² − V_DSS²), a sixth apart for what the chokes add and the load takes', () => {
    if (first === undefined || 'unknown' in first.result) throw new Error('no start');
    const { drain } = first.result.peaks;
    expect(drain).toBeGreaterThan(200);
    expect(first.breakdown).toMatchObject({ rated: 200, singlePulse: { energy: 0.315, source: 'data sheet' } });
    const above = 0.5 * 14 * 100e-9 * (drain ** 2 - 200 ** 2);
    expect(Math.abs(first.breakdown!.energy / above - 1)).toBeLessThan(1 / 6);
  });
  test('no other event is', () => {
    for (const { result, breakdown } of events) expect(breakdown !== undefined).toBe(!('unknown' in result) && result.peaks.drain > 200);
    expect(events.some(({ breakdown }) => breakdown === undefined)).toBe(true);
  });
  test('it is told beside the single-pulse rating, with where that comes from', () => {
    const text = startupText({ file: 'a', title: 'b', events, width: 400 });
    expect(text).toMatch(
      /past V_DSS: switches that break down at 200 V take 3\.3 mJ within 1\.7 ms, within the single-pulse rating of 315 mJ \(data sheet\)/,
    );
  });
  test('the document has it there alone: the peaks are those of drains that rise without bound', () => {
    const document = JSON.parse(JSON.stringify(startupJson({ file: 'a', title: 'b', events, version: '1.2.3' }))) as {
      events: { peaks: object; breakdown?: { energy: number } }[];
    };
    expect(document.events[0]!.breakdown!.energy).toBe(first!.breakdown!.energy);
    for (const { peaks } of document.events) expect(peaks).not.toHaveProperty('breakdownEnergy');
  });
  test('a supply above V_DSS ends in finite numbers', () => {
    const weak = edited(lamp, ['voltage: 36 V', 'voltage: 80 V'], ['  part: IRFP250N', '  part: IRFZ44N']);
    for (const { result, breakdown } of eventsOf(weak)) {
      if ('unknown' in result) continue;
      expect(breakdown!.rated).toBe(55);
      expect(Number.isFinite(breakdown!.energy)).toBe(true);
    }
  });
});
