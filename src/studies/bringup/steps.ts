import { drawnCurrent } from '../../checks/drawn-current.ts';
import type { Result } from '../../checks/result.ts';
import type { Analysis } from '../../driver/analysis.ts';
import type { WarmCoil } from '../../driver/coil-heat.ts';
import { cornersOf, nominalCorner } from '../../driver/corner.ts';
import { isKnown, type Maybe, type Unknown } from '../../driver/known.ts';
import { nominalPoint, operatingPoint, type OperatingPoint } from '../../driver/operating-point.ts';
import { settledStart, type SettledStart } from '../../driver/settled-start.ts';
import { timedDisturbance } from '../../driver/time-domain/disturbance.ts';
import type { TimedEvent } from '../../driver/time-domain/outcome.ts';
import { usualPair } from '../../driver/usual-pair.ts';
import type { Design, Load } from '../../project/design.ts';
import type { Ampere, Hertz, Kelvin, Ratio, Volt } from '../../units/si.ts';
import { junctionOverCase, predictedReadings, type PredictedReadings } from '../predicted-readings.ts';
import { atVoltage, type ReadingLoads } from '../reading-loads.ts';

/** Shares of the supply voltage that a first power-up goes through: common practice. */
export const stepShares: readonly Ratio[] = [0.4, 0.6, 0.8, 1];

/** Readings beyond which to switch off; undefined where nothing to tell it by is known. */
export interface AbortLimits {
  readonly frequencyBelow: Hertz;
  readonly frequencyAbove: Hertz;
  readonly idleAbove: Ampere;
  readonly loadedAbove?: Ampere;
  readonly drainAbove: Volt;
  readonly surgeAbove?: Volt;
  readonly gateBelow?: Volt;
  readonly gateAbove?: Volt;
  readonly capacitorAbove?: Kelvin;
  readonly switchAbove?: Kelvin;
  readonly coilAbove?: Kelvin;
}

/** One voltage of a first power-up. */
export interface VoltageStep {
  readonly share: Ratio;
  readonly voltage: Volt;
  /** Why it is left out. */
  readonly leftOut?: string;
  /** With nothing near the coil. */
  readonly idle: PredictedReadings;
  /** With the heaviest load. */
  readonly loaded?: PredictedReadings;
  /** Highest drain voltage of the start; of the load put on and taken away; why not where it does not keep running. */
  readonly startPeak: Maybe;
  readonly insertionPeak?: Maybe;
  readonly removalPeak?: Maybe;
  readonly abort: AbortLimits;
  /** Expected readings that lie beyond their limit already: the step is not for this driver. */
  readonly past: readonly string[];
}

/** Beyond the corners of the tolerances: the loss is not known that well, and a meter adds its own error. */
export const beyondCorners = { frequency: 0.05, idle: 2, loaded: 1.25, drain: 1.1, surge: 1.25 } as const;

/** Every step of a first power-up, those at which the driver does not start without load left out with the reason. */
export function voltageSteps({
  analysis,
  results,
  loads,
  limit,
}: {
  analysis: Analysis;
  results: readonly Result[];
  loads: ReadingLoads;
  limit: Ampere;
}): readonly VoltageStep[] {
  return stepShares.map((share): VoltageStep => {
    const { idle, loaded } = loads;
    const design = atVoltage({
      design: analysis.design,
      voltage: share * analysis.design.supply.voltage,
      loads: loaded === undefined ? [idle] : [idle, loaded],
    });
    const start = startAt({ design, load: idle });
    const reviewed = share === 1 ? wholeStart({ analysis, idle }) : undefined;
    const pointOf = (load: Load): OperatingPoint => nominalPoint({ design, load });
    const at = (load: Load): PredictedReadings => predictedReadings({ design, pointOf, idle, loaded, at: load });
    const why = whyNot(start) ?? (reviewed === undefined ? undefined : whyNot(reviewed));
    const events = loaded === undefined || why !== undefined ? {} : loadEvents({ design, load: loaded });
    const startPeak: Maybe = 'unknown' in start ? start : (start.transient?.drainPeak ?? { unknown: 'it does not start' });
    const peaks = [startPeak, events.insertionPeak, events.removalPeak].filter((peak) => typeof peak === 'number');
    const [whenIdle, whenLoaded] = [at(idle), loaded === undefined ? undefined : at(loaded)];
    const abort = abortLimits({ design, results, loads, limit, peaks });
    return {
      share,
      voltage: design.supply.voltage,
      ...(why === undefined ? {} : { leftOut: why }),
      idle: whenIdle,
      ...(whenLoaded === undefined ? {} : { loaded: whenLoaded }),
      startPeak,
      ...events,
      abort,
      past: pastLimits({ idle: whenIdle, loaded: whenLoaded, coil: pointOf(loaded ?? idle).coil, abort, peaks }),
    };
  });
}

function pastLimits({
  idle,
  loaded = idle,
  coil,
  abort,
  peaks,
}: {
  idle: PredictedReadings;
  loaded: PredictedReadings | undefined;
  coil: WarmCoil;
  abort: AbortLimits;
  peaks: readonly Volt[];
}): readonly string[] {
  const compared: readonly (readonly [string, Maybe, number | undefined])[] = [
    ['supply current idle', idle.supplyCurrentIdle, abort.idleAbove],
    ['supply current loaded', idle.supplyCurrentLoaded, abort.loadedAbove],
    ['drain peak running', idle.drainPeak, abort.drainAbove],
    ['drain peak at start or load', Math.max(0, ...peaks), abort.surgeAbove],
    ['gate high', idle.gateHigh, abort.gateAbove],
    ['capacitor', loaded.capacitorTemperature, abort.capacitorAbove],
    ['switch case', loaded.switchTemperature, abort.switchAbove],
    // one that settles at no temperature is expected at none, and past every limit
    ['coil', coil.temperature, abort.coilAbove],
  ];
  return compared.flatMap(([name, value, limit]) => (limit !== undefined && isKnown(value) && value >= limit ? [name] : []));
}

