import type { Unknown } from '../driver/known.ts';
import { nominalPoint, type OperatingPoint } from '../driver/operating-point.ts';
import type { Pair } from '../driver/time-domain/circuit-of.ts';
import { timedDisturbance, type Disturbance } from '../driver/time-domain/disturbance.ts';
import type { Outcome, TimedEvent } from '../driver/time-domain/outcome.ts';
import { recorder, type Recording } from '../driver/time-domain/recorder.ts';
import { timedStart } from '../driver/time-domain/switch-on.ts';
import { addsLoss, supplyDip } from '../driver/timed-events.ts';
import { usualMismatch } from '../driver/usual-pair.ts';
import type { Design, Load } from '../project/design.ts';
import type { Joule, Ratio, Second, Volt } from '../units/si.ts';

/** An event of the list, with what it came to. */
export interface StartupEvent {
  readonly event: string;
  readonly load: string;
  /** Whether it belongs to the project as it is written; a hot-plug of a driver with a slow supply does not. */
  readonly asWritten: boolean;
  readonly result: TimedEvent | Unknown;
  readonly recording?: Recording;
  /** Where the drains pass V_DSS: the same event with switches that break down there. */
  readonly breakdown?: Breakdown;
}

/** What switches take that break down at their rated voltage. */
export interface Breakdown {
  readonly rated: Volt;
  /** In both switches, all pulses of the event together. */
  readonly energy: Joule;
  /** How long the event was followed. */
  readonly until: Second;
  /** Single pulse, one switch; undefined where the part gives none. */
  readonly singlePulse?: { readonly energy: Joule; readonly source: string };
}

/** How the events are run. */
export interface StartupOptions {
  readonly mismatch?: Ratio;
  /** Threshold and resistance at the junction temperature of the running driver, or at the ambient's. */
  readonly cold?: boolean;
}

const slices = 1200;

/** Every event of a design with every load, at nominal values. */
export function startupEvents({ design, options }: { design: Design; options: StartupOptions }): readonly StartupEvent[] {
  return design.loads.flatMap((load) => eventsOf({ design, load, options }));
}

function eventsOf({ design, load, options }: { design: Design; load: Load; options: StartupOptions }): readonly StartupEvent[] {
  const point = nominalPoint({ design, load });
  const pair = pairOf({ design, point, options });
  const first = point.running === undefined ? 1e-6 : 0.02 / point.running.frequency;
  const recorded = (
    event: string,
    asWritten: boolean,
    run: (how: { see?: ReturnType<typeof recorder>['see']; breakdown?: Volt }) => TimedEvent | Unknown,
  ): StartupEvent => {
    const { see, recording } = recorder({ slices, first });
    const result = run({ see });
    const noted = 'unknown' in result ? {} : { recording: recording({ endedAt: result.at }) };
    const breakdown = 'unknown' in result ? undefined : breakdownOf({ design, peak: result.peaks.drain, run });
    return { event, load: load.name, asWritten, result, ...noted, ...(breakdown === undefined ? {} : { breakdown }) };
  };
  const disturbed = (disturbance: Disturbance, event: string): StartupEvent =>
    recorded(event, true, (how) => timedDisturbance({ design, point, pair, disturbance, ...how }));
  const isLive = (design.supply.riseTime ?? 0) === 0;
  const plugged: Design = {
    ...design,
    supply: { ...design.supply, riseTime: 0 },
    gates: { ...design.gates, pullUp: { ...design.gates.pullUp, hold: false } },
  };
  return [
    recorded('switch-on', true, (how) => timedStart({ design, point, pair, ...how })),
    ...(isLive && !design.gates.pullUp.hold
      ? []
      : [recorded('hot-plug', false, (how) => timedStart({ design: plugged, point, pair, ...how }))]),
    ...(addsLoss(load)
      ? [disturbed({ kind: 'load application' }, 'load application'), disturbed({ kind: 'load removal' }, 'load removal')]
      : []),
    disturbed(supplyDip, `supply drop to ${supplyDip.share * 100} %, ${supplyDip.periods} periods`),
  ];
}

/** An event run again with switches that break down at V_DSS, where its drains pass that. */
function breakdownOf({
  design,
  peak,
  run,
}: {
  design: Design;
  peak: Volt;
  run: (how: { breakdown: Volt }) => TimedEvent | Unknown;
}): Breakdown | undefined {
  const { drainVoltage, avalancheEnergy } = design.switches.mosfet.ratings;
  if (drainVoltage === undefined || peak <= drainVoltage.value) return undefined;
  const broken = run({ breakdown: drainVoltage.value });
  if ('unknown' in broken) return undefined;
  return {
    rated: drainVoltage.value,
    energy: broken.peaks.breakdownEnergy,
    until: broken.at,
    ...(avalancheEnergy === undefined ? {} : { singlePulse: { energy: avalancheEnergy.value, source: avalancheEnergy.source } }),
  };
}

function pairOf({ design, point, options }: { design: Design; point: OperatingPoint; options: StartupOptions }): Pair {
  const ambient = design.environment.ambient ?? 298.15;
  return {
    mismatch: options.mismatch ?? usualMismatch,
    strength: 1,
    junction: options.cold === true ? ambient : (point.running?.electricalJunction ?? ambient),
  };
}

/** Outcome against rise time and supply voltage. */
export interface LatchMap {
  readonly riseTimes: readonly Second[];
  /** Descending, as a chart is read. */
  readonly voltages: readonly number[];
  /** By voltage, then rise time. */
  readonly outcomes: readonly (readonly (Outcome | 'unknown')[])[];
}

/**
 * Which rise times start the driver at which supply voltages, with its heaviest load, held at the resistance that it has at the
 * project's own voltage.
 *
 * @param design     the project
 * @param riseTimes  ascending, in s
 * @param voltages   in V
 * @param options    how it is run
 * @param progress   called after each row with the share that is done
 */
export function latchMap({
  design,
  riseTimes,
  voltages,
  options,
  progress,
}: {
  design: Design;
  riseTimes: readonly Second[];
  voltages: readonly number[];
  options: StartupOptions;
  progress: (share: Ratio) => void;
}): LatchMap {
  const points = design.loads.map((load) => nominalPoint({ design, load }));
  const heaviest = points.reduce((a, b) => (b.tank.parallelResistance < a.tank.parallelResistance ? b : a));
  const { power: _power, ...rest } = heaviest.load;
  const held: Load =
    heaviest.load.power === undefined || heaviest.load.power === 0
      ? heaviest.load
      : { ...rest, parallelResistance: (Math.PI * design.supply.voltage) ** 2 / (2 * heaviest.load.power) };
  const rows = voltages.toSorted((a, b) => b - a);
  const outcomes = rows.map((voltage, i) => {
    const row = riseTimes.map((riseTime): Outcome | 'unknown' => {
      const changed: Design = { ...design, loads: [held], supply: { ...design.supply, voltage, riseTime } };
      const point = nominalPoint({ design: changed, load: held });
      const start = timedStart({ design: changed, point, pair: pairOf({ design: changed, point, options }) });
      return 'unknown' in start ? 'unknown' : start.outcome;
    });
    progress((i + 1) / rows.length);
    return row;
  });
  return { riseTimes, voltages: rows, outcomes };
}
