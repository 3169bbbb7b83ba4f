import { drawnCurrent } from '../checks/drawn-current.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import { currentShareFactor } from '../driver/bank-heat.ts';
import { steadyTemperature } from '../driver/coil-heat.ts';
import { isKnown, whenKnown, type Maybe, type Unknown } from '../driver/known.ts';
import type { OperatingPoint, Running } from '../driver/operating-point.ts';
import { totalLoss } from '../driver/switch-heat.ts';
import type { Design, Load, ReadingKey } from '../project/design.ts';

/** What a measurement on a running driver would read. */
export type PredictedReadings = Readonly<Record<ReadingKey, Maybe>>;

const notRunning: Unknown = { unknown: 'it does not oscillate with this load' };

/**
 * What a driver should read.
 *
 * @param design   the project
 * @param pointOf  the driver as it runs with a load
 * @param idle     load of supplyCurrentIdle
 * @param loaded   load of supplyCurrentLoaded; undefined where there is none
 * @param at       load of every other reading
 * @returns SI values, or why there is none; temperatures are steady ones
 */
export function predictedReadings({
  design,
  pointOf,
  idle,
  loaded,
  at,
}: {
  design: Design;
  pointOf: (load: Load) => OperatingPoint;
  idle: Load;
  loaded: Load | undefined;
  at: Load;
}): PredictedReadings {
  const points = new Map([idle, at, ...(loaded === undefined ? [] : [loaded])].map((load) => [load, pointOf(load)]));
  const point = points.get(at)!;
  const drawn = (load: Load | undefined): Maybe => {
    if (load === undefined) return { unknown: 'no load of the project adds anything to the coil’s own loss' };
    const its = points.get(load)!;
    return its.running === undefined ? notRunning : drawnCurrent({ design, point: its, running: its.running }).total;
  };
  const running = (value: (state: Running) => Maybe): Maybe => (point.running === undefined ? notRunning : value(point.running));
  const ambient = design.environment.ambient ?? assumedAmbient;
  return {
    frequency: running(({ frequency }) => frequency),
    drainPeak: running(({ drainPeak }) => drainPeak),
    tankCurrentPeak: running(({ tankCurrentPeak }) => tankCurrentPeak),
    supplyCurrentIdle: drawn(idle),
    supplyCurrentLoaded: drawn(loaded),
    gateHigh: point.gate.high,
    capacitorTemperature: running(({ bankRise }) =>
      whenKnown({ bankRise }, ({ bankRise: rise }) => ambient + rise * currentShareFactor(design) ** 2),
    ),
    switchTemperature: running((state) => caseTemperature({ design, running: state })),
    coilTemperature: running(() => steadyTemperature(point.coil)),
  };
}

/** How far the junction lies above the case of one switch; unknown where a rating is missing or nothing settles. */
export function junctionOverCase({ design, running }: { design: Design; running: Running }): Maybe {
  const { mosfet, parallel } = design.switches;
  const { junction, losses } = running;
  if ('unknown' in junction) return junction;
  if (!junction.found || losses === 'latched') return { unknown: 'the switches settle at no temperature' };
  if ('unknown' in losses) return losses;
  const inner = mosfet.ratings.junctionToCase?.value;
  return inner === undefined ? { unknown: `${mosfet.name} gives no junctionToCase` } : (totalLoss(losses) * inner) / parallel;
}

function caseTemperature({ design, running }: { design: Design; running: Running }): Maybe {
  const above = junctionOverCase({ design, running });
  const { junction } = running;
  if (!isKnown(above) || 'unknown' in junction) return above;
  return junction.temperature - above;
}