/** The start that the review has run with the load that is named so. */
function wholeStart({ analysis: { design, starts }, idle }: { analysis: Analysis; idle: Load }): SettledStart | Unknown | undefined {
  return starts?.[design.loads.findIndex(({ name }) => name === idle.name)];
}

/** Why a start is no sure one; undefined where it is. */
function whyNot(start: SettledStart | Unknown): string | undefined {
  if ('unknown' in start) return start.unknown;
  if (start.outcome === 'runs') return undefined;
  const words = { latches: 'it latches', stalls: 'it does not start', undecided: 'undecided' };
  return `${words[start.outcome]}: ${start.why}`;
}

function startAt({ design, load }: { design: Design; load: Load }): SettledStart | Unknown {
  const low = { ...nominalCorner, supply: 1 - (design.supply.tolerance ?? 0) };
  const point = nominalPoint({ design, load });
  return settledStart({ design, point, weak: operatingPoint({ design, load, corner: low }) });
}

function loadEvents({ design, load }: { design: Design; load: Load }): Pick<VoltageStep, 'insertionPeak' | 'removalPeak'> {
  const point = nominalPoint({ design, load });
  const pair = usualPair(point);
  const peak = (event: TimedEvent | Unknown): Maybe => {
    if ('unknown' in event) return event;
    return event.outcome === 'runs' ? event.peaks.drain : { unknown: event.why };
  };
  return {
    insertionPeak: peak(timedDisturbance({ design, point, pair, disturbance: { kind: 'load application' } })),
    removalPeak: peak(timedDisturbance({ design, point, pair, disturbance: { kind: 'load removal' } })),
  };
}

function abortLimits({
  design,
  results,
  loads: { idle, loaded },
  limit,
  peaks,
}: {
  design: Design;
  results: readonly Result[];
  loads: ReadingLoads;
  limit: Ampere;
  /** Of start and load changes. */
  peaks: readonly Volt[];
}): AbortLimits {
  const corners = cornersOf(design);
  const pointsWith = (load: Load): readonly OperatingPoint[] => corners.map((corner) => operatingPoint({ design, load, corner }));
  const light = pointsWith(idle);
  const heavy = loaded === undefined ? [] : pointsWith(loaded);
  const both = [...light, ...heavy];
  const running = both.flatMap((point) => point.running ?? []);
  const drawn = (points: readonly OperatingPoint[]): Ampere =>
    Math.max(
      ...points.flatMap((point) => (point.running === undefined ? [] : drawnCurrent({ design, point, running: point.running }).total)),
    );
  const warnAt = (id: string): number | undefined => results.find((result) => result.id === id)?.warnAt ?? undefined;
  const least = (...values: readonly (number | undefined)[]): number => Math.min(...values.map((value) => value ?? Infinity));
  const junctionLimit = warnAt('switch-temperature');
  const inner = Math.max(0, ...running.map((state) => junctionOverCase({ design, running: state })).filter(isKnown));
  return {
    frequencyBelow: Math.min(...running.map(({ frequency }) => frequency)) * (1 - beyondCorners.frequency),
    frequencyAbove: Math.max(...running.map(({ frequency }) => frequency)) * (1 + beyondCorners.frequency),
    idleAbove: least(beyondCorners.idle * drawn(light), limit),
    ...(heavy.length === 0
      ? {}
      : {
          loadedAbove: least(
            beyondCorners.loaded * drawn(heavy),
            limit,
            chokeBound({ design, heavy, share: warnAt('choke-peak-current') }),
          ),
        }),
    drainAbove: least(beyondCorners.drain * Math.max(...running.map(({ drainPeak }) => drainPeak)), warnAt('switch-peak-voltage')),
    ...(peaks.length === 0 ? {} : { surgeAbove: least(beyondCorners.surge * Math.max(...peaks), warnAt('switch-surge-voltage')) }),
    ...optional('gateBelow', results.find(({ id }) => id === 'gate-drive-voltage')?.limit ?? undefined),
    ...optional('gateAbove', warnAt('gate-peak-voltage')),
    ...optional('capacitorAbove', warnAt('capacitor-temperature')),
    ...optional('switchAbove', junctionLimit === undefined ? undefined : junctionLimit - inner),
    ...optional('coilAbove', warnAt('coil-temperature')),
  };
}

function optional<K extends string>(key: K, value: number | undefined): Readonly<Partial<Record<K, number>>> {
  return (value === undefined ? {} : { [key]: value }) as Partial<Record<K, number>>;
}

/** Supply current at which a choke comes to where its check warns, its ripple taken off. */
function chokeBound({
  design,
  heavy,
  share,
}: {
  design: Design;
  heavy: readonly OperatingPoint[];
  share: Ampere | undefined;
}): Ampere | undefined {
  if (share === undefined) return undefined;
  const ripple = Math.max(0, ...heavy.map(({ running }) => running?.chokeRipple ?? 0));
  return Math.max(0, share - ripple / 2) * (design.chokes.arrangement === 'two' ? 2 : 1);
}
