import type { Design, Load } from '../project/design.ts';
import type { WarmCoil } from './coil-heat.ts';
import { cornersOf, type Corner } from './corner.ts';
import { loadRemoval, switchOn, type Transient } from './events.ts';
import type { GateNetwork } from './gate-network.ts';
import type { Unknown } from './known.ts';
import type { SettledStart } from './settled-start.ts';
import type { StartProbe } from './start-probe.ts';
import type { TimedEvents, WantedEvents } from './timed-events.ts';
import { nominalPoint, operatingPoint, type OperatingPoint } from './operating-point.ts';
import { startOf, type Start } from './start.ts';

/** A running state and the transients that lead to and away from it. */
export interface Case {
  readonly point: OperatingPoint;
  /** Undefined at the low end of the supply: a transient grows with it, so that end is never the worst. */
  readonly switchOn: Transient | Unknown | undefined;
  readonly loadRemoval: Transient | Unknown | undefined;
}

/** All that the closed forms say of a design. */
export interface Analysis {
  readonly design: Design;
  readonly start: Start | Unknown;
  /** One per load, at nominal values. */
  readonly nominal: readonly Case[];
  /** One per load and corner: what is judged. */
  readonly corners: readonly Case[];
  /** Of each load, in their order, where the time domain was asked for. */
  readonly starts?: readonly (SettledStart | Unknown)[];
  /** What the running driver makes of what happens to it, of each load in their order, likewise. */
  readonly events?: readonly TimedEvents[];
  /** Runs the start with other rise times, likewise. */
  readonly probe?: StartProbe;
  /** Which events were run, likewise. */
  readonly wanted?: WantedEvents;
}

/**
 * Every load of a design at its nominal values and at every corner of its tolerances, in closed form.
 *
 * Errors: DesignError, see operatingPoint.
 */
export function analysisOf(design: Design): Analysis {
  const judged = (load: Load, corner: Corner): Case =>
    corner.supply < 1 ? runningCase(operatingPoint({ design, load, corner })) : judgedCase({ design, load, corner });
  const corners = cornersOf(design);
  return {
    design,
    start: startOf(design),
    nominal: design.loads.map((load) => caseOf({ design, point: nominalPoint({ design, load }), damping: 'nominal' })),
    corners: design.loads.flatMap((load) => corners.map((corner) => judged(load, corner))),
  };
}

/**
 * One load with these factors on the nominal values as it is judged, transients included: the coil at its hottest, the transients damped
 * by what is sure.
 *
 * @param coil  as warm as it is; at its hottest where not given
 * @param gate  as operatingPoint takes it
 * Errors: DesignError, see operatingPoint.
 */
export function judgedCase(of: { design: Design; load: Load; corner: Corner; coil?: WarmCoil; gate?: GateNetwork }): Case {
  return caseOf({ design: of.design, point: operatingPoint(of), damping: 'least' });
}

/** @param damping  of a transient: all that there is, or only what is sure */
function caseOf({ design, point, damping }: { design: Design; point: OperatingPoint; damping: 'nominal' | 'least' }): Case {
  return { point, switchOn: switchOn({ design, point, damping }), loadRemoval: loadRemoval({ design, point, damping }) };
}

function runningCase(point: OperatingPoint): Case {
  return { point, switchOn: undefined, loadRemoval: undefined };
}

/**
 * The running driver alone, without the transients: every load at every corner.
 *
 * @param corners  those to look at; all where not given
 */
export function runningAnalysisOf(design: Design, corners: readonly Corner[] = cornersOf(design)): Analysis {
  return {
    design,
    start: startOf(design),
    nominal: design.loads.map((load) => runningCase(nominalPoint({ design, load }))),
    corners: design.loads.flatMap((load) => corners.map((corner) => runningCase(operatingPoint({ design, load, corner })))),
  };
}
