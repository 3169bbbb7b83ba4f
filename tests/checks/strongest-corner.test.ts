import { expect, test } from 'vitest';
import { cornersOf, strongestCorner } from '../../src/driver/corner.ts';
import { operatingPoint } from '../../src/driver/operating-point.ts';
import { timedStart } from '../../src/driver/time-domain/switch-on.ts';
import { usualPair } from '../../src/driver/usual-pair.ts';
import { outcomeWord } from '../driver/outcome-word.ts';
import { designOf, reviewedInTime } from './reviewed.ts';

/** Starts with a small bank, where its drains go highest, and latches with a large one. Invented. */
const text = `tankproof: 1
supply: {voltage: 24 V, tolerance: 5 %, riseTime: 80 us, resistance: 7.51 mohm}
chokes: {arrangement: two, part: choke-200u-13a-iron-powder}
tank:
  coil: {inductance: 7.5 uH, resistance: 1.13 mohm, tolerance: 3 %}
  bank: {part: pp-box-1u-630v, series: 3, parallel: 6}
loads:
  - name: empty
  - {name: load, power: 30 W}
switches: {part: IRF740, heatsink: 6 K/W, insulator: 0.4 K/W}
gates:
  pullUp: {resistance: 680 ohm, power: 5 W}
  pullDown: 10 kohm
  clamp: 1N4742A
  crossDiode: UF4004
environment: {ambient: 30 degC, access: trained}
`;

test('a start that latches with a large bank alone fails, whatever it does with a small one', () => {
  const design = designOf(text);
  const corners = cornersOf(design);
  const outcomeAt = (corner: (typeof corners)[number]): string => {
    const point = operatingPoint({ design, load: design.loads[1]!, corner });
    return outcomeWord(timedStart({ design, point, pair: usualPair(point) }));
  };
  const small = corners.find(({ supply, capacitor, coil }) => supply > 1 && capacitor < 1 && coil < 1)!;
  const strong = strongestCorner(corners);
  expect(strong).toEqual({ supply: 1.05, coil: 1.03, capacitor: 1.1, choke: 1 });
  expect([outcomeAt(small), outcomeAt(strong)]).toEqual(['runs', 'latches']);
  const results = reviewedInTime(text);
  expect(results.get('latch-up')!.verdict).toBe('fail');
  expect(results.get('rise-time')).toMatchObject({ verdict: 'fail' });
});
