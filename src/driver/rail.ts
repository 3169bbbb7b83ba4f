import { envelopePeaks, type EnvelopePeaks } from '../physics/envelope-peaks.ts';
import type { EnvelopeCircuit, EnvelopeState } from '../physics/envelope.ts';
import { fedEnvelopePeaks, widestSpread } from '../physics/fed-envelope.ts';
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
  if (feed === undefined) return false;
  const { envelope, rail } = naturalPeriods({ circuit, feed });
  return !(rail <= widestSpread * envelope);
}

/** The rail before a transient. */
export type RailBefore =
  /** From nothing, with this rise time of the supply. */
  | { readonly kind: 'off'; readonly riseTime: Second }
  /** Up and carrying the envelope's current. */
  | { readonly kind: 'up' };

/**
 * Peaks of tank and chokes at a transient, with what leads and bulk capacitor do to the rail.
 *
 * @param design   the project
 * @param circuit  tank and chokes; r without source and leads
 * @param initial  I in A, Vt in V
 * @param voltage  V of the supply, in V
 * @param before   what the rail was
 * @returns peaks; where the rail moves much more slowly or more quickly than the envelope, of bounds that are easier to follow
 */
export function peaksOnRail({
  design,
  circuit,
  initial,
  voltage,
  before,
}: {
  design: Design;
  circuit: EnvelopeCircuit;
  initial: EnvelopeState;
  voltage: Volt;
  before: RailBefore;
}): EnvelopePeaks {
  const feed = railFeedOf(design);
  const riseTime = before.kind === 'off' ? before.riseTime : 0;
  const { resistance = 0, leadInductance = 0 } = design.supply;
  const unbuffered = {
    ...circuit,
    chokeInductance: circuit.chokeInductance + leadInductance,
    dropResistance: circuit.dropResistance + resistance,
  };
  const from = before.kind === 'off' ? 0 : voltage;
  const source = { from, to: voltage, time: riseTime };
  if (feed === undefined) return envelopePeaks({ circuit: unbuffered, initial, rail: source });
  const periods = naturalPeriods({ circuit, feed });
  // a bulk capacitor too small to count leaves source and leads in series with the chokes
  if (periods.rail * widestSpread < periods.envelope) return envelopePeaks({ circuit: unbuffered, initial, rail: source });
  if (!isRailSlow({ design, circuit })) {
    const rail = before.kind === 'off' ? 0 : voltage - initial.current * resistance;
    return fedEnvelopePeaks({ circuit, feed, initial: { ...initial, rail, leadCurrent: initial.current }, source });
  }
  if (before.kind === 'up') return envelopePeaks({ circuit, initial, rail: source });
  const to = voltage * railOvershootRatio({ feed, riseTime });
  return envelopePeaks({ circuit, initial, rail: { from: 0, to, time: Math.max(riseTime, railRiseTime(feed)) } });
}
