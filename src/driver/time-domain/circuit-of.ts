import type { Design } from '../../project/design.ts';
import type { Kelvin, Ohm, Ratio, Second, Volt } from '../../units/si.ts';
import { isKnown, type Unknown } from '../known.ts';
import { addedResistance, type OperatingPoint } from '../operating-point.ts';
import { switchModelOf } from '../switch-model.ts';
import { capacitancesOf } from './capacitances-of.ts';
import type { ChannelValues, Circuit } from './circuit.ts';

/** How the pair of switches is taken: their difference, their strength and how warm they are. */
export interface Pair {
  /** Threshold of A over that of B, less one. */
  readonly mismatch: Ratio;
  /** Multiplies K. */
  readonly strength: Ratio;
  readonly junction: Kelvin;
}

/** What happens to the load during a run. */
export interface LoadEvent {
  readonly at: Second;
  /** The load that follows, across the tank; Infinity for none. */
  readonly resistance: Ohm;
}

/** Slope of a 1 A class rectifier, per natural decade of current; of a body diode: class. */
const crossEmission = 0.046;
const bodyEmission = 0.039;
/** Drop of a body diode at 1 A: class. */
const bodyDrop = 0.75;
/** Smallest part of an on-resistance that lies outside the channel. */
const leastSeries = 0.05;
/** Resistance that a source adds past its current limit, over V/I: it gives way within a tenth of the limit. */
const limitSlope = 10;

/**
 * The circuit of a design with one load at one corner.
 *
 * @param design     the project
 * @param point      load, corner and tank
 * @param pair       how the switches are taken
 * @param loadEvent  what happens to the load
 * @param breakdown  drain voltage that breaks down, in V; the drains rise without bound if left out
 * @returns SI values; unknown where a rating is missing
 */
export function circuitOf({
  design,
  point,
  pair,
  loadEvent,
  breakdown,
}: {
  design: Design;
  point: OperatingPoint;
  pair: Pair;
  loadEvent?: LoadEvent;
  breakdown?: Volt | undefined;
}): Circuit | Unknown {
  const { supply, gates, chokes } = design;
  const switches = switchesOf({ design, pair });
  if ('unknown' in switches) return switches;
  const capacitances = capacitancesOf(design);
  if ('unknown' in capacitances) return capacitances;
  const crossDiode = crossDiodeOf(design);
  if ('unknown' in crossDiode) return crossDiode;
  const voltage = supply.voltage * point.corner.supply;
  const { bulkCapacitance, leadInductance, currentLimit, resistance = 0 } = supply;
  const load = loadOf({ design, point });
  const { clamp } = gates;
  const clampVoltage = clamp?.ratings.zenerVoltage?.value;
  return {
    arrangement: chokes.arrangement,
    supply: {
      voltage,
      riseTime: gates.pullUp.hold ? 0 : (supply.riseTime ?? 0),
      rising: 0,
      resistance,
      ...(bulkCapacitance === undefined
        ? {}
        : { buffer: { capacitance: bulkCapacitance, inductance: Math.max(leadInductance ?? 0, 1e-9) } }),
      // one that folds back or switches off is run without: what comes of its limit is not known, see withinLimit
      ...(currentLimit?.kind === 'constant'
        ? { limit: { current: currentLimit.current, resistance: (limitSlope * voltage) / currentLimit.current } }
        : {}),
    },
    choke: { inductance: point.tank.chokeInductance, resistance: chokes.choke.ratings.resistance?.value ?? 0 },
    tank: {
      inductance: point.tank.inductance,
      coilResistance: point.tank.coilResistance,
      capacitance: point.tank.capacitance,
      load,
      loadAfter: loadEvent?.resistance ?? load,
      changesAt: loadEvent?.at ?? Number.MAX_VALUE,
    },
    switches,
    capacitances,
    ...(breakdown === undefined ? {} : { breakdown }),
    bodyDiode: { saturation: Math.exp(-bodyDrop / bodyEmission), emission: bodyEmission, slope: 0.012 },
    gates: {
      pullUp: gates.pullUp.resistance,
      pullDown: gates.pullDown ?? Infinity,
      releasedAt: 0,
      crossDiode,
      ...(gates.pullUp.from === 'supply' ? {} : { rail: gates.pullUp.from }),
      ...(clampVoltage === undefined ? {} : { clamp: { voltage: clampVoltage, resistance: clamp?.ratings.impedance?.value ?? 10 } }),
    },
  };
}

/** The load alone: coil loss is in the coil, bank loss is left out, since its figure is a maximum. */
function loadOf({ design, point }: { design: Design; point: OperatingPoint }): Ohm {
  const added = addedResistance({ design, load: point.load });
  return Number.isFinite(added) ? added : 1e9 * Math.max(1, point.tank.impedance);
}

function switchesOf({ design, pair }: { design: Design; pair: Pair }): readonly [ChannelValues, ChannelValues] | Unknown {
  const model = switchModelOf(design);
  const gateVoltage = design.switches.mosfet.ratings.onResistance?.at?.['gateVoltage'];
  const on = model.onResistance(pair.junction);
  const threshold = model.thresholdTypical(pair.junction);
  const { channelConstant } = model;
  if (!isKnown(on)) return on;
  if (!isKnown(threshold)) return threshold;
  if (!isKnown(channelConstant)) return channelConstant;
  if (gateVoltage === undefined || gateVoltage <= threshold) return { unknown: 'at which gate voltage onResistance holds is not known' };
  // K and series resistance together give the on-resistance exactly
  const least = 1 / ((1 - leastSeries) * on * (gateVoltage - threshold));
  const constant = Math.max(channelConstant * pair.strength, least);
  const series = on - 1 / (constant * (gateVoltage - threshold));
  const channel = (side: 1 | -1): ChannelValues => ({ constant, series, threshold: threshold * (1 + (side * pair.mismatch) / 2) });
  return [channel(1), channel(-1)];
}

function crossDiodeOf({ gates: { crossDiode } }: Design): Circuit['gates']['crossDiode'] | Unknown {
  const forward = crossDiode.ratings.forwardVoltage;
  const stated = forward?.at?.['forwardCurrent'];
  if (forward === undefined || stated === undefined) return { unknown: `${crossDiode.name} gives no forwardVoltage with its current` };
  return { saturation: stated * Math.exp(-forward.value / crossEmission), emission: crossEmission, slope: 0.05 };
}
