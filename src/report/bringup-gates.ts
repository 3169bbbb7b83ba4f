import { isKnown, type Maybe } from '../driver/known.ts';
import type { BringupCard } from '../studies/bringup/card.ts';
import type { GateTest } from '../studies/bringup/gate-test.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';

const text = (value: number, dimension: Dimension): string => formatQuantity({ value, dimension });
const maybe = (value: Maybe, dimension: Dimension): string => (isKnown(value) ? text(value, dimension) : `not assessed (${value.unknown})`);

/** A resistor stands so many times its rated power for a few seconds: common practice, no source. */
const forSeconds = 4;

/** The test of the gates without the power stage, in steps. */
export function gateItems({ gates }: BringupCard): readonly string[] {
  const { feed, onSupply, limit, tied, beside, hold } = gates;
  const where = onSupply
    ? `Take the chokes off supply +, put ${text(feed, 'voltage')} on the pull-ups alone`
    : `Supply off, its terminals open; put ${text(feed, 'voltage')} on the gate rail`;
  return [
    `${where}, limit ${text(limit, 'current')}${hold ? '; release what holds the gates low' : ''}. ${heatWords(gates)}`,
    freedWords(gates),
    `Diodes back: both gates hang at their thresholds, ${maybe(tied.low, 'voltage')} to ${maybe(tied.high, 'voltage')}, since each lifts the drains until the switches take the current. One gate high and the other at ${maybe(beside, 'voltage')}: the diode of the high one is open. One at zero: its pull-up is open, or its clamp or gate shorted.`,
  ];
}

function heatWords({ pullUp, clamp }: GateTest): string {
  const parts = [
    { name: 'a pull-up', power: pullUp.power as Maybe, rated: pullUp.rated },
    ...(clamp === undefined ? [] : [{ name: 'a clamp', power: clamp.power, rated: clamp.rated }]),
  ];
  const words = parts.map(
    ({ name, power, rated }) =>
      `${name} ${maybe(power, 'power')}${rated === undefined ? ' (rating not given)' : ` of ${text(rated, 'power')}`}`,
  );
  const shares = parts.map(({ power, rated }) => (isKnown(power) && rated !== undefined ? power / rated : Infinity));
  const worst = Math.max(...shares);
  const verdict =
    worst <= 1
      ? ''
      : worst <= forSeconds || worst === Infinity
        ? '; a few seconds only'
        : '; too much even for seconds: leave this test out';
  return `Steady on a standing gate: ${words.join(', ')}${verdict}.`;
}

function freedWords({ freed, clamp, gateRated }: GateTest): string {
  const highest = isKnown(freed.high) ? freed.high : Infinity;
  if (gateRated !== undefined && highest > gateRated)
    return `Leave the cross diodes in: a free gate goes to ${maybe(freed.high, 'voltage')}, past the ${text(gateRated, 'voltage')} it is rated for.`;
  const begin = `Cross diodes lifted at one end: each gate ${text(freed.value, 'voltage')}`;
  if (clamp === undefined) return `${begin}; there is no clamp. Higher: pull-down open. Lower: pull-up too large, or the gate leaks.`;
  if (highest - freed.low < 1e-6)
    return `${begin}, below the clamp, which this does not test. Higher: pull-down open. Lower: pull-up too large, or gate or clamp leaks.`;
  const range = `${begin}, from ${text(freed.low, 'voltage')} to ${maybe(freed.high, 'voltage')} with the tolerance of the clamp.`;
  const higher =
    highest < freed.unclamped - 1e-6 ? 'Higher: clamp open.' : 'It comes no higher with an open clamp, which this does not show.';
  return `${range} ${higher} Lower: pull-up too large, or the wrong clamp.`;
}
