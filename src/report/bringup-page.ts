import type { Result } from '../checks/result.ts';
import type { BringupCard } from '../studies/bringup/card.ts';
import type { MeterCheck } from '../studies/bringup/meter.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { gateItems } from './bringup-gates.ts';
import { stepBlocks } from './bringup-steps.ts';
import type { Block, Page } from './page.ts';

const text = (value: number, dimension: Dimension): string => formatQuantity({ value, dimension });
const volt = (value: number): string => text(value, 'voltage');
const ampere = (value: number): string => text(value, 'current');

/** The card of a first power-up as a page. */
export function bringupPage({ file, title, card }: { file: string; title: string; card: BringupCard }): Page {
  return {
    title: `First power-up: ${title} (${file})`,
    blocks: [
      headOf(card),
      { kind: 'heading', text: 'Cautions' },
      { kind: 'list', items: card.cautions },
      { kind: 'heading', text: '1. Dead circuit: supply and gate rail disconnected, capacitors discharged' },
      {
        kind: 'table',
        caption: 'everything fitted unless said otherwise; resistors ±5 %, leads of the meter up to 0.5 Ω (common practice)',
        columns: ['between', 'range', 'expect', 'remark', 'read'],
        rows: card.meter.map(meterRow),
      },
      { kind: 'heading', text: '2. Gates alone' },
      { kind: 'list', items: gateItems(card) },
      { kind: 'heading', text: '3. Supply, lamp, fuse' },
      { kind: 'list', items: supplyItems(card) },
      { kind: 'heading', text: '4. Probes' },
      { kind: 'list', items: probeItems(card) },
      ...stepBlocks(card),
    ],
  };
}

/** So many reasons are printed in full; more are a matter of the review. */
const mostReasons = 8;

function headOf({ blockers, warnings }: BringupCard): Block {
  const of = (verdict: Result['verdict']): readonly Result[] => blockers.filter((result) => result.verdict === verdict);
  const [failed, missing] = [of('fail'), of('not assessed')];
  const warned = warnings.map(({ id }) => id).join(', ');
  if (blockers.length === 0) {
    const words = 'Every check passes or warns, none is left unassessed; this card holds for the project as it is written.';
    return { kind: 'paragraph', text: warned === '' ? words : `${words} Warnings: ${warned}.` };
  }
  const counts = [
    ...(failed.length > 0 ? [`${failed.length} failed`] : []),
    ...(missing.length > 0 ? [`${missing.length} not assessed`] : []),
  ];
  const names = (results: readonly Result[]): string => results.map(({ id }) => id).join(', ');
  return {
    kind: 'alert',
    text: `DO NOT POWER UP: ${counts.join(', ')}. Settle these first, then print the card anew.`,
    items:
      blockers.length <= mostReasons
        ? blockers.map(reasonOf)
        : [
            ...(failed.length > 0 ? [`fail: ${names(failed)}`] : []),
            ...(missing.length > 0 ? [`not assessed: ${names(missing)}`] : []),
            'reasons and remedies: tankproof check',
          ],
  };
}

function reasonOf({ id, verdict, value, limit, dimension, reason }: Result): string {
  return `${id}: ${verdict}, ${reason ?? `${value === null ? '' : text(value, dimension)} against ${limit === null ? '' : text(limit, dimension)}`}`;
}

function meterRow({ between, range, expect, note }: MeterCheck): readonly string[] {
  if (expect === 'open') return [between, range, 'open', note, ''];
  const { low, high, dimension } = expect;
  return [between, range, low === 0 ? `below ${text(high, dimension)}` : `${text(low, dimension)} to ${text(high, dimension)}`, note, ''];
}

function supplyItems({ supply, lamp, fuse, loads }: BringupCard): readonly string[] {
  const { voltage, limit, startPeak, running, own, isShort, risesWithGates } = supply;
  const peak = startPeak === undefined ? 'The start is not assessed' : `The chokes take up to ${ampere(startPeak)} at the start`;
  return [
    `Set ${volt(voltage)} at the last step, current limit ${ampere(limit)}. ${peak}, running up to ${ampere(running)} (worst corner); wanted is the start's peak or 1.2 times the running current, whichever is more${
      own === undefined ? '' : `; the project's supply gives ${ampere(own)}`
    }${isShort ? ', which is less: see supply-current and latch-up' : ''}. A supply that sits at its limit means latched: switch off at once.`,
    `Switch the output on at the set voltage; never turn the voltage up on a driver that is connected${risesWithGates ? ': the gates hang on the supply, and a rail that creeps keeps both switches half on' : ''}.`,
    'none' in lamp
      ? `Series lamp: none, set the limit instead; ${lamp.none}.`
      : `Only where the supply has no limit to set: a lamp in series for a first start at ${volt(voltage)}, ${loads.idle.name}: ${lamp.lamps > 1 ? `${lamp.lamps} in series of ` : ''}${volt(lamp.ratedVoltage)} ${text(lamp.ratedPower, 'power')}; cold ${text(lamp.cold, 'resistance')}, hot ${text(lamp.hot, 'resistance')} (hot is 12 times cold, common practice); the driver keeps ${volt(lamp.rail)}, latched it passes ${ampere(lamp.latched)} and lights up. Take it out before any load.`,
    fuse === undefined
      ? 'Fuse: none of the usual series is large enough.'
      : `Fuse: ${ampere(fuse)} slow in the plus lead, next to the supply (1.5 times the highest running current and up, common practice). It protects leads, not switches.`,
  ];
}

function probeItems({ probe: { highest, acrossTank, frequency } }: BringupCard): readonly string[] {
  return [
    `Drains go to ${volt(highest)} at worst (start, load put on or off, worst corner) at ${text(frequency, 'frequency')}: a 10:1 probe must be rated for that or more at this frequency (many are for 300 to 600 V and less above some MHz; from memory, read yours), and its channel shows ${volt(highest / 10)}${highest > 300 ? '; take a 100:1 probe' : ''}.`,
    `Tip on a drain, clip on the source of the same switch, with the supply floating. An earthed clip never goes on a drain or across the coil: it shorts the driver to earth. The tank, ${volt(acrossTank)} peak either way, is read with two probes and A − B, or a differential probe.`,
    'One earth only: if supply minus is earthed, that clip is enough; two clips at two places make a loop through the scope. Short ground spring instead of the lead, away from the coil: the field induces volts in a loop. Never lift the earth of the scope.',
  ];
}
