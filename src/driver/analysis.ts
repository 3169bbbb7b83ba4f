import type { Design, Load } from '../project/design.ts';
import { cornersOf, nominalCorner, type Corner } from './corner.ts';
import { loadRemoval, switchOn, type Transient } from './events.ts';
import type { Unknown } from './known.ts';
import { settledStart, type SettledStart } from './settled-start.ts';
import { operatingPoint, type OperatingPoint } from './operating-point.ts';
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
}

/**
 * Every load of a design at its nominal values and at every corner of its tolerances, in closed form.
 *
 * Errors: DesignError, see tankAt.
 */
export function analysisOf(design: Design): Analysis {
  const judged = (load: Load, corner: Corner): Case =>
    corner.supply < 1
      ? { point: operatingPoint({ design, load, corner }), switchOn: undefined, loadRemoval: undefined }
      : caseAt({ design, load, corner, damping: 'least' });
  const corners = cornersOf(design);
  return {
    design,
    start: startOf(design),
    nominal: design.loads.map((load) => caseAt({ design, load, corner: nominalCorner, damping: 'nominal' })),
    corners: design.loads.flatMap((load) => corners.map((corner) => judged(load, corner))),
  };
}

/**
 * One load with these factors on the nominal values, transients included.
 *
 * @param damping  of a transient: all that there is, or only what is sure, as it is judged
 * Errors: DesignError, see tankAt.
 */
export function caseAt({
  design,
  load,
  corner,
  damping,
}: {
  design: Design;
  load: Load;
  corner: Corner;
  damping: 'nominal' | 'least';
}): Case {
  const point = operatingPoint({ design, load, corner });
  return { point, switchOn: switchOn({ design, point, damping }), loadRemoval: loadRemoval({ design, point, damping }) };
}

/**
 * An analysis with the starts of its loads run in the time domain, at the corner of each that has the highest peak: they take the
 * place of the envelope, whose other corners are then not asked.
 */
export function timedAnalysis(analysis: Analysis): Analysis {
  const { design, corners } = analysis;
  const starts: (SettledStart | Unknown)[] = [];
  const settled = design.loads.flatMap((load) => {
    const cases = corners.filter(({ point }) => point.load === load);
    const worst = highest(cases.filter(({ point }) => point.corner.supply >= 1));
    const weak = cases.reduce((a, b) => (b.point.corner.supply < a.point.corner.supply ? b : a));
    if (worst === undefined) return cases;
    const start = settledStart({ design, point: worst.point, weak: weak.point });
    starts.push(start);
    return cases.map((instance): Case => {
      if ('unknown' in start) return instance;
      return { ...instance, switchOn: instance === worst ? (start.transient ?? notRunning(start)) : undefined };
    });
  });
  return { ...analysis, corners: settled, starts };
}

function notRunning({ outcome }: SettledStart): Unknown {
  const words = { latches: 'the start latches', stalls: 'it does not start', undecided: 'the start is undecided', runs: 'it runs' };
  return { unknown: `in the time domain ${words[outcome]}: see latch-up` };
}

/** The case whose drains go highest, at switch-on if that is known, else at load removal. */
function highest(cases: readonly Case[]): Case | undefined {
  const [first] = cases;
  const peakOf = ({ switchOn, loadRemoval }: Case): number =>
    switchOn !== undefined && 'drainPeak' in switchOn
      ? switchOn.drainPeak
      : loadRemoval !== undefined && 'drainPeak' in loadRemoval
        ? loadRemoval.drainPeak
        : 0;
  return first && cases.reduce((a, b) => (peakOf(b) > peakOf(a) ? b : a), first);
}
