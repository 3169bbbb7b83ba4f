import { envelopePeaks, type EnvelopePeaks } from '../physics/envelope-peaks.ts';
import type { EnvelopeCircuit, EnvelopeState, RailRamp } from '../physics/envelope.ts';
import { fedEnvelope, widestSpread } from '../physics/fed-envelope.ts';
import { naturalPeriods } from '../physics/natural-periods.ts';
import { railOvershootRatio, railRiseTime, type RailFeed } from '../physics/rail-ringing.ts';
import type { Design } from '../project/design.ts';
import type { Ratio, Second, Volt } from '../units/si.ts';

/** Source and leads in front of the bulk capacitor; undefined where the project gives no bulk capacitor or nothing in front of it. */
export function railFeedOf({ supply: { bulkCapacitance, leadInductance = 0, resistance = 0 } }: Design): RailFeed | undefined {
  if (bulkCapacitance === undefined || (leadInductance === 0 && resistance === 0)) return undefined;
  return { bulkCapacitance, leadInductance, resistance };
}

/** Highest rail over the supply's voltage when it is switched on: leads and bulk capacitor ring. 1 where they are not given. */
export function railPeakRatio(design: Design): Ratio {
  const feed = railFeedOf(design);
  return feed === undefined ? 1 : railOvershootRatio({ feed, riseTime: design.supply.riseTime ?? 0 });
}

/** Rise of the rail at the driver: the supply's own, or what leads and bulk capacitor make of a faster one. */
export function riseAtDriver(design: Design): Second {
  const feed = railFeedOf(design);
  return Math.max(design.supply.riseTime ?? 0, feed === undefined ? 0 : railRiseTime(feed));
}

/** Whether the rail moves so much more slowly than the envelope that they are not followed together. */
export function isRailSlow({ design, circuit }: { design: Design; circuit: EnvelopeCircuit }): boolean {
  const feed = railFeedOf(design);
  return feed !== undefined && isSlow(naturalPeriods({ circuit, feed }));
}

function isSlow({ envelope, rail }: { envelope: Second; rail: Second }): boolean {
  return !(rail <= widestSpread * envelope);
}

/** The rail before a transient. */
export type RailBefore =
  /** From nothing, with this rise time of the supply. */
  | { readonly kind: 'off'; readonly riseTime: Second }
  /** Up and carrying the envelope's current. */
  | { readonly kind: 'up' };

/** State of tank and chokes before a transient, the supply's voltage and what the rail was. */
export interface RailTransient {
  /** I in A, Vt in V. */
  readonly initial: EnvelopeState;
  /** V of the supply, in V. */
  readonly voltage: Volt;
  readonly before: RailBefore;
}

/**
 * Peaks of tank and chokes at a transient, with what leads and bulk capacitor do to the rail.
 *
 * @param design   the project
 * @param circuit  tank and chokes; r without source and leads
 * @returns a function of the transient: its peaks; where the rail moves much more slowly or more quickly than the envelope, of bounds
 *          that are easier to follow
 */
export function peaksOnRail({ design, circuit }: { design: Design; circuit: EnvelopeCircuit }): (of: RailTransient) => EnvelopePeaks {
  const feed = railFeedOf(design);
  const { resistance = 0, leadInductance = 0 } = design.supply;
  const periods = feed === undefined ? undefined : naturalPeriods({ circuit, feed });
  // a bulk capacitor too small to count leaves source and leads in series with the chokes
  if (feed === undefined || periods === undefined || periods.rail * widestSpread < periods.envelope) {
    const unbuffered = {
      ...circuit,
      chokeInductance: circuit.chokeInductance + leadInductance,
      dropResistance: circuit.dropResistance + resistance,
    };
    return ({ initial, voltage, before }) => envelopePeaks({ circuit: unbuffered, initial, rail: sourceOf({ voltage, before }) });
  }
  if (!isSlow(periods)) {
    const follow = fedEnvelope({ circuit, feed });
    return ({ initial, voltage, before }) => {
      const rail = before.kind === 'off' ? 0 : voltage - initial.current * resistance;
      const { current } = initial;
      return follow({ initial: { leadCurrent: current, rail, current, voltage: initial.voltage }, source: sourceOf({ voltage, before }) });
    };
  }
  return ({ initial, voltage, before }) => {
    if (before.kind === 'up') return envelopePeaks({ circuit, initial, rail: sourceOf({ voltage, before }) });
    const { riseTime } = before;
    const to = voltage * railOvershootRatio({ feed, riseTime });
    return envelopePeaks({ circuit, initial, rail: { from: 0, to, time: Math.max(riseTime, railRiseTime(feed)) } });
  };
}

function sourceOf({ voltage, before }: { voltage: Volt; before: RailBefore }): RailRamp {
  return before.kind === 'off' ? { from: 0, to: voltage, time: before.riseTime } : { from: voltage, to: voltage, time: 0 };
}
